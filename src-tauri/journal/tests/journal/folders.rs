//! Folders and files that are not as they should be: each its own answer, nothing lost.

use std::fs;
use std::path::Path;
use std::process::Command;

use journal::{Actor, Break, Fault, Journal};

use crate::desk::{bodies, check, copy, file, filled, folder, open, raw, read, wal};

fn refused(folder: &Path) -> Fault {
    Journal::open(folder).err().expect("it opened")
}

#[test]
fn a_second_start_on_the_same_folder_is_refused_until_the_first_ends() {
    let folder = folder();
    let first = open(folder.path());
    assert_eq!(refused(folder.path()), Fault::InUse);
    assert_eq!(refused(folder.path()).actor(), Actor::Bedside);
    drop(first);
    open(folder.path());
}

#[test]
fn the_record_is_verified_beside_a_running_app() {
    let folder = folder();
    let mut journal = open(folder.path());
    for body in bodies(1..=20) {
        let head = journal.append(&[body]).unwrap();
        assert_eq!(check(folder.path()).unwrap().head, head);
    }
}

#[test]
fn another_program_that_holds_the_record_delays_a_write_and_costs_nothing() {
    let folder = folder();
    let mut journal = open(folder.path());
    journal.append(&bodies(1..=2)).unwrap();
    let other = raw(folder.path());
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    assert_eq!(journal.append(&bodies(3..=3)), Err(Fault::Held));
    other.execute_batch("COMMIT").unwrap();
    assert_eq!(journal.append(&bodies(3..=3)).unwrap().seq, 3);
    drop(journal);
    assert_eq!(read(folder.path()).unwrap().len(), 3);
}

#[test]
fn a_file_where_the_folder_should_be() {
    let folder = folder();
    let path = folder.path().join("taken");
    fs::write(&path, "a file").unwrap();
    assert!(matches!(refused(&path), Fault::NoFolder(_)));
    assert_eq!(refused(&path).actor(), Actor::SetUp);
}

#[test]
fn a_record_of_a_newer_version_is_left_alone() {
    let folder = folder();
    filled(folder.path(), 3);
    raw(folder.path()).pragma_update(None, "user_version", 2).unwrap();
    let before = fs::read(file(folder.path())).unwrap();
    assert_eq!(refused(folder.path()), Fault::Newer { found: 2, known: 1 });
    assert_eq!(check(folder.path()), Err(Fault::Newer { found: 2, known: 1 }));
    assert_eq!(fs::read(file(folder.path())).unwrap(), before);
    raw(folder.path()).pragma_update(None, "user_version", 1).unwrap();
    assert_eq!(read(folder.path()).unwrap().len(), 3);
}

#[test]
fn a_version_nobody_released_is_refused() {
    let folder = folder();
    filled(folder.path(), 3);
    raw(folder.path()).pragma_update(None, "user_version", 0).unwrap();
    assert_eq!(refused(folder.path()), Fault::UnknownVersion { found: 0, known: 1 });
}

#[test]
fn a_file_of_another_kind_is_refused_and_left_as_it_was() {
    for (name, bytes) in [("text", b"not a database, only words".repeat(300)), ("short", b"x".to_vec())] {
        let folder = folder();
        fs::write(file(folder.path()), &bytes).unwrap();
        assert_eq!(refused(folder.path()), Fault::NotAJournal, "{name}");
        assert_eq!(fs::read(file(folder.path())).unwrap(), bytes);
    }
    let folder = folder();
    raw(folder.path()).execute_batch("CREATE TABLE other (a)").unwrap();
    assert_eq!(refused(folder.path()), Fault::NotAJournal);
}

/// Beside the alive time, beside the reserve alone, and beside both: never a new record, never another's file.
#[test]
fn a_file_cut_to_nothing_is_told_as_damaged() {
    for (bytes, gone) in [(0, None), (10, None), (99, None), (0, Some("alive")), (10, Some("reserve"))] {
        let folder = folder();
        filled(folder.path(), 3);
        fs::copy(file(folder.path()), folder.path().join("whole")).unwrap();
        let whole = fs::read(file(folder.path())).unwrap();
        fs::write(file(folder.path()), &whole[..bytes]).unwrap();
        if let Some(gone) = gone {
            fs::remove_file(folder.path().join(gone)).unwrap();
        }
        let told = [refused(folder.path()), check(folder.path()).unwrap_err()];
        assert!(told.iter().all(|fault| matches!(fault, Fault::Damaged(_))), "{bytes} bytes: {told:?}");
        assert_eq!(fs::read(file(folder.path())).unwrap(), whole[..bytes], "left as it was");
        fs::copy(folder.path().join("whole"), file(folder.path())).unwrap();
        assert_eq!(read(folder.path()).unwrap().len(), 3, "{bytes} bytes");
    }
}

#[test]
fn a_record_that_went_with_its_alive_time_is_missed_by_the_reserve() {
    let folder = folder();
    filled(folder.path(), 3);
    fs::remove_file(file(folder.path())).unwrap();
    fs::remove_file(folder.path().join("alive")).unwrap();
    assert_eq!(refused(folder.path()), Fault::Missing);
    assert_eq!(check(folder.path()), Err(Fault::Missing));
}

#[test]
fn a_folder_without_a_record_has_none_to_verify() {
    let folder = folder();
    assert_eq!(check(folder.path()), Err(Fault::NoRecord));
    assert_eq!(check(&folder.path().join("nowhere")), Err(Fault::NoRecord));
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0, "nothing was made");
}

#[test]
fn a_record_that_has_gone_from_its_folder_is_missed() {
    let folder = folder();
    filled(folder.path(), 3);
    fs::remove_file(file(folder.path())).unwrap();
    assert_eq!(refused(folder.path()), Fault::Missing);
    assert_eq!(check(folder.path()), Err(Fault::Missing));
}

#[test]
fn a_first_start_that_was_cut_off_is_begun_again() {
    let folder = folder();
    fs::write(folder.path().join("journal.new"), "half a file").unwrap();
    filled(folder.path(), 3);
    assert_eq!(read(folder.path()).unwrap().len(), 3);
}

#[test]
fn a_table_or_trigger_that_was_changed_is_named() {
    for (statement, name) in [
        ("DROP TRIGGER chain_is_never_deleted", "chain_is_never_deleted"),
        ("CREATE TABLE notes (a)", "notes"),
        ("CREATE INDEX by_hash ON chain (hash)", "by_hash"),
        ("ALTER TABLE content ADD COLUMN note TEXT", "content"),
    ] {
        let folder = folder();
        filled(folder.path(), 3);
        raw(folder.path()).execute_batch(statement).unwrap();
        assert_eq!(refused(folder.path()), Fault::Altered(name.into()), "{statement}");
    }
}

#[test]
fn the_end_of_the_chain_lost_with_its_log_is_noticed_by_the_alive_time() {
    let folder = folder();
    let mut journal = open(folder.path());
    journal.append(&bodies(1..=4)).unwrap();
    journal.snapshot(b"moves the log into the file").unwrap();
    journal.append(&bodies(5..=9)).unwrap();
    journal.alive(b"now").unwrap();
    let crashed = copy(folder.path());
    fs::remove_file(wal(crashed.path())).unwrap();
    let lost = Fault::Broken(Break::Shortened { had: 9, has: 4 });
    assert_eq!(check(crashed.path()), Err(lost.clone()));
    assert_eq!(refused(crashed.path()), lost);
}

#[test]
fn another_tablets_record_in_this_folder_is_noticed() {
    let (ours, theirs) = (folder(), folder());
    filled(ours.path(), 5);
    open(ours.path()).alive(b"now").unwrap();
    filled(theirs.path(), 7);
    fs::copy(file(theirs.path()), file(ours.path())).unwrap();
    assert_eq!(refused(ours.path()), Fault::Broken(Break::Replaced { seq: 5 }));
}

/// Root writes through a folder's rights, so for root the whole file system is made read-only.
#[test]
#[cfg(target_os = "linux")]
fn a_read_only_folder_is_refused_and_can_still_be_verified() {
    let folder = folder();
    filled(folder.path(), 6);
    let shut = shut(folder.path());
    assert_eq!(refused(folder.path()), Fault::ReadOnly);
    assert_eq!(refused(folder.path()).actor(), Actor::SetUp);
    assert_eq!(check(folder.path()).map(|verified| verified.head.seq), Ok(6));
    drop(shut);
    assert_eq!(read(folder.path()).unwrap().len(), 6);
}

#[cfg(target_os = "linux")]
struct Shut<'a>(&'a Path, bool);

#[cfg(target_os = "linux")]
fn shut(folder: &Path) -> Shut<'_> {
    let bound = run(&["mount", "--bind"], &[folder, folder]);
    if bound {
        assert!(run(&["mount", "-o", "remount,bind,ro"], &[folder]));
    } else {
        rights(folder, 0o500, 0o400);
    }
    Shut(folder, bound)
}

#[cfg(target_os = "linux")]
impl Drop for Shut<'_> {
    fn drop(&mut self) {
        if self.1 {
            assert!(run(&["umount", "-l"], &[self.0]));
        } else {
            rights(self.0, 0o700, 0o600);
        }
    }
}

#[cfg(target_os = "linux")]
fn rights(folder: &Path, of_folder: u32, of_files: u32) {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(folder, fs::Permissions::from_mode(0o700)).unwrap();
    for entry in fs::read_dir(folder).unwrap() {
        fs::set_permissions(entry.unwrap().path(), fs::Permissions::from_mode(of_files)).unwrap();
    }
    fs::set_permissions(folder, fs::Permissions::from_mode(of_folder)).unwrap();
}

#[cfg(target_os = "linux")]
pub fn run(command: &[&str], paths: &[&Path]) -> bool {
    let output = Command::new(command[0]).args(&command[1..]).args(paths).output();
    output.is_ok_and(|output| output.status.success())
}
