//! The statements: every read and write of the tables, one function each.

use std::collections::BTreeSet;

use rusqlite::{Connection, OptionalExtension, params};

use crate::chain::{self, Hash, Head, Kind, Row, SALT_BYTES};
use crate::fault::Fault;

pub(crate) fn head(connection: &Connection) -> Result<Head, Fault> {
    let last = connection
        .query_row("SELECT seq, hash FROM chain ORDER BY seq DESC LIMIT 1", [], |row| {
            Ok(Head { seq: row.get(0)?, hash: Hash(row.get(1)?) })
        })
        .optional()?;
    Ok(last.unwrap_or(Head::GENESIS))
}

/// Whether the chain holds exactly this head, at its end or before.
pub(crate) fn stands_on(connection: &Connection, head: Head) -> Result<bool, Fault> {
    let hash: Option<[u8; 32]> = connection
        .query_row("SELECT hash FROM chain WHERE seq = ?1", [head.seq], |row| row.get(0))
        .optional()?;
    Ok(head == Head::GENESIS || hash == Some(head.hash.0))
}

/// Appends one record: its place in the chain and its content.
pub(crate) fn insert(connection: &Connection, head: Head, stored: &[u8]) -> Result<Head, Fault> {
    let mut salt = [0; SALT_BYTES];
    getrandom::fill(&mut salt).map_err(|_| Fault::Randomness)?;
    let commitment = chain::commitment(&salt, stored);
    let next = head.next(commitment);
    connection
        .prepare_cached("INSERT INTO chain (seq, commitment, hash) VALUES (?1, ?2, ?3)")?
        .execute(params![next.seq, commitment.0, next.hash.0])?;
    connection
        .prepare_cached("INSERT INTO content (seq, salt, body) VALUES (?1, ?2, ?3)")?
        .execute(params![next.seq, salt, stored])?;
    Ok(next)
}

/// Takes the bodies of `erased` away; the record at `head` must be the one that says so.
pub(crate) fn erase(connection: &Connection, head: Head, erased: &BTreeSet<u32>) -> Result<(), Fault> {
    let mut name = connection.prepare("INSERT INTO erasure (seq, record) VALUES (?1, ?2)")?;
    let mut delete = connection.prepare("DELETE FROM content WHERE seq = ?1")?;
    for seq in erased {
        name.execute([seq, &head.seq])?;
        delete.execute([seq])?;
    }
    Ok(())
}

/// A body that stands, belongs to an event and is older than the record to come.
pub(crate) fn erasable(connection: &Connection, seq: u32) -> Result<bool, Fault> {
    let stored: Option<Vec<u8>> = connection
        .prepare_cached("SELECT body FROM content WHERE seq = ?1")?
        .query_row([seq], |row| row.get(0))
        .optional()?;
    let kind = stored.as_deref().and_then(chain::open_body).map(|opened| opened.kind);
    Ok(kind == Some(Kind::Event))
}

/// Every record after `seq`, in order.
pub(crate) fn each_after(
    connection: &Connection,
    seq: u32,
    mut each: impl FnMut(Row) -> Result<(), Fault>,
) -> Result<(), Fault> {
    let mut query = connection.prepare(
        "SELECT chain.seq, commitment, hash, salt, body FROM chain LEFT JOIN content USING (seq)
         WHERE chain.seq > ?1 ORDER BY chain.seq",
    )?;
    let mut rows = query.query([seq])?;
    while let Some(row) = rows.next()? {
        each(read(row)?)?;
    }
    Ok(())
}

fn read(row: &rusqlite::Row<'_>) -> Result<Row, Fault> {
    let salt: Option<Vec<u8>> = row.get(3)?;
    let body: Option<Vec<u8>> = row.get(4)?;
    Ok(Row {
        seq: row.get(0)?,
        commitment: Hash(row.get(1)?),
        hash: Hash(row.get(2)?),
        content: salt.zip(body),
    })
}

/// Contents that hang on no record: a chain never has any.
pub(crate) fn stray(connection: &Connection) -> Result<Option<u32>, Fault> {
    let seq = connection
        .query_row("SELECT seq FROM content WHERE seq NOT IN (SELECT seq FROM chain) LIMIT 1", [], |row| {
            row.get(0)
        })
        .optional()?;
    Ok(seq)
}

/// Replaces the snapshot: the fold of the chain up to `head`.
pub(crate) fn put_snapshot(connection: &Connection, head: Head, state: &[u8]) -> Result<(), Fault> {
    connection.execute(
        "INSERT INTO snapshot (one, seq, hash, sum, state) VALUES (1, ?1, ?2, ?3, ?4) ON CONFLICT (one)
         DO UPDATE SET seq = excluded.seq, hash = excluded.hash, sum = excluded.sum, state = excluded.state",
        params![head.seq, head.hash.0, sum(head, state).0, state],
    )?;
    Ok(())
}

pub(crate) fn drop_snapshot(connection: &Connection) -> Result<(), Fault> {
    connection.execute("DELETE FROM snapshot", [])?;
    Ok(())
}

/// The snapshot, if it is whole and the chain still stands on its head.
pub(crate) fn snapshot(connection: &Connection) -> Result<Option<(Head, Vec<u8>)>, Fault> {
    let found = connection
        .query_row("SELECT seq, hash, sum, state FROM snapshot", [], |row| {
            let head = Head { seq: row.get(0)?, hash: Hash(row.get(1)?) };
            Ok((head, Hash(row.get(2)?), row.get::<_, Vec<u8>>(3)?))
        })
        .optional()?;
    let Some((head, summed, state)) = found else { return Ok(None) };
    let sound = summed == sum(head, &state) && stands_on(connection, head)?;
    Ok(sound.then_some((head, state)))
}

fn sum(head: Head, state: &[u8]) -> Hash {
    chain::digest(&[&head.seq.to_be_bytes(), &head.hash.0, state])
}

/// Writes the whole file anew; nothing of it leaves the data folder meanwhile.
pub(crate) fn rewrite(connection: &Connection) -> Result<(), Fault> {
    connection.execute_batch("PRAGMA temp_store = MEMORY; VACUUM;")?;
    Ok(())
}

pub(crate) fn ends_with_an_erasure(connection: &Connection) -> Result<bool, Fault> {
    let found = connection.query_row(
        "SELECT EXISTS (SELECT 1 FROM erasure WHERE record = (SELECT max(seq) FROM chain))",
        [],
        |row| row.get(0),
    )?;
    Ok(found)
}

/// Moves the write-ahead log into the file and empties it; `false` while a reader needs it.
pub(crate) fn empty_log(connection: &Connection) -> Result<bool, Fault> {
    let busy: i64 = connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| row.get(0))?;
    Ok(busy == 0)
}
