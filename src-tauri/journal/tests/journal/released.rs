//! Files of every released format open for ever. A format once released is never written again; its
//! file under `tests/released` is never changed.

use std::fs;
use std::path::PathBuf;

use journal::Journal;
use tempfile::TempDir;

use crate::desk::{check, folder, read};

fn released(version: &str) -> TempDir {
    let kept = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/released").join(version);
    let here = folder();
    for name in ["journal.sqlite3", "alive"] {
        fs::copy(kept.join(name), here.path().join(name)).unwrap();
    }
    here
}

/// Two events, the first erased, a third after it, a snapshot of all, an alive time.
#[test]
fn a_record_of_format_1_opens_holds_and_goes_on() {
    let folder = released("1");
    let (mut journal, kept) = Journal::open(folder.path()).unwrap();
    let hash = "aca38fb940eac636";
    assert!(journal.head().hash.to_string().starts_with(hash), "{}", journal.head().hash);
    let snapshot = kept.snapshot.unwrap();
    assert_eq!((snapshot.head, snapshot.state), (journal.head(), b"fold of four".to_vec()));
    assert_eq!(kept.alive.unwrap(), b"alive");
    assert_eq!(check(folder.path()).unwrap().erased, 1);
    journal.append(&[b"fourth".to_vec()]).unwrap();
    drop(journal);
    let records = read(folder.path()).unwrap();
    let expected = [(2, "second"), (3, "first erased"), (4, "third"), (5, "fourth")];
    assert_eq!(records, expected.map(|(seq, body)| (seq, body.as_bytes().to_vec())));
}
