//! A backup comes back on another tablet, or nothing is changed and a sentence says why.

use std::fs;
use std::path::Path;

use domain::command::Command;
use domain::contract::FILE_MOST;
use domain::leaving::NotRestorable;
use domain::say::Say;
use domain::state::screen::Screen;
use session::{NotRestored, Relation, restore_into};

use crate::exporting::{english, place, written};
use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;
use crate::wards::with_dials_owed;

pub const NOW: domain::moment::Moment = domain::moment::Moment {
    wall_ms: 1_798_000_000_000,
    offset_min: 60,
    boot_ms: 1_000,
    boot: 77,
    fresh: [4; 16],
};

/// Writes a backup on the tablet of `nurse`; its bytes.
pub fn backed_up(nurse: &mut Nurse, folder: &Path) -> Vec<u8> {
    nurse.ask(Command::Go(Screen::Backup));
    nurse.ask(Command::BackUp);
    fs::read(place(&written(nurse, folder))).unwrap()
}

fn a_ward() -> (tempfile::TempDir, Vec<u8>) {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &HandClock::new());
    let bytes = backed_up(&mut nurse, folder.path());
    nurse.session.close();
    (folder, bytes)
}

fn empty_tablet(folder: &Path) -> Nurse {
    let mut nurse = Nurse::start(folder, &HandClock::at(9_000_000));
    nurse.ask(Command::Welcomed);
    nurse.ask(Command::Go(Screen::Restore));
    nurse
}

#[test]
fn an_empty_tablet_restores_and_goes_on_where_the_other_ended() {
    let (source, bytes) = a_ward();
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = empty_tablet(folder.path());
    nurse.hand_in("backup", &bytes);
    let asked = english(&Say::RestorableAsk);
    assert!(serde_json::to_string(&nurse.view).unwrap().contains(&asked), "{:?}", nurse.view);
    let own_key = folded(folder.path()).own_key;
    nurse.send(Command::Restore);
    nurse.wait("the beds", |view| serde_json::to_string(view).unwrap().contains("Bay 3 (invented)"));
    nurse.ask(Command::Go(Screen::History { bed: 1, wire: 1 }));
    nurse.session.close();
    let (here, there) = (folded(folder.path()), folded(source.path()));
    assert_eq!(here.wire(1, 1).unwrap().records, there.wire(1, 1).unwrap().records);
    assert_eq!(here.own_key, own_key, "it signs by its own key");
    assert_ne!(here.own_key, there.own_key);
    assert_eq!(here.writing, None, "what the other tablet was writing is not written here");
    assert!(!folder.path().join("Exports").exists());
    session::verify(folder.path()).unwrap();
    assert!(!folder.path().join("restore.new").exists());
    let again = Nurse::start(folder.path(), &HandClock::at(9_900_000));
    assert!(serde_json::to_string(&again.view).unwrap().contains("Bay 3 (invented)"));
}

#[test]
fn every_fault_of_a_file_is_a_sentence_and_changes_nothing() {
    let (_source, bytes) = a_ward();
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = empty_tablet(folder.path());
    let mut flipped = bytes.clone();
    *flipped.last_mut().unwrap() ^= 1;
    let mut newer = bytes.clone();
    newer[17] = 9;
    let cases: [(&[u8], Say); 5] = [
        (&bytes[..bytes.len() / 2], Say::BackupCutShort),
        (&flipped, Say::BackupAltered),
        (&newer, Say::BackupNewer),
        (b"{}", Say::NotABackup),
        (&[], Say::NotABackup),
    ];
    for (file, say) in cases {
        nurse.ask(Command::Go(Screen::Beds));
        nurse.ask(Command::Go(Screen::Restore));
        nurse.hand_in("backup", file);
        assert_eq!(nurse.view.notice, Some(english(&say)));
        assert!(!folder.path().join("restore.new").exists());
    }
    let state = folded(folder.path());
    assert!(state.is_untouched() && state.restorable.is_none());
}

#[test]
fn a_tablet_that_holds_something_takes_no_backup() {
    let (_source, bytes) = a_ward();
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::in_a_check(folder.path(), &HandClock::new());
    let before = folded(folder.path());
    nurse.session.hand_in("backup", &bytes).unwrap();
    nurse.send(Command::Go(Screen::Restore));
    nurse.drain();
    assert_eq!(folded(folder.path()).beds, before.beds);
    assert!(!folder.path().join("restore.new").exists());
}

#[test]
fn an_older_backup_is_refused_and_by_choice_puts_the_present_record_aside() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &HandClock::new());
    let bytes = backed_up(&mut nurse, folder.path());
    nurse.ask(Command::Go(Screen::Settings));
    nurse.session.close();
    let before = crate::recording::events(folder.path());
    let refused = restore_into(folder.path(), &bytes, None, NOW);
    let Err(NotRestored::Stands(Relation::HasNewer(more))) = refused else { panic!("{refused:?}") };
    assert!(more > 0);
    assert_eq!(crate::recording::events(folder.path()), before, "nothing was changed");
    let aside = folder.path().with_extension("aside");
    let done = restore_into(folder.path(), &bytes, Some(&aside), NOW).unwrap();
    assert_eq!(done.aside.as_deref(), Some(aside.as_path()));
    assert_eq!(crate::recording::events(&aside), before, "the present one opens where it lies");
    assert_eq!(crate::recording::events(folder.path()).len(), before.len() - more as usize);
    Nurse::start(folder.path(), &HandClock::at(9_900_000)).session.close();
    let taken = restore_into(folder.path(), &bytes, Some(&aside), NOW);
    assert_eq!(taken, Err(NotRestored::AsideTaken(aside.join("journal.sqlite3"))));
    assert_eq!(crate::recording::events(&aside), before, "what was put aside before is not written over");
    fs::remove_dir_all(aside).unwrap();
}

#[test]
fn a_backup_of_another_tablet_is_refused_where_something_stands() {
    let (_source, bytes) = a_ward();
    let folder = tempfile::tempdir().unwrap();
    Nurse::in_a_check(folder.path(), &HandClock::new()).session.close();
    let refused = restore_into(folder.path(), &bytes, None, NOW);
    assert_eq!(refused, Err(NotRestored::Stands(Relation::Another)));
    let fresh = tempfile::tempdir().unwrap();
    let done = restore_into(&fresh.path().join("data"), &bytes, None, NOW).unwrap();
    assert_eq!((done.aside, done.erased_again, done.backup.beds), (None, 0, 1));
}

/// Who may look into a folder is the business of its owner alone, however it came to be.
#[cfg(unix)]
#[test]
fn a_folder_made_for_a_record_is_its_owners_and_a_refused_backup_leaves_none() {
    use std::os::unix::fs::PermissionsExt as _;
    let (source, bytes) = a_ward();
    let room = tempfile::tempdir().unwrap();
    let into = room.path().join("tablets/third");
    let refused = restore_into(&into, &bytes[..bytes.len() / 2], None, NOW);
    assert_eq!(refused, Err(NotRestored::Backup(NotRestorable::CutShort)));
    assert_eq!(fs::read_dir(room.path()).unwrap().count(), 0, "what was made for it has gone again");
    fs::create_dir(room.path().join("tablets")).unwrap();
    restore_into(&into, &bytes[..bytes.len() / 2], None, NOW).unwrap_err();
    assert!(room.path().join("tablets").is_dir() && !into.exists());

    restore_into(&into, &bytes, None, NOW).unwrap();
    let aside = room.path().join("aside/record");
    restore_into(source.path(), &bytes, Some(&aside), NOW).unwrap();
    for folder in [into, room.path().join("aside"), aside] {
        let mode = fs::metadata(&folder).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o700, "{}", folder.display());
    }
}

/// The page hands in no more than so much of a file: what it cut is not told to be copied again.
#[test]
fn a_backup_too_long_for_the_app_is_sent_to_the_terminal_which_takes_any() {
    let (_source, mut bytes) = a_ward();
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = empty_tablet(folder.path());
    bytes.resize(FILE_MOST as usize, 0);
    nurse.hand_in("backup", &bytes);
    let said = nurse.view.notice.clone().unwrap();
    assert_eq!(said, english(&Say::BackupTooLong));
    for tells in
        [format!("{} MB", FILE_MOST / 1_000_000), "Nothing was changed".into(), "terminal restore".into()]
    {
        assert!(said.contains(&tells), "{said}");
    }
    assert!(folded(folder.path()).is_untouched() && !folder.path().join("restore.new").exists());
    nurse.session.close();
    let read = restore_into(folder.path(), &bytes, None, NOW);
    assert_eq!(
        read,
        Err(NotRestored::Backup(NotRestorable::Altered)),
        "read to its end, whatever its length"
    );
}

#[test]
fn nothing_is_restored_under_a_running_holdfast() {
    let (_source, bytes) = a_ward();
    let folder = tempfile::tempdir().unwrap();
    let nurse = Nurse::start(folder.path(), &HandClock::new());
    let refused = restore_into(folder.path(), &bytes, None, NOW);
    assert_eq!(refused, Err(NotRestored::Record(journal::Fault::InUse)));
    nurse.session.close();
}
