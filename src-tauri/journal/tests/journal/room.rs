//! A disk that fills up while a check is open.

#![cfg(target_os = "linux")]

use std::fs;
use std::path::{Path, PathBuf};

use journal::{Actor, Fault, Journal};
use tempfile::TempDir;

use crate::desk::{bodies, check, folder, open, read};
use crate::folders::run;
use crate::tools::is_there;

/// A small file system of its own, which only root can make.
struct Disk(TempDir);

impl Disk {
    fn of(megabytes: u8) -> Option<Disk> {
        let folder = folder();
        let made =
            run(&["mount", "-t", "tmpfs", "-o", &format!("size={megabytes}m"), "tmpfs"], &[folder.path()]);
        let not_tried = "a full disk needs a file system of its own, and mounting one was refused";
        is_there(made, "mount", not_tried).then_some(Disk(folder))
    }

    fn data(&self) -> PathBuf {
        self.0.path().join("data")
    }

    /// Takes every byte that is left.
    fn fill(&self) {
        let ballast = self.0.path().join("ballast");
        let written = fs::write(&ballast, vec![1; 64 * 1024 * 1024]);
        assert_eq!(written.unwrap_err().kind(), std::io::ErrorKind::StorageFull);
    }

    fn free(&self) {
        fs::remove_file(self.0.path().join("ballast")).unwrap();
    }
}

impl Drop for Disk {
    fn drop(&mut self) {
        assert!(run(&["umount", "-l"], &[self.0.path()]));
    }
}

fn append_until_full(journal: &mut Journal, from: u32) -> (u32, Fault) {
    for number in from.. {
        if let Err(fault) = journal.append(&bodies(number..=number)) {
            return (number - from, fault);
        }
    }
    unreachable!()
}

fn numbers(folder: &Path) -> Vec<u32> {
    read(folder).unwrap().into_iter().map(|(seq, _)| seq).collect()
}

#[test]
fn a_check_can_be_ended_on_a_full_disk_and_nothing_recorded_is_lost() {
    let Some(disk) = Disk::of(12) else { return };
    let mut journal = open(&disk.data());
    journal.append(&bodies(1..=10)).unwrap();
    assert!(!journal.room_is_short());
    disk.fill();
    journal.alive(b"needs no room").unwrap();
    let (more, fault) = append_until_full(&mut journal, 11);
    println!("{more} records went into the room put by");
    assert!(more >= 200, "only {more}: too few taps to end a check");
    assert!(journal.room_is_short());
    assert_eq!((&fault, fault.actor()), (&Fault::DiskFull, Actor::SetUp));
    let last = journal.head().seq;
    assert_eq!(last, 10 + more);
    drop(journal);
    assert_eq!(check(&disk.data()).unwrap().head.seq, last);
    disk.free();
    assert_eq!(numbers(&disk.data()), (1..=last).collect::<Vec<_>>());
}

#[test]
fn room_made_on_a_full_disk_is_used_without_a_new_start() {
    let Some(disk) = Disk::of(12) else { return };
    let mut journal = open(&disk.data());
    disk.fill();
    append_until_full(&mut journal, 1);
    let last = journal.head().seq;
    disk.free();
    assert_eq!(journal.append(&bodies(1..=3)).unwrap().seq, last + 3);
}

#[test]
fn a_start_on_a_full_disk_shows_what_was_recorded() {
    let Some(disk) = Disk::of(12) else { return };
    open(&disk.data()).append(&bodies(1..=10)).unwrap();
    disk.fill();
    let mut journal = open(&disk.data());
    journal.append(&bodies(11..=20)).unwrap();
    assert!(journal.room_is_short());
    drop(journal);
    assert_eq!(numbers(&disk.data()), (1..=20).collect::<Vec<_>>());
}

#[test]
fn a_first_start_on_a_full_disk_is_refused() {
    let Some(disk) = Disk::of(1) else { return };
    disk.fill();
    assert_eq!(Journal::open(&disk.data()).err(), Some(Fault::DiskFull));
    disk.free();
    assert!(open(&disk.data()).room_is_short(), "1 MB leaves no room to put by");
}
