//! A start that cannot be made is a sentence with the next act.

use domain::say::Say;
use session::{OpenFault, Options, Session};
use words::Language;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;

fn refused(folder: &std::path::Path) -> OpenFault {
    let options = Options::by(Box::new(HandClock::new()));
    Session::open(folder, options).err().expect("it started")
}

#[test]
fn a_second_start_on_the_same_folder_is_refused_politely() {
    let folder = tempfile::tempdir().unwrap();
    let first = Nurse::start(folder.path(), &HandClock::new());
    assert_eq!(refused(folder.path()).say(), Say::RecordInUse);
    first.session.close();
    Nurse::start(folder.path(), &HandClock::new());
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
            let said = words::say(&fault.say(), language).unwrap();
            assert!(said.split_whitespace().count() <= 24, "{said}");
        }
    }
}

#[test]
fn a_record_of_events_this_version_cannot_read_is_refused_by_its_entry() {
    let folder = tempfile::tempdir().unwrap();
    let (mut journal, _) = journal::Journal::open(folder.path()).unwrap();
    journal.append(&[b"{\"from\":\"elsewhere\"}".to_vec()]).unwrap();
    drop(journal);
    assert_eq!(refused(folder.path()).say(), Say::RecordBroken { entry: "1".into() });
}
