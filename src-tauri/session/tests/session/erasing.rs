//! By the unit's rule, once the wires are out: the bodies go, the proof stays, and nothing brings them back.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command as Program, Stdio};

use domain::command::Command;
use domain::contract::Shape;
use domain::event::What;
use domain::leaving::Way;
use domain::state::screen::Screen;
use domain::transport::answer::Answer;
use domain::transport::step::Step;
use session::restore_into;

use crate::crash::can_trace;
use crate::exporting::{place, written};
use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;
use crate::recording::events;
use crate::restoring::{NOW, backed_up};
use crate::wards::{stopped_with_dials_owed, with_dials_owed};

const DAY_MS: i64 = 86_400_000;
/// What was typed of the patient: the label of the bed, and whoever was named in the check.
const TYPED: [&str; 2] = ["Bay 3 (invented)", "A. Example (invented)"];
const ERASER: &str = "E. Raser (invented)";

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() { files(&path, found) } else { found.push(path) }
    }
}

/// Files in which one of the words stands, whatever they are.
fn holding<T: AsRef<str>>(folder: &Path, words: &[T]) -> Vec<PathBuf> {
    let mut all = Vec::new();
    files(folder, &mut all);
    let holds = |path: &PathBuf| {
        let bytes = fs::read(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        words.iter().map(AsRef::as_ref).any(|word| find(&bytes, word.as_bytes()))
    };
    all.retain(holds);
    all
}

/// Shows the code of the one wire; its lines.
fn shown_code(nurse: &mut Nurse, folder: &Path) -> String {
    nurse.ask(Command::Go(Screen::Code { bed: 1, wire: 1 }));
    nurse.wait("the code", |view| matches!(&view.shape, Shape::Code(code) if !code.modules.is_empty()));
    folded(folder).wire(1, 1).unwrap().code.clone().unwrap().lines.unwrap()
}

fn code_of_another_tablet() -> String {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &HandClock::new());
    shown_code(&mut nurse, folder.path())
}

/// A code is taken in for the patient of bed 1; then it comes once more, and nobody takes it.
fn handed_over(nurse: &mut Nurse, lines: &str) {
    for is_taken in [true, false] {
        nurse.ask(Command::Go(Screen::Load { bed: Some(1) }));
        nurse.type_in(Command::LoadTyped { bed: Some(1) }, "code", lines);
        nurse
            .wait("what it says", |view| view.aside.iter().chain(&view.answers).any(|act| act.key == "take"));
        if is_taken {
            nurse.type_in(Command::TakeIn { at: 0 }, "patient", "same");
        }
    }
}

/// The signature of a code, as it stands in a record.
fn signature(lines: &str) -> &str {
    lines.rsplit_once("SIG ").unwrap().1
}

fn find(bytes: &[u8], word: &[u8]) -> bool {
    let first = word[0];
    let mut at = 0;
    while let Some(next) = bytes[at..].iter().position(|byte| *byte == first) {
        at += next;
        if bytes[at..].starts_with(word) {
            return true;
        }
        at += 1;
    }
    false
}

/// A patient with a check, an export, a code shown and one taken in, who has left; a second in another bed. And what
/// must not be found any more once the first is erased: what was typed, and both codes.
fn left(folder: &Path, clock: &HandClock) -> (Nurse, Vec<String>) {
    left_after(folder, clock, |_| {})
}

/// The same, with something that happened while the patient still lay in the bed.
fn left_after(folder: &Path, clock: &HandClock, happened: impl FnOnce(&mut Nurse)) -> (Nurse, Vec<String>) {
    let mut nurse = with_dials_owed(folder, clock);
    let own = shown_code(&mut nurse, folder);
    let other = code_of_another_tablet();
    let codes = [&own, &other].map(|lines| signature(lines).to_owned());
    let words: Vec<String> = TYPED.iter().map(|typed| (*typed).to_owned()).chain(codes).collect();
    nurse.ask(Command::Go(Screen::Export { bed: 1, wire: 1 }));
    nurse.ask(Command::Export { bed: 1, wire: 1 });
    place(&written(&mut nurse, folder));
    nurse.ask(Command::Go(Screen::ReadOwed { bed: 1, wire: 1 }));
    nurse.ask(Command::ReadOwed { bed: 1, wire: 1 });
    handed_over(&mut nurse, &other);
    happened(&mut nurse);
    nurse.ask(Command::Go(Screen::NewBed));
    nurse.type_in(Command::AddBed, "label", "Bay 9");
    nurse.ask(Command::AddWire { bed: 2 });
    nurse.ask(Command::RemoveBed { bed: 1 });
    for word in &words {
        assert!(!holding(folder, &[word]).is_empty(), "{word} is in no file before");
    }
    (nurse, words)
}

fn erase(nurse: &mut Nurse) {
    nurse.clock.pass(31 * DAY_MS);
    nurse.ask(Command::Go(Screen::EraseAsk { at: 0 }));
    nurse.type_in(Command::Erase { at: 0 }, "name", ERASER);
}

fn erased(nurse: &mut Nurse, folder: &Path) {
    for _ in 0..400 {
        let state = folded(folder);
        if state.erasing.is_none() && !state.erased.is_empty() {
            return;
        }
        nurse.glance(20);
    }
    panic!("not erased: {:?}", folded(folder).erasing);
}

#[test]
fn after_an_erasure_no_file_holds_what_was_typed_and_the_proof_stands() {
    let folder = tempfile::tempdir().unwrap();
    let (mut nurse, words) = left(folder.path(), &HandClock::new());
    backed_up(&mut nurse, folder.path());
    erase(&mut nurse);
    erased(&mut nurse, folder.path());
    nurse.ask(Command::Go(Screen::Erased));
    assert!(serde_json::to_string(&nurse.view).unwrap().contains(ERASER), "{:?}", nurse.view);
    // This test's own reading may have stood in the way of the log for a moment.
    let clean = (0..400).any(|_| {
        nurse.glance(20);
        holding(folder.path(), &words).is_empty()
    });
    assert!(clean, "while it runs: {:?}", holding(folder.path(), &words));
    nurse.session.close();
    assert_eq!(holding(folder.path(), &words), Vec::<PathBuf>::new());

    let verified = session::verify(folder.path()).unwrap();
    let state = session::read(folder.path()).unwrap();
    let proof = &state.erased[0];
    assert_eq!((proof.entries, proof.after_days), (verified.erased, 30));
    assert!(proof.entries > 20, "{proof:?}");
    let ways: Vec<Way> = proof.left.iter().map(|left| left.way).collect();
    assert_eq!(ways, [Way::Code, Way::Files, Way::Backup]);
    assert!(state.closed.is_empty());
    assert_eq!(state.beds.iter().map(|bed| bed.label.as_str()).collect::<Vec<_>>(), ["Bay 9"]);
    assert_eq!(state.beds[0].wires.len(), 1, "the other patient is as before");

    let nurse = Nurse::start(folder.path(), &HandClock::at(4_000_000_000));
    nurse.session.close();
    assert_eq!(folded_standing(folder.path()).beds, state.beds);
}

fn exported(folder: &Path) -> BTreeSet<String> {
    let entries = fs::read_dir(folder.join("Exports")).unwrap();
    entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
}

/// By their names: what is packed or drawn in them is found by no search for bytes.
#[test]
fn the_patients_files_and_every_backup_go_and_the_others_stay() {
    let folder = tempfile::tempdir().unwrap();
    let (mut nurse, _) = left(folder.path(), &HandClock::new());
    let theirs = exported(folder.path());
    assert!(theirs.len() == 1 && theirs.iter().all(|name| name.starts_with("checks-")), "{theirs:?}");
    nurse.ask(Command::Go(Screen::Bed { bed: 2 }));
    nurse.ask(Command::Begin { bed: 2, wire: 1 });
    stopped_with_dials_owed(&mut nurse, folder.path(), 2);
    nurse.clock.pass(60_000);
    nurse.ask(Command::Go(Screen::Export { bed: 2, wire: 1 }));
    nurse.ask(Command::Export { bed: 2, wire: 1 });
    place(&written(&mut nurse, folder.path()));
    let both = exported(folder.path());
    assert_eq!(both.len(), 2, "{both:?}");
    nurse.ask(Command::Go(Screen::Beds));
    backed_up(&mut nurse, folder.path());
    let backups = exported(folder.path()).into_iter().filter(|name| name.starts_with("backup-")).count();
    assert_eq!((backups, exported(folder.path()).len()), (1, 3));
    erase(&mut nurse);
    erased(&mut nurse, folder.path());
    nurse.session.close();
    let others: BTreeSet<String> = both.difference(&theirs).cloned().collect();
    assert_eq!(exported(folder.path()), others);
}

/// Folded from what stands.
fn folded_standing(folder: &Path) -> domain::State {
    session::read(folder).unwrap()
}

#[test]
fn nothing_is_erased_before_the_rule_lets_it_go_or_without_a_name() {
    let folder = tempfile::tempdir().unwrap();
    let (mut nurse, _) = left(folder.path(), &HandClock::new());
    nurse.clock.pass(29 * DAY_MS);
    nurse.ask(Command::Go(Screen::EraseAsk { at: 0 }));
    assert!(!nurse.view.answers.iter().any(|act| act.key == "erase"));
    nurse.send(Command::Erase { at: 0 });
    nurse.drain();
    nurse.clock.pass(2 * DAY_MS);
    nurse.ask(Command::Go(Screen::Beds));
    nurse.ask(Command::Go(Screen::EraseAsk { at: 0 }));
    nurse.type_in(Command::Erase { at: 0 }, "name", "  ");
    assert!(nurse.view.notice.is_some());
    assert_eq!(folded(folder.path()).closed.len(), 1);
    assert!(!events(folder.path()).iter().any(|event| matches!(event.what, What::EraseAsked(_))));
}

/// Restored over the record, it is erased again, there and in what was put aside; where that is.
fn restored_without(folder: &Path, bytes: &[u8], words: &[String]) -> PathBuf {
    let aside = folder.with_extension("aside");
    let done = restore_into(folder, bytes, Some(&aside), NOW).unwrap();
    assert_eq!(done.erased_again, 1);
    assert_eq!(holding(folder, words), Vec::<PathBuf>::new());
    assert_eq!(holding(&aside, words), Vec::<PathBuf>::new(), "nor does the record put aside");
    aside
}

#[test]
fn an_older_backup_does_not_bring_the_erased_back() {
    let folder = tempfile::tempdir().unwrap();
    let (mut nurse, words) = left(folder.path(), &HandClock::new());
    let bytes = backed_up(&mut nurse, folder.path());
    erase(&mut nurse);
    erased(&mut nurse, folder.path());
    nurse.session.close();
    let aside = restored_without(folder.path(), &bytes, &words);
    let state = session::read(folder.path()).unwrap();
    assert_eq!((state.erased.len(), state.closed.len(), state.beds.len()), (1, 0, 1));
    assert!(session::verify(folder.path()).unwrap().erased > 20);
    fs::remove_dir_all(aside).unwrap();
}

/// What the transport below is told: a place and both initials.
const TRANSPORTED: [&str; 3] = ["Room Zebra (invented)", "Old Zebra", "New Zebra"];

/// Names said, dials read, nobody has left yet: then it is broken off.
fn transported(nurse: &mut Nurse, folder: &Path) {
    nurse.ask(Command::BeginTransport { bed: 1 });
    nurse.ask(Command::TransportGoing);
    nurse.ask(Command::Transport(Answer::Yes));
    nurse.ask(Command::Transport(Answer::AllTrue));
    while folded(folder).beds[0].transport.as_ref().unwrap().facts.step == Step::Read {
        nurse.ask(Command::TransportTypedDials);
    }
    nurse.ask(Command::Transport(Answer::AllTrue));
    nurse.ask(Command::TransportSigned);
    nurse.ask(Command::Transport(Answer::Stop));
}

/// One from before the bed went, a transport and all: the whole state written for the erasure holds nothing of it.
#[test]
fn nor_does_a_backup_from_when_the_patient_lay_in_the_bed() {
    let folder = tempfile::tempdir().unwrap();
    let mut bytes = Vec::new();
    let (mut nurse, mut words) = left_after(folder.path(), &HandClock::new(), |nurse| {
        transported(nurse, folder.path());
        bytes = backed_up(nurse, folder.path());
    });
    words.extend(TRANSPORTED.map(str::to_owned));
    erase(&mut nurse);
    erased(&mut nurse, folder.path());
    nurse.session.close();
    assert_eq!(holding(folder.path(), &words), Vec::<PathBuf>::new());
    let raw = tempfile::tempdir().unwrap();
    restore_into(raw.path(), &bytes, None, NOW).unwrap();
    for word in &words {
        assert!(!holding(raw.path(), &[word]).is_empty(), "{word} is in the backup");
    }
    let aside = restored_without(folder.path(), &bytes, &words);
    let state = session::read(folder.path()).unwrap();
    assert_eq!((state.erased.len(), state.closed.len(), state.beds.len()), (1, 0, 0));
    assert_eq!(state.screen, Screen::Beds);
    let nurse = Nurse::start(folder.path(), &HandClock::at(4_000_000_000));
    nurse.session.close();
    assert_eq!(holding(folder.path(), &words), Vec::<PathBuf>::new(), "after a start on it");
    fs::remove_dir_all(aside).unwrap();
}

const FOLDER: &str = "HOLDFAST_TEST_ERASE_FOLDER";
const LATER_MS: i64 = 3_600_000 + 40 * DAY_MS;

/// Not a test by itself: it does nothing unless the test below started it.
#[test]
fn child() {
    let Ok(folder) = std::env::var(FOLDER).map(PathBuf::from) else { return };
    let mut nurse = Nurse::start(&folder, &HandClock::at(LATER_MS));
    println!("started");
    nurse.ask(Command::Go(Screen::EraseAsk { at: 0 }));
    nurse.type_in(Command::Erase { at: 0 }, "name", ERASER);
    erased(&mut nurse, &folder);
    nurse.session.close();
    println!("the end");
}

fn copied(from: &Path) -> tempfile::TempDir {
    let memory = Path::new("/dev/shm");
    let place = if memory.is_dir() { memory.to_owned() } else { std::env::temp_dir() };
    let to = tempfile::tempdir_in(place).unwrap();
    let mut all = Vec::new();
    files(from, &mut all);
    for file in all.into_iter().filter(|file| file.file_name().is_some_and(|name| name != "reserve")) {
        let into = to.path().join(file.strip_prefix(from).unwrap());
        fs::create_dir_all(into.parent().unwrap()).unwrap();
        fs::copy(file, into).unwrap();
    }
    to
}

/// Killed as it enters its `n`th call of this kind; `false` when it came to its end before.
fn killed_at_call(call: &str, n: u32, folder: &Path) -> bool {
    let output = Program::new("strace")
        .args(["-f", "-qq", "-o", "/dev/null", "-e", &format!("trace={call}")])
        .args(["-e", &format!("inject={call}:signal=KILL:when={n}")])
        .arg(std::env::current_exe().unwrap())
        .args(["--exact", "erasing::child", "--nocapture", "--test-threads", "1"])
        .env(FOLDER, folder)
        .stderr(Stdio::null())
        .output()
        .unwrap();
    !String::from_utf8_lossy(&output.stdout).contains("the end")
}

/// Before the yes everything stands; after it, the next start has nothing left but the proof.
fn either_before_or_after(folder: &Path, words: &[String]) -> bool {
    let asked = events_that_stand(folder).iter().any(|what| matches!(what, What::EraseAsked(_)));
    let mut nurse = Nurse::start(folder, &HandClock::at(LATER_MS + DAY_MS));
    if asked {
        erased(&mut nurse, folder);
    }
    nurse.session.close();
    let state = session::read(folder).unwrap();
    session::verify(folder).unwrap();
    if asked {
        assert_eq!(holding(folder, words), Vec::<PathBuf>::new());
        assert_eq!((state.erased.len(), state.closed.len()), (1, 0));
    } else {
        assert!(!holding(folder, words).is_empty());
        assert_eq!((state.erased.len(), state.closed.len()), (0, 1));
    }
    asked
}

fn events_that_stand(folder: &Path) -> Vec<What> {
    let mut whats = Vec::new();
    journal::verify(folder, |record| {
        let event: domain::Event = serde_json::from_slice(record.body).map_err(|_| journal::Unreadable)?;
        whats.push(event.what);
        Ok(())
    })
    .unwrap();
    whats
}

#[test]
fn killed_at_every_write_of_an_erasure_it_is_before_or_after_never_half() {
    if !can_trace() {
        return;
    }
    let ready = tempfile::tempdir().unwrap();
    let (nurse, words) = left(ready.path(), &HandClock::new());
    nurse.session.close();
    let (mut before, mut after) = (0, 0);
    for call in ["pwrite64", "fdatasync", "fsync", "ftruncate", "unlink", "unlinkat", "rmdir"] {
        for n in 1..=120 {
            let folder = copied(ready.path());
            if !killed_at_call(call, n, folder.path()) {
                break;
            }
            match either_before_or_after(folder.path(), &words) {
                true => after += 1,
                false => before += 1,
            }
        }
    }
    println!("{} kills: {before} before the erasure was asked for, {after} after", before + after);
    assert!(before > 3 && after > 20, "{before} before, {after} after");
}
