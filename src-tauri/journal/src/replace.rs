//! Another record in the place of this one: prepared beside it and verified before, then moved in by one rename.

use std::path::Path;

use crate::chain::Head;
use crate::fault::Fault;
use crate::folder::{self, Lock, Paths};
use crate::{rows, schema};

/// Puts the record of the folder `prepared`, closed and on the same disk, in the place of the one in `folder`, which
/// may be none. Not while a Holdfast runs there.
///
/// # Errors
/// See `Fault`; the record that was there is untouched then.
pub fn put_in_place(folder: &Path, prepared: &Path) -> Result<(), Fault> {
    let paths = Paths::of(folder);
    let _lock = Lock::take(&paths)?;
    if paths.journal().exists() {
        rows::empty_log(&schema::connect(&paths)?)?;
    }
    swap(&paths, prepared)
}

/// The alive time names a head of the record before, so it goes first: without one any record opens.
pub(crate) fn swap(paths: &Paths, prepared: &Path) -> Result<(), Fault> {
    let coming = Paths::of(prepared);
    // A reader may have left an empty log; only a writer takes it away.
    rows::empty_log(&schema::connect(&coming)?)?;
    if coming.wal().exists() {
        return Err(Fault::Held);
    }
    folder::remove(&paths.alive())?;
    folder::remove(&paths.wal())?;
    folder::name(&coming.journal(), &paths.journal())
}

/// Whether the record in `folder` holds exactly this head, at its end or before.
///
/// # Errors
/// See `Fault`.
pub fn stands_on(folder: &Path, head: Head) -> Result<bool, Fault> {
    rows::stands_on(&schema::connect_to_read(&Paths::of(folder))?, head)
}
