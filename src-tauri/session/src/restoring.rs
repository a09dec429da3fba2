//! From a backup back to a record: read and verified in a folder of its own before anything is replaced.

use std::fs;
use std::path::{Path, PathBuf};

use domain::State;
use domain::leaving::{Erasing, Erasure, NotRestorable, Restorable};
use domain::moment::Moment;
use journal::{Fault, NotABackup, Verified, disk};

use crate::fold::Fold;
use crate::handle::{read, read_with_head};
use crate::leaving::remove;

/// Beside the record, on its disk, so that it can be moved in by a rename.
const PREPARED: &str = "restore.new";

pub(crate) fn prepared(folder: &Path) -> PathBuf {
    folder.join(PREPARED)
}

/// Unpacks and verifies a backup beside the record of `folder`; replaces nothing.
pub(crate) fn prepare(folder: &Path, bytes: &[u8]) -> Result<Restorable, NotRestorable> {
    let into = prepared(folder);
    let done = remove(&into)
        .map_err(|error| by_fault(&Fault::from_io(&error)))
        .and_then(|()| journal::unpack(bytes, &into).map_err(|fault| not_a_backup(&fault)))
        .and_then(|()| look(&into));
    if done.is_err()
        && let Err(error) = remove(&into)
    {
        eprintln!("Holdfast: {}: {error}", into.display());
    }
    done
}

/// What a prepared record amounts to, once every entry has been verified.
pub(crate) fn look(prepared: &Path) -> Result<Restorable, NotRestorable> {
    let (state, verified) = read_with_head(prepared).map_err(|fault| {
        eprintln!("Holdfast: the record in the backup: {fault}");
        by_record(&fault)
    })?;
    Ok(restorable(&state, verified))
}

fn restorable(state: &State, verified: Verified) -> Restorable {
    let last = state.last;
    Restorable {
        entries: verified.head.seq,
        beds: u32::try_from(state.beds.len()).unwrap_or(u32::MAX),
        last_ms: last.map_or(0, |last| last.wall_ms),
        offset_min: last.map_or(0, |last| last.offset_min),
        head: verified.head.hash.to_string(),
    }
}

fn not_a_backup(fault: &NotABackup) -> NotRestorable {
    match fault {
        NotABackup::Foreign => NotRestorable::NotABackup,
        NotABackup::Newer { .. } => NotRestorable::Newer,
        NotABackup::CutShort => NotRestorable::CutShort,
        NotABackup::Altered => NotRestorable::Altered,
        NotABackup::Fault(fault) => by_fault(fault),
    }
}

fn by_fault(fault: &Fault) -> NotRestorable {
    if *fault == Fault::DiskFull { NotRestorable::DiskFull } else { NotRestorable::Refused }
}

fn by_record(fault: &Fault) -> NotRestorable {
    if matches!(fault, Fault::Newer { .. }) { NotRestorable::Newer } else { NotRestorable::DoesNotHold }
}

/// How a backup stands to the record of the folder it is to be restored into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// There is none, or nothing was ever done on it.
    Untouched,
    /// The backup goes on where the record ends: nothing is lost.
    GoesOn,
    /// The record has all the backup has, and this many entries more.
    HasNewer(u32),
    /// The record is of another tablet, or the two went apart.
    Another,
}

/// What was restored, and where the record before was put aside, if it was.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Restored {
    pub backup: Restorable,
    pub aside: Option<PathBuf>,
    /// Patients whose erasure this tablet knew of and the backup did not.
    pub erased_again: u32,
}

/// Restores a backup into `folder` where no Holdfast runs. Where the record there would lose something, it is refused,
/// unless `aside` names a folder for it. What this tablet has erased does not come back with an older backup.
///
/// # Errors
/// The backup was not restored, and everything is as it was, folders too: for its own fault, or for what stands there
/// already.
pub fn restore_into(
    folder: &Path,
    bytes: &[u8],
    aside: Option<&Path>,
    now: Moment,
) -> Result<Restored, NotRestored> {
    let new: Vec<PathBuf> = [Some(folder), aside].into_iter().flatten().flat_map(disk::missing).collect();
    let done = restored_into(folder, bytes, aside, now);
    if done.is_err() {
        new.iter().for_each(|folder| disk::remove_empty(folder));
    }
    done
}

fn restored_into(
    folder: &Path,
    bytes: &[u8],
    aside: Option<&Path>,
    now: Moment,
) -> Result<Restored, NotRestored> {
    disk::make_private(folder).map_err(|error| NotRestored::Record(Fault::from_io(&error)))?;
    prepare(folder, bytes).map_err(NotRestored::Backup)?;
    let done = replaced(folder, aside, now);
    // Moved in, or of no use any more.
    if let Err(error) = remove(&prepared(folder)) {
        eprintln!("Holdfast: {}: {error}", prepared(folder).display());
    }
    done
}

/// Why nothing was replaced.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotRestored {
    Backup(NotRestorable),
    Stands(Relation),
    /// In the folder that was named to put the record aside lies one already.
    AsideTaken(PathBuf),
    Record(Fault),
}

impl From<Fault> for NotRestored {
    fn from(fault: Fault) -> NotRestored {
        NotRestored::Record(fault)
    }
}

fn replaced(folder: &Path, aside: Option<&Path>, now: Moment) -> Result<Restored, NotRestored> {
    let prepared = prepared(folder);
    let present = folder.join(RECORD).exists().then(|| read_with_head(folder)).transpose()?;
    let relation = relation(folder, &prepared, present.as_ref())?;
    let loses = matches!(relation, Relation::HasNewer(_) | Relation::Another);
    if loses && aside.is_none() {
        return Err(NotRestored::Stands(relation));
    }
    let proofs = present.map(|(state, _)| state.erased).unwrap_or_default();
    let erased_again = erase_again(&prepared, &proofs, now)?;
    let backup = look(&prepared).map_err(NotRestored::Backup)?;
    let aside = aside.filter(|_| loses);
    if let Some(taken) = aside.map(|aside| aside.join(RECORD)).filter(|taken| taken.exists()) {
        return Err(NotRestored::AsideTaken(taken));
    }
    aside.map(|aside| put_aside(folder, aside)).transpose()?;
    journal::put_in_place(folder, &prepared)?;
    Ok(Restored { backup, aside: aside.map(Path::to_owned), erased_again })
}

const RECORD: &str = "journal.sqlite3";

fn relation(
    folder: &Path,
    prepared: &Path,
    present: Option<&(State, Verified)>,
) -> Result<Relation, NotRestored> {
    let Some((state, verified)) = present else { return Ok(Relation::Untouched) };
    let backup = read_with_head(prepared)?.1.head;
    if journal::stands_on(prepared, verified.head)? {
        return Ok(Relation::GoesOn);
    }
    if state.is_untouched() {
        return Ok(Relation::Untouched);
    }
    let older = journal::stands_on(folder, backup)?;
    Ok(if older { Relation::HasNewer(verified.head.seq - backup.seq) } else { Relation::Another })
}

/// A copy that opens by itself: the log has been written back, and no other Holdfast runs.
fn put_aside(folder: &Path, aside: &Path) -> Result<(), Fault> {
    drop(journal::Journal::open(folder)?);
    let copy = || {
        disk::make_private(aside)?;
        let into = aside.join(RECORD);
        fs::copy(folder.join(RECORD), &into)?;
        fs::File::open(into)?.sync_all()?;
        disk::sync(aside)
    };
    copy().map_err(|error| Fault::from_io(&error))
}

/// Everything this tablet knows to be erased and the backup still holds.
fn erase_again(prepared: &Path, proofs: &[Erasure], now: Moment) -> Result<u32, NotRestored> {
    let known = read(prepared)?.erased;
    let missing = proofs.iter().filter(|proof| !known.iter().any(|known| known.patient == proof.patient));
    let mut count = 0;
    for proof in missing {
        let (mut fold, _) = Fold::open(prepared)?;
        count += u32::from(
            fold.erase_known(proof, now)
                .map_err(|_| NotRestorable::DoesNotHold)
                .map_err(NotRestored::Backup)?,
        );
    }
    Ok(count)
}

pub(crate) fn again(proof: &Erasure) -> Erasing {
    let Erasure { patient, closed, by, after_days, rules, left, .. } = proof.clone();
    Erasing { patient, closed, left, by, after_days, rules }
}
