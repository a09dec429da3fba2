//! A body can be erased; that it was stays proven.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use journal::{Break, Fault, Head, Journal, Kind};

use crate::desk::{bodies, check, folder, open, raw, read, scattered};

const SECRET: &[u8] = b"a word that must not stay on the disk";

fn with_secret(folder: &Path) -> Journal {
    let mut journal = open(folder);
    journal.append(&bodies(1..=3)).unwrap();
    journal.append(&[SECRET.to_vec()]).unwrap();
    journal.append(&bodies(5..=6)).unwrap();
    journal.snapshot(SECRET).unwrap();
    journal
}

fn on_disk(folder: &Path) -> bool {
    fs::read_dir(folder).unwrap().any(|entry| {
        let bytes = fs::read(entry.unwrap().path()).unwrap();
        bytes.windows(SECRET.len()).any(|window| window == SECRET)
    })
}

#[test]
fn an_erased_body_is_off_the_disk_and_the_chain_still_holds() {
    let folder = folder();
    let mut journal = with_secret(folder.path());
    assert!(on_disk(folder.path()));
    let head = journal.erase(&BTreeSet::from([2, 4]), b"erased by the unit's rule").unwrap();
    assert_eq!(head.seq, 7);
    assert!(!on_disk(folder.path()), "before the journal is even closed");
    drop(journal);
    let records = read(folder.path()).unwrap();
    assert_eq!(records.iter().map(|(seq, _)| *seq).collect::<Vec<_>>(), [1, 3, 5, 6, 7]);
    assert_eq!(records[4].1, b"erased by the unit's rule");
    let verified = check(folder.path()).unwrap();
    assert_eq!((verified.head, verified.erased), (head, 2));
}

#[test]
fn an_erasure_is_told_from_an_event_and_takes_the_snapshot_along() {
    let folder = folder();
    with_secret(folder.path()).erase(&BTreeSet::from([4]), b"why").unwrap();
    let (journal, kept) = Journal::open(folder.path()).unwrap();
    assert_eq!(kept.snapshot, None);
    let mut kinds = Vec::new();
    journal
        .replay(Head::GENESIS, |record| {
            kinds.push((record.seq, record.kind));
            Ok(())
        })
        .unwrap();
    assert_eq!(kinds.last(), Some(&(7, Kind::Erasure)));
    assert!(kinds.iter().rev().skip(1).all(|(_, kind)| *kind == Kind::Event));
}

#[test]
fn a_reader_in_the_way_delays_the_wiping_and_it_is_known() {
    let folder = folder();
    let mut journal = with_secret(folder.path());
    let reader = raw(folder.path());
    reader.execute_batch("BEGIN; SELECT count(*) FROM chain;").unwrap();
    journal.erase(&BTreeSet::from([4]), b"why").unwrap();
    assert!(!journal.wipe().unwrap());
    reader.execute_batch("COMMIT").unwrap();
    assert!(journal.wipe().unwrap());
    assert!(!on_disk(folder.path()));
}

#[test]
fn what_is_not_there_cannot_be_erased_and_the_journal_goes_on() {
    let folder = folder();
    let mut journal = with_secret(folder.path());
    journal.erase(&BTreeSet::from([4]), b"why").unwrap();
    for (seq, what) in [(0, "before the first"), (4, "erased already"), (7, "an erasure"), (8, "to come")] {
        let refused = journal.erase(&BTreeSet::from([seq]), b"again");
        assert_eq!(refused, Err(Fault::NotErasable { seq }), "{what}");
    }
    assert_eq!(journal.erase(&BTreeSet::from([1, 4]), b"part"), Err(Fault::NotErasable { seq: 4 }));
    assert_eq!(journal.append(&bodies(8..=8)).unwrap().seq, 8);
    assert_eq!(read(folder_closed(journal, folder.path())).unwrap().len(), 7);
}

fn folder_closed(journal: Journal, folder: &Path) -> &Path {
    drop(journal);
    folder
}

#[test]
fn a_body_taken_away_without_a_record_is_noticed() {
    let folder = folder();
    drop(with_secret(folder.path()));
    raw(folder.path())
        .execute_batch("DROP TRIGGER content_goes_with_its_erasure; DELETE FROM content WHERE seq = 4")
        .unwrap();
    assert_eq!(read(folder.path()), Err(Fault::Altered("content_goes_with_its_erasure".into())));
    restore_trigger(folder.path());
    assert_eq!(read(folder.path()), Err(Fault::Broken(Break::BodyMissing { seq: 4 })));
    assert_eq!(check(folder.path()), Err(Fault::Broken(Break::BodyMissing { seq: 4 })));
}

fn restore_trigger(folder: &Path) {
    let schema = include_str!("../../src/schema.sql");
    let start = schema.find("CREATE TRIGGER content_goes_with_its_erasure").unwrap();
    let end = schema[start..].find("END;").unwrap();
    raw(folder).execute_batch(&schema[start..start + end + 4]).unwrap();
}

#[test]
fn a_body_put_back_after_its_erasure_is_noticed() {
    let folder = folder();
    let mut journal = with_secret(folder.path());
    let kept: (Vec<u8>, Vec<u8>) = raw(folder.path())
        .query_row("SELECT salt, body FROM content WHERE seq = 4", [], |row| Ok((row.get(0)?, row.get(1)?)))
        .unwrap();
    journal.erase(&BTreeSet::from([4]), b"why").unwrap();
    drop(journal);
    let tables = raw(folder.path());
    let trigger: String = tables
        .query_row("SELECT sql FROM sqlite_schema WHERE name = 'content_comes_with_its_record'", [], |row| {
            row.get(0)
        })
        .unwrap();
    tables.execute("DROP TRIGGER content_comes_with_its_record", []).unwrap();
    tables.execute("INSERT INTO content VALUES (4, ?1, ?2)", kept).unwrap();
    tables.execute(&trigger, []).unwrap();
    drop(tables);
    assert_eq!(read(folder.path()), Err(Fault::Broken(Break::BodyReturned { seq: 4 })));
}

/// Bodies of every length, so that pages divide and join in many ways; whichever go, nothing of them stays.
#[test]
fn whatever_its_length_and_place_nothing_of_an_erased_body_stays() {
    for seed in 0..40 {
        let folder = folder();
        let mut numbers = scattered(seed, 6_000);
        let mut journal = open(folder.path());
        let mut erased = BTreeSet::new();
        for seq in 1..=60_u32 {
            let length = numbers.next().unwrap() as usize;
            let secret = numbers.next().unwrap() < 2_400;
            let filling = vec![b'.'; length];
            let body = if secret { [filling.as_slice(), SECRET, &filling].concat() } else { filling };
            journal.append(&[body]).unwrap();
            if secret {
                erased.insert(seq);
            }
        }
        assert!(on_disk(folder.path()) && !erased.is_empty());
        journal.erase(&erased, b"why").unwrap();
        assert!(!on_disk(folder.path()), "seed {seed}");
        drop(journal);
        assert_eq!(check(folder.path()).unwrap().erased as usize, erased.len());
    }
}
