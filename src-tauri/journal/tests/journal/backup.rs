//! A backup is whole or refused, and unpacks to the record it was made of.

use std::fs;

use journal::{Fault, NotABackup, back_up, put_in_place, stands_on, unpack, verify};

use crate::desk::{bodies, check, filled, folder, open, read};

/// A record of five entries, packed while it is open.
fn packed() -> (tempfile::TempDir, Vec<u8>) {
    let folder = folder();
    filled(folder.path(), 5);
    let journal = open(folder.path());
    let into = folder.path().join("backup");
    assert_eq!(back_up(folder.path(), &into).unwrap(), journal.head());
    let bytes = fs::read(into).unwrap();
    drop(journal);
    (folder, bytes)
}

#[test]
fn it_unpacks_to_the_same_record_which_goes_on() {
    let (source, bytes) = packed();
    let other = folder();
    unpack(&bytes, other.path()).unwrap();
    assert_eq!(check(other.path()).unwrap().head, check(source.path()).unwrap().head);
    assert_eq!(read(other.path()).unwrap(), read(source.path()).unwrap());
    open(other.path()).append(&bodies(6..=6)).unwrap();
    assert_eq!(read(other.path()).unwrap().len(), 6);
    let left: Vec<_> = fs::read_dir(source.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert!(!left.iter().any(|name| name == "backup.copy"), "{left:?}");
}

#[test]
fn every_cut_and_every_flipped_bit_is_refused_and_nothing_written() {
    let (_source, bytes) = packed();
    let other = folder();
    let refused = |bytes: &[u8]| {
        let fault = unpack(bytes, other.path()).unwrap_err();
        assert!(!other.path().join("journal.sqlite3").exists());
        fault
    };
    for length in 1..bytes.len() {
        let expected = NotABackup::CutShort;
        assert_eq!(refused(&bytes[..length]), expected, "{length} of {} bytes", bytes.len());
    }
    assert_eq!(refused(&[]), NotABackup::Foreign);
    for bit in 0..bytes.len() * 8 {
        let mut flipped = bytes.clone();
        flipped[bit / 8] ^= 1 << (bit % 8);
        let fault = refused(&flipped);
        let known = matches!(
            fault,
            NotABackup::Foreign | NotABackup::Newer { .. } | NotABackup::CutShort | NotABackup::Altered
        );
        assert!(known, "bit {bit}: {fault:?}");
        assert!(!(16 * 8..66 * 8).contains(&bit) || fault != NotABackup::Foreign, "bit {bit}: {fault:?}");
    }
    assert_eq!(refused(&[bytes.as_slice(), b"x"].concat()), NotABackup::Altered);
}

#[test]
fn a_newer_version_is_said_as_such() {
    let (_source, mut bytes) = packed();
    bytes[17] = 2;
    assert_eq!(unpack(&bytes, folder().path()), Err(NotABackup::Newer { found: 2 }));
}

#[test]
fn what_is_no_backup_is_foreign() {
    for bytes in [b"{}".as_slice(), b"SQLite format 3\0", &[0; 200]] {
        assert_eq!(unpack(bytes, folder().path()), Err(NotABackup::Foreign));
    }
}

#[test]
fn it_takes_the_place_of_another_record_with_its_log_and_alive_time() {
    let (_source, bytes) = packed();
    let other = folder();
    filled(other.path(), 9);
    let mut before = open(other.path());
    before.alive(b"alive").unwrap();
    let stood = before.head();
    let prepared = other.path().join("prepared");
    unpack(&bytes, &prepared).unwrap();
    assert_eq!(put_in_place(other.path(), &prepared), Err(Fault::InUse), "not under a running one");
    assert_eq!(before.head(), stood);
    drop(before);
    put_in_place(other.path(), &prepared).unwrap();
    assert_eq!(read(other.path()).unwrap().len(), 5);
    assert!(!stands_on(other.path(), stood).unwrap());
}

#[test]
fn an_open_journal_takes_another_record_in_and_goes_on_with_it() {
    let (source, bytes) = packed();
    let other = folder();
    filled(other.path(), 3);
    let mut journal = open(other.path());
    journal.alive(b"alive").unwrap();
    let prepared = other.path().join("prepared");
    unpack(&bytes, &prepared).unwrap();
    journal.adopt(&prepared).unwrap();
    assert_eq!(journal.head(), check(source.path()).unwrap().head);
    journal.append(&bodies(6..=6)).unwrap();
    drop(journal);
    assert_eq!(read(other.path()).unwrap().len(), 6);
    assert!(verify(other.path(), |_| Ok(())).is_ok());
}
