//! Verifying a whole record without writing: beside a running app, in the background, or later.

use std::path::Path;

use rusqlite::Connection;

use crate::alive;
use crate::chain::{Break, Head, Record, Unreadable, Walk};
use crate::fault::Fault;
use crate::folder::Paths;
use crate::journal::anchor;
use crate::{rows, schema};

/// A record that holds from its first entry to its last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Verified {
    pub head: Head,
    /// Bodies that were erased, each named by a record that stands.
    pub erased: u32,
}

/// Reads the whole record in `folder` once and hands over what stands. Takes no lock; records
/// appended meanwhile are not looked at.
pub fn verify(
    folder: &Path,
    mut each: impl FnMut(Record<'_>) -> Result<(), Unreadable>,
) -> Result<Verified, Fault> {
    let paths = Paths::of(folder);
    // Before the tables: a head written later would look like a chain cut short.
    let alive = alive::read(&paths.alive())?;
    let connection = schema::connect_to_read(&paths)?;
    let reading = connection.unchecked_transaction()?;
    let verified = walk(&reading, &mut each)?;
    anchor(&reading, verified.head, alive.as_ref())?;
    schema::quick_check(&reading)?;
    Ok(verified)
}

fn walk(
    connection: &Connection,
    each: &mut impl FnMut(Record<'_>) -> Result<(), Unreadable>,
) -> Result<Verified, Fault> {
    let mut walk = Walk::from(Head::GENESIS);
    rows::each_after(connection, 0, |row| {
        let Some(record) = walk.step(&row)? else { return Ok(()) };
        each(record).map_err(|Unreadable| Break::Unreadable { seq: row.seq }.into())
    })?;
    if let Some(seq) = rows::stray(connection)? {
        return Err(Break::Gap { seq }.into());
    }
    let erased = walk.erased;
    Ok(Verified { head: walk.finish()?, erased })
}
