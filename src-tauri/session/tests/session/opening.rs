//! A start that cannot be made is a sentence with the next act.

use std::path::Path;

use domain::say::{Say, figure};
use session::{OpenFault, Options, Session};
use words::Language;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;

fn refused(folder: &Path) -> OpenFault {
    let options = Options::by(Box::new(HandClock::new()));
    Session::open(folder, options).err().expect("it started")
}

#[test]
fn a_second_start_on_the_same_folder_is_refused_politely() {
    let folder = tempfile::tempdir().unwrap();
    let first = Nurse::start(folder.path(), &HandClock::new());
    assert_eq!(refused(folder.path()).say(folder.path()), Say::RecordInUse);
    first.session.close();
    Nurse::start(folder.path(), &HandClock::new());
}

const FOLDER: &str = "/home/ward-6/holdfast";

/// The others are about the tablet, or about a folder that nobody has to look into.
fn is_of_a_folder(fault: &OpenFault) -> bool {
    use journal::Fault::{Device, DiskFull, Held, InUse, Latched};
    let elsewhere =
        |fault: &journal::Fault| matches!(fault, InUse | Held | DiskFull | Device(_) | Latched(_));
    matches!(fault, OpenFault::Record(fault) if !elsewhere(fault))
}

#[test]
fn every_refused_start_has_words_in_every_language() {
    use journal::{Break, Fault};
    let faults = [
        Fault::InUse,
        Fault::Held,
        Fault::DiskFull,
        Fault::ReadOnly,
        Fault::NoFolder("Not a directory".into()),
        Fault::Missing,
        Fault::NoRecord,
        Fault::NotAJournal,
        Fault::Newer { found: 2, known: 1 },
        Fault::UnknownVersion { found: 0, known: 1 },
        Fault::Altered("chain".into()),
        Fault::Broken(Break::Link { seq: 4 }),
        Fault::Broken(Break::Shortened { had: 9, has: 4 }),
        Fault::Damaged("malformed".into()),
        Fault::Device("input/output".into()),
        Fault::Latched(Box::new(Fault::Device("input/output".into()))),
    ];
    let starts = faults
        .map(OpenFault::Record)
        .into_iter()
        .chain([OpenFault::NoClock, OpenFault::NoThread("none".into())]);
    for fault in starts {
        for language in [Language::English, Language::Pseudo] {
            let said = words::say(&fault.say(Path::new(FOLDER)), language).unwrap();
            assert!(said.split_whitespace().count() <= 24, "{said}");
            assert_eq!(said.contains(FOLDER), is_of_a_folder(&fault), "{said}");
        }
    }
}

#[test]
fn a_record_of_events_this_version_cannot_read_is_refused_by_its_entry() {
    let folder = tempfile::tempdir().unwrap();
    let (mut journal, _) = journal::Journal::open(folder.path()).unwrap();
    journal.append(&[b"{\"from\":\"elsewhere\"}".to_vec()]).unwrap();
    drop(journal);
    let place = Box::new(figure(folder.path().display().to_string()));
    let broken = Say::RecordBroken { folder: place, entry: "1".into() };
    assert_eq!(refused(folder.path()).say(folder.path()), broken);
}

/// Whoever is told so keeps the folder and uses paper; an empty history is shown by no start.
#[test]
fn a_record_cut_to_nothing_is_no_new_one() {
    for left in [0, 10] {
        let folder = tempfile::tempdir().unwrap();
        Nurse::in_a_check(folder.path(), &HandClock::new()).session.close();
        let file = folder.path().join("journal.sqlite3");
        let whole = std::fs::read(&file).unwrap();
        std::fs::write(&file, &whole[..left]).unwrap();
        for _ in 0..2 {
            let said = words::say(&refused(folder.path()).say(folder.path()), Language::English).unwrap();
            let place = folder.path().display().to_string();
            assert!(said.contains(&place) && said.contains("damaged"), "{said}");
            assert!(
                said.contains("Keep the folder, use paper") && !said.contains("another folder"),
                "{said}"
            );
        }
        assert_eq!(std::fs::read(&file).unwrap(), whole[..left], "left as it was");
        std::fs::write(&file, &whole).unwrap();
        Nurse::start(folder.path(), &HandClock::new());
    }
}
