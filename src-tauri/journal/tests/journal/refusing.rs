//! The tables themselves refuse what would lose or alter a record, whoever asks.

use std::collections::BTreeSet;

use crate::desk::{bodies, check, folder, open, raw, read};

/// Each statement, and a word of the refusal that must answer it.
const FORBIDDEN: [(&str, &str); 16] = [
    ("UPDATE chain SET commitment = zeroblob(32) WHERE seq = 2", "never changed"),
    ("UPDATE chain SET seq = 99 WHERE seq = 5", "never changed"),
    ("DELETE FROM chain WHERE seq = 5", "never deleted"),
    ("DELETE FROM chain", "never deleted"),
    ("INSERT OR REPLACE INTO chain VALUES (2, zeroblob(32), zeroblob(32))", "to the end"),
    ("INSERT INTO chain VALUES (9, zeroblob(32), zeroblob(32))", "to the end"),
    ("INSERT INTO chain VALUES (7, zeroblob(31), zeroblob(32))", "CHECK"),
    ("UPDATE content SET body = x'00' WHERE seq = 2", "never changed"),
    ("DELETE FROM content WHERE seq = 2", "only with the record"),
    ("DELETE FROM content WHERE seq = 3", "only with the record"),
    ("INSERT INTO content VALUES (4, zeroblob(16), x'00')", "written once"),
    ("INSERT OR REPLACE INTO content VALUES (6, zeroblob(16), x'00')", "written once"),
    ("INSERT INTO erasure VALUES (2, 5)", "by the record"),
    ("INSERT OR REPLACE INTO erasure VALUES (4, 6)", "by the record"),
    ("UPDATE erasure SET record = 6", "never changed"),
    ("DELETE FROM erasure", "never deleted"),
];

#[test]
fn no_statement_loses_or_alters_a_record() {
    let folder = folder();
    let mut journal = open(folder.path());
    journal.append(&bodies(1..=4)).unwrap();
    journal.erase(&BTreeSet::from([4]), b"why").unwrap();
    journal.append(&bodies(6..=6)).unwrap();
    drop(journal);
    let before = read(folder.path()).unwrap();
    let tables = raw(folder.path());
    for (statement, word) in FORBIDDEN {
        let refusal = tables.execute(statement, []).expect_err(statement).to_string();
        assert!(refusal.contains(word), "{statement}: {refusal}");
    }
    drop(tables);
    assert_eq!(read(folder.path()).unwrap(), before);
    assert_eq!(check(folder.path()).unwrap().head.seq, 6);
}
