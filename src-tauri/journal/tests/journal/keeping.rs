//! What was appended is there, in order, as it was.

use journal::{Fault, Head, Journal, Kind, Unreadable};
use sha2::{Digest, Sha256};

use crate::desk::{bodies, check, filled, folder, open, raw, read};

#[test]
fn what_was_appended_comes_back_after_reopening() {
    let folder = folder();
    filled(folder.path(), 40);
    let records = read(folder.path()).unwrap();
    assert_eq!(records, (1..=40).zip(bodies(1..=40)).collect::<Vec<_>>());
    assert_eq!(check(folder.path()).unwrap().head.seq, 40);
}

#[test]
fn a_new_folder_holds_an_empty_record() {
    let folder = folder();
    let (journal, kept) = Journal::open(&folder.path().join("made/for/it")).unwrap();
    assert_eq!(journal.head(), Head::GENESIS);
    assert_eq!((kept.snapshot, kept.alive), (None, None));
}

#[test]
fn appending_nothing_changes_nothing() {
    let folder = folder();
    let mut journal = open(folder.path());
    assert_eq!(journal.append(&[]).unwrap(), Head::GENESIS);
}

/// The hash is the one written down for it, computed here from the tables alone.
#[test]
fn each_hash_is_that_of_the_hash_before_the_number_and_the_salted_body() {
    let folder = folder();
    filled(folder.path(), 12);
    let tables = raw(folder.path());
    let mut query = tables
        .prepare("SELECT seq, hash, salt, body FROM chain JOIN content USING (seq) ORDER BY seq")
        .unwrap();
    let mut previous = vec![0; 32];
    let mut rows = query.query([]).unwrap();
    while let Some(row) = rows.next().unwrap() {
        let (seq, hash): (i64, Vec<u8>) = (row.get(0).unwrap(), row.get(1).unwrap());
        let (salt, body): (Vec<u8>, Vec<u8>) = (row.get(2).unwrap(), row.get(3).unwrap());
        let committed = Sha256::digest([salt, body].concat()).to_vec();
        let expected = Sha256::digest([previous, seq.to_be_bytes().to_vec(), committed].concat()).to_vec();
        assert_eq!(hash, expected);
        previous = hash;
    }
}

#[test]
fn the_same_body_twice_has_two_commitments() {
    let folder = folder();
    let mut journal = open(folder.path());
    journal.append(&[b"same".to_vec(), b"same".to_vec()]).unwrap();
    let different: i64 = raw(folder.path())
        .query_row("SELECT count(DISTINCT commitment) FROM chain", [], |row| row.get(0))
        .unwrap();
    assert_eq!(different, 2);
}

#[test]
fn a_start_from_the_snapshot_sees_only_the_tail() {
    let folder = folder();
    let mut journal = open(folder.path());
    journal.append(&bodies(1..=5)).unwrap();
    journal.snapshot(b"fold of five").unwrap();
    journal.append(&bodies(6..=8)).unwrap();
    drop(journal);
    let (journal, kept) = Journal::open(folder.path()).unwrap();
    let snapshot = kept.snapshot.unwrap();
    assert_eq!(snapshot.state, b"fold of five");
    let mut seen = Vec::new();
    let end = journal.replay(snapshot.head, |record| {
        assert_eq!(record.kind, Kind::Event);
        seen.push(record.seq);
        Ok(())
    });
    assert_eq!((end.unwrap(), seen), (journal.head(), vec![6, 7, 8]));
}

#[test]
fn a_later_snapshot_takes_the_place_of_the_earlier() {
    let folder = folder();
    let mut journal = open(folder.path());
    for (body, state) in bodies(1..=3).into_iter().zip([b"one", b"two", b"six"]) {
        journal.append(&[body]).unwrap();
        journal.snapshot(state).unwrap();
    }
    drop(journal);
    let kept = Journal::open(folder.path()).unwrap().1.snapshot.unwrap();
    assert_eq!((kept.head.seq, kept.state), (3, b"six".to_vec()));
}

#[test]
fn a_damaged_snapshot_is_left_out_and_the_chain_stands() {
    let folder = folder();
    let mut journal = open(folder.path());
    journal.append(&bodies(1..=5)).unwrap();
    journal.snapshot(b"fold of five").unwrap();
    drop(journal);
    raw(folder.path()).execute("UPDATE snapshot SET state = x'00'", []).unwrap();
    let (_, kept) = Journal::open(folder.path()).unwrap();
    assert_eq!(kept.snapshot, None);
    assert_eq!(read(folder.path()).unwrap().len(), 5);
}

#[test]
fn the_last_alive_time_is_kept_outside_the_chain() {
    let folder = folder();
    let mut journal = open(folder.path());
    journal.append(&bodies(1..=2)).unwrap();
    for second in 0..7 {
        journal.alive(format!("alive at {second}").as_bytes()).unwrap();
    }
    drop(journal);
    let (journal, kept) = Journal::open(folder.path()).unwrap();
    assert_eq!(kept.alive.unwrap(), b"alive at 6");
    assert_eq!(journal.head().seq, 2);
}

#[test]
fn an_alive_time_torn_in_writing_leaves_the_one_before() {
    let folder = folder();
    let mut journal = open(folder.path());
    journal.alive(b"older").unwrap();
    journal.alive(b"newer").unwrap();
    drop(journal);
    let path = folder.path().join("alive");
    let mut bytes = std::fs::read(&path).unwrap();
    let at = bytes.windows(5).position(|window| window == b"newer").unwrap();
    bytes[at + 2] ^= 4;
    std::fs::write(&path, bytes).unwrap();
    assert_eq!(Journal::open(folder.path()).unwrap().1.alive.unwrap(), b"older");
}

#[test]
fn an_alive_time_too_long_for_its_place_is_refused() {
    let folder = folder();
    let mut journal = open(folder.path());
    journal.alive(&[7; 1024]).unwrap();
    assert_eq!(journal.alive(&[7; 1025]), Err(Fault::AliveTooLong { bytes: 1025, most: 1024 }));
    drop(journal);
    assert_eq!(Journal::open(folder.path()).unwrap().1.alive.unwrap(), [7; 1024]);
}

#[test]
fn a_body_its_writer_cannot_read_any_more_is_named() {
    let folder = folder();
    filled(folder.path(), 9);
    let journal = open(folder.path());
    let end = journal.replay(Head::GENESIS, |record| if record.seq == 6 { Err(Unreadable) } else { Ok(()) });
    assert_eq!(end, Err(Fault::Broken(journal::Break::Unreadable { seq: 6 })));
}
