//! What every test needs: a folder, bodies that can be recognised, a look at the result.

use std::fs;
use std::path::{Path, PathBuf};

use journal::{Fault, Journal, Verified, verify};
use rusqlite::Connection;
use tempfile::TempDir;

/// In memory where that is to be had: hundreds of starts, and what a disk does with a sync is not
/// what they try.
pub fn folder() -> TempDir {
    let memory = Path::new("/dev/shm");
    let place = if memory.is_dir() { memory.to_owned() } else { std::env::temp_dir() };
    tempfile::tempdir_in(place).unwrap()
}

pub fn file(folder: &Path) -> PathBuf {
    folder.join("journal.sqlite3")
}

pub fn wal(folder: &Path) -> PathBuf {
    folder.join("journal.sqlite3-wal")
}

/// Bodies of different lengths that say which record they are.
pub fn bodies(numbers: std::ops::RangeInclusive<u32>) -> Vec<Vec<u8>> {
    numbers
        .map(|number| {
            format!("{{\"turned\":{number},\"{}\":1}}", "x".repeat(number as usize % 90)).into_bytes()
        })
        .collect()
}

pub fn open(folder: &Path) -> Journal {
    Journal::open(folder).unwrap().0
}

/// A closed journal of this many records, one a transaction.
pub fn filled(folder: &Path, records: u32) {
    let mut journal = open(folder);
    for body in bodies(1..=records) {
        journal.append(&[body]).unwrap();
    }
}

/// Every standing body with its number, through the whole chain.
pub fn read(folder: &Path) -> Result<Vec<(u32, Vec<u8>)>, Fault> {
    let (journal, _) = Journal::open(folder)?;
    let mut records = Vec::new();
    let head = journal.replay(journal::Head::GENESIS, |record| {
        records.push((record.seq, record.body.to_owned()));
        Ok(())
    })?;
    assert_eq!(head, journal.head());
    Ok(records)
}

pub fn check(folder: &Path) -> Result<Verified, Fault> {
    verify(folder, |_| Ok(()))
}

/// The tables as any other program would open them.
pub fn raw(folder: &Path) -> Connection {
    Connection::open(file(folder)).unwrap()
}

/// The folder as a crash would leave it: copied while it is open.
pub fn copy(from: &Path) -> TempDir {
    let to = folder();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        if entry.file_name() != "reserve" {
            fs::copy(entry.path(), to.path().join(entry.file_name())).unwrap();
        }
    }
    to
}

/// Numbers that look random and are the same in every run (SplitMix64, Steele et al. 2014).
pub fn scattered(seed: u64, below: u64) -> impl Iterator<Item = u64> {
    let mut state = seed;
    std::iter::repeat_with(move || {
        state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mixed = (state ^ (state >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (mixed ^ (mixed >> 31)) % below
    })
}

pub fn flip(path: &Path, bit: u64) {
    let mut bytes = fs::read(path).unwrap();
    bytes[(bit / 8) as usize] ^= 1 << (bit % 8);
    fs::write(path, bytes).unwrap();
}
