//! Files cut short and bits flipped: the exact record, a whole beginning of it, or a fault. Never
//! a changed one.

use std::fs;
use std::path::Path;

use journal::{Break, Fault};
use tempfile::TempDir;

use crate::desk::{bodies, check, copy, file, filled, flip, folder, open, raw, read, scattered, wal};

/// Batches of three, so that a half-kept transaction shows.
const BATCH: usize = 3;
const BATCHES: u32 = 14;

fn expected() -> Vec<(u32, Vec<u8>)> {
    let all = BATCHES * BATCH as u32;
    (1..=all).zip(bodies(1..=all)).collect()
}

/// As a crash leaves it: every record in the log, none in the file.
fn crashed() -> TempDir {
    let folder = folder();
    let mut journal = open(folder.path());
    for batch in bodies(1..=BATCHES * BATCH as u32).chunks(BATCH) {
        journal.append(batch).unwrap();
    }
    copy(folder.path())
}

/// Whole transactions from the first on, and nothing else.
fn is_whole_beginning(records: &[(u32, Vec<u8>)]) -> bool {
    records.len().is_multiple_of(BATCH) && expected().starts_with(records)
}

#[test]
fn a_log_torn_at_any_length_leaves_whole_transactions() {
    let whole = crashed();
    let log = fs::read(wal(whole.path())).unwrap();
    let mut kept = std::collections::BTreeSet::new();
    for length in (0..=log.len()).step_by(509).chain([log.len()]) {
        let torn = copy(whole.path());
        fs::write(wal(torn.path()), &log[..length]).unwrap();
        let records = read(torn.path()).unwrap();
        assert!(is_whole_beginning(&records), "cut at {length}");
        kept.insert(records.len());
    }
    assert_eq!(kept.len(), BATCHES as usize + 1, "each number of transactions was met: {kept:?}");
}

#[test]
fn a_bit_flipped_in_the_log_invents_nothing() {
    let whole = crashed();
    let bits = fs::metadata(wal(whole.path())).unwrap().len() * 8;
    for bit in scattered(11, bits).take(150) {
        let flipped = copy(whole.path());
        flip(&wal(flipped.path()), bit);
        let records = read(flipped.path()).unwrap_or_default();
        assert!(is_whole_beginning(&records), "bit {bit}");
    }
}

fn closed() -> TempDir {
    let whole = folder();
    let mut journal = open(whole.path());
    for batch in bodies(1..=BATCHES * BATCH as u32).chunks(BATCH) {
        journal.append(batch).unwrap();
    }
    journal.snapshot(&[5; 3000]).unwrap();
    drop(journal);
    whole
}

/// A flip may fall where nothing is stored; then the record is exactly what it was.
fn same_or_refused(folder: &Path) -> Option<Fault> {
    match (read(folder), check(folder)) {
        (Ok(records), Ok(_)) => {
            assert_eq!(records, expected());
            None
        }
        (Err(fault), _) | (_, Err(fault)) => Some(fault),
    }
}

#[test]
fn a_bit_flipped_in_the_file_is_noticed_or_harmless() {
    let whole = closed();
    let bits = fs::metadata(file(whole.path())).unwrap().len() * 8;
    let mut noticed = 0;
    let header = 0..800;
    for bit in header.step_by(3).chain(scattered(12, bits).take(400)) {
        let flipped = copy(whole.path());
        flip(&file(flipped.path()), bit);
        noticed += u32::from(same_or_refused(flipped.path()).is_some());
    }
    println!("{noticed} of 667 flips noticed; the others fell where nothing is stored");
    assert!(noticed > 150, "{noticed}");
}

/// Every bit of one record, in every column.
#[test]
fn each_bit_of_a_record_is_under_the_chain() {
    let whole = closed();
    for (table, column, broken) in [
        ("chain", "commitment", Break::Link { seq: 8 }),
        ("chain", "hash", Break::Link { seq: 8 }),
        ("content", "salt", Break::Body { seq: 8 }),
        ("content", "body", Break::Body { seq: 8 }),
    ] {
        let stored: Vec<u8> = raw(whole.path())
            .query_row(&format!("SELECT {column} FROM {table} WHERE seq = 8"), [], |row| row.get(0))
            .unwrap();
        let bytes = fs::read(file(whole.path())).unwrap();
        let at = bytes.windows(stored.len()).position(|window| window == stored).unwrap() as u64;
        for bit in (0..stored.len() as u64 * 8).step_by(7) {
            let flipped = copy(whole.path());
            flip(&file(flipped.path()), at * 8 + bit);
            assert_eq!(read(flipped.path()), Err(Fault::Broken(broken)), "{column} bit {bit}");
        }
    }
}

/// A cut inside the last page may take only the cache, or room in which nothing is stored.
#[test]
fn a_file_cut_short_is_refused_or_has_lost_no_record() {
    let whole = closed();
    let bytes = fs::read(file(whole.path())).unwrap();
    let last_page = bytes.len() - 4096;
    for length in (0..bytes.len()).step_by(1021).chain([bytes.len() - 1]) {
        let cut = copy(whole.path());
        fs::write(file(cut.path()), &bytes[..length]).unwrap();
        let fault = same_or_refused(cut.path());
        let refused = matches!(fault, Some(Fault::Damaged(_) | Fault::NotAJournal));
        assert!(refused || (length > last_page && fault.is_none()), "cut at {length}: {fault:?}");
    }
}

#[test]
fn a_record_rewritten_with_a_hash_of_its_own_breaks_the_next() {
    let folder = folder();
    filled(folder.path(), 9);
    let tables = raw(folder.path());
    tables.execute_batch("PRAGMA writable_schema = ON").unwrap();
    let trigger: String = tables
        .query_row("SELECT sql FROM sqlite_schema WHERE name = 'chain_is_never_updated'", [], |row| {
            row.get(0)
        })
        .unwrap();
    tables.execute("DROP TRIGGER chain_is_never_updated", []).unwrap();
    tables.execute("UPDATE chain SET hash = zeroblob(32) WHERE seq = 9", []).unwrap();
    tables.execute(&trigger, []).unwrap();
    drop(tables);
    assert_eq!(read(folder.path()), Err(Fault::Broken(Break::Link { seq: 9 })));
}
