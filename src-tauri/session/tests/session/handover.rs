//! The tablet's key, and codes that come from other tablets, through the running session.

use std::path::Path;

use domain::command::Command;
use domain::contract::{Shape, View};
use domain::event::What;
use domain::handover::arrived::NotLoaded;
use domain::say::Say;
use domain::state::screen::Screen;
use words::Language;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;
use crate::recording::events;

fn english(say: &Say) -> String {
    words::say(say, Language::English).unwrap()
}

fn at_work(folder: &Path) -> Nurse {
    let mut nurse = Nurse::start(folder, &HandClock::new());
    if matches!(nurse.view.shape, Shape::List(_) | Shape::Ask(_)) {
        nurse.ask(Command::Welcomed);
    }
    nurse
}

fn tablets(nurse: &mut Nurse) -> View<String> {
    nurse.ask(Command::Go(Screen::Tablets));
    nurse.view.clone()
}

fn key_file(folder: &Path) -> std::path::PathBuf {
    folder.join("tablet.key")
}

#[test]
fn the_first_start_makes_a_key_for_nobody_elses_eyes_and_every_later_one_keeps_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = at_work(folder.path());
    let first = tablets(&mut nurse).head.subtitle.unwrap();
    nurse.session.close();
    let seed = std::fs::read(key_file(folder.path())).unwrap();
    assert_eq!(seed.len(), 32);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = std::fs::metadata(key_file(folder.path())).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
    let mut again = at_work(folder.path());
    assert_eq!(tablets(&mut again).head.subtitle.unwrap(), first);
    again.session.close();
    assert_eq!(std::fs::read(key_file(folder.path())).unwrap(), seed);
    let other = tempfile::tempdir().unwrap();
    assert_ne!(tablets(&mut at_work(other.path())).head.subtitle.unwrap(), first, "each tablet has its own");
}

/// Neither as bytes nor as hexadecimal digits nor as a list of numbers.
#[test]
fn the_key_stands_in_no_other_file() {
    let folder = tempfile::tempdir().unwrap();
    let nurse = at_work(folder.path());
    nurse.session.close();
    let seed = std::fs::read(key_file(folder.path())).unwrap();
    let hexadecimal: String = seed.iter().map(|byte| format!("{byte:02x}")).collect();
    let listed = serde_json::to_string(&seed).unwrap();
    for entry in std::fs::read_dir(folder.path()).unwrap() {
        let path = entry.unwrap().path();
        if path == key_file(folder.path()) {
            continue;
        }
        let bytes = std::fs::read(&path).unwrap();
        for secret in [seed.as_slice(), hexadecimal.as_bytes(), listed.as_bytes()] {
            assert!(!bytes.windows(secret.len()).any(|part| part == secret), "in {}", path.display());
        }
    }
}

#[test]
fn a_key_that_is_gone_or_damaged_is_told_and_made_anew_only_by_a_person() {
    for (damage, said) in [(None, Say::KeyGone), (Some(31), Say::KeyDamaged), (Some(33), Say::KeyDamaged)] {
        let folder = tempfile::tempdir().unwrap();
        at_work(folder.path()).session.close();
        let before = std::fs::read(key_file(folder.path())).unwrap();
        match damage {
            None => std::fs::remove_file(key_file(folder.path())).unwrap(),
            Some(bytes) => std::fs::write(key_file(folder.path()), vec![5; bytes]).unwrap(),
        }
        let mut nurse = at_work(folder.path());
        let lost = tablets(&mut nurse);
        assert_eq!((lost.head.subtitle, lost.notice), (None, Some(english(&said))));
        nurse.send(Command::MakeKey);
        nurse.wait("the new key", |view| view.head.subtitle.is_some());
        nurse.session.close();
        let made = std::fs::read(key_file(folder.path())).unwrap();
        assert_eq!(made.len(), 32);
        assert_ne!(made, before);
        let known = events(folder.path()).into_iter().filter(|event| matches!(event.what, What::KeyKnown(_)));
        assert_eq!(known.count(), 2);
    }
}

fn refused(nurse: &mut Nurse, typed: &str, why: &Say) {
    nurse.ask(Command::Go(Screen::Load { bed: None }));
    nurse.type_in(Command::LoadTyped { bed: None }, "code", typed);
    let said = english(why);
    nurse.wait(typed, |view| view.notice.as_ref() == Some(&said));
}

#[test]
fn what_is_no_code_of_ours_is_refused_in_its_own_sentence_and_nothing_is_taken() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = at_work(folder.path());
    refused(&mut nurse, "bread and milk", &Say::NotLoadedNotACode);
    refused(&mut nurse, "HOLDFAST 1 en: cut", &Say::NotLoadedDamaged);
    refused(&mut nurse, "holdfast 1 en: cut", &Say::NotLoadedMangled);
    refused(&mut nurse, &format!("HOLDFAST 1 en: {}", "A".repeat(3_000)), &Say::NotLoadedTooLong);
    refused(&mut nurse, "HOLDFAST 1 en: \0\0", &Say::NotLoadedDamaged);
    nurse.session.close();
    let record = std::fs::read(folder.path().join("journal.sqlite3")).unwrap();
    assert!(!record.windows(5).any(|part| part == b"bread"), "what is no code is not recorded");
    let taken = events(folder.path()).into_iter().filter(|event| {
        matches!(event.what, What::HandoverTaken { .. } | What::LoadEnded { outcome: Ok(_), .. })
    });
    assert_eq!(taken.count(), 0);
}

#[test]
fn a_picture_is_taken_only_by_the_card_that_asks_and_answered_there() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = at_work(folder.path());
    nurse.session.hand_in("handover-picture", b"no picture").unwrap();
    nurse.ask(Command::Go(Screen::Load { bed: None }));
    nurse.session.hand_in("handover-picture", b"").unwrap();
    let said = english(&Say::NotLoadedNotAPicture);
    nurse.wait("the sentence", |view| view.notice.as_ref() == Some(&said));
    nurse.session.hand_in("handover-picture", &vec![0; domain::contract::FILE_MOST as usize]).unwrap();
    let said = english(&Say::NotLoadedPictureTooLong);
    nurse.wait("the sentence", |view| view.notice.as_ref() == Some(&said));
    nurse.session.close();
    let begun =
        events(folder.path()).into_iter().filter(|event| matches!(event.what, What::LoadBegun { .. }));
    assert_eq!(begun.count(), 1, "the empty picture alone");
}

/// The picture's bytes are in no record: a tablet that died while it read says so.
#[test]
fn a_reading_that_the_app_did_not_finish_is_told_at_the_next_start() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = at_work(folder.path());
    nurse.ask(Command::Go(Screen::Load { bed: None }));
    nurse.session.close();
    begin_a_picture(folder.path());
    let mut again = Nurse::start(folder.path(), &HandClock::new());
    let said = english(&Say::NotLoadedInterrupted);
    again.wait("the sentence", |view| view.notice.as_ref() == Some(&said));
    again.session.close();
    let last = events(folder.path()).into_iter().rev().find_map(|event| {
        if let What::LoadEnded { outcome, .. } = event.what { Some(outcome) } else { None }
    });
    assert_eq!(last, Some(Err(NotLoaded::Interrupted)));
}

/// What the record of such a tablet ends with.
fn begin_a_picture(folder: &Path) {
    use domain::Event;
    use domain::handover::arrived::Source;
    let at = events(folder).last().unwrap().at;
    let whats =
        [What::LoadBegun { load: 0, bed: None, source: Source::Picture(9) }, What::Went(Screen::Reading)];
    let bodies = whats.map(|what| serde_json::to_vec(&Event { at, what }).unwrap());
    let (mut journal, _) = journal::Journal::open(folder).unwrap();
    journal.append(&bodies).unwrap();
}
