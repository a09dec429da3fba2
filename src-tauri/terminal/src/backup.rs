//! A backup of a whole record into a file, and a record from one.

use std::path::Path;

use domain::leaving::{Restorable, Way};
use domain::say::Say;
use journal::{Fault, disk};
use session::{NotRestored, OpenFault, Relation};

use crate::export::{no_room, not_written};
use crate::spoken::spoken;
use crate::verify::said;

/// Writes the record of `folder`, verified, into the new file `into`; a sentence says so. The record says that it
/// left, before the file has its name.
///
/// # Errors
/// The sentence that says why nothing was written; also beside a running app.
pub fn back_up(folder: &Path, into: &Path) -> Result<String, String> {
    let record = |fault| said(&OpenFault::Record(fault), folder);
    let file = into.display().to_string();
    if into.exists() {
        return Err(spoken(&Say::ExportTaken { file }));
    }
    session::verify(folder).map_err(record)?;
    let mut half = into.as_os_str().to_owned();
    half.push(".half");
    let half = Path::new(&half);
    // One that is there was left by a backup that died.
    disk::remove(half).and_then(|()| takes_a_file(half)).map_err(|error| not_written(into, &error))?;
    // The record was read to its end just now: room that is missing is the backup's.
    let told = |fault| if fault == Fault::DiskFull { no_room(into) } else { record(fault) };
    let head = journal::back_up(folder, half).map_err(told)?;
    let recorded = session::record_leaving(folder, Way::Backup).map_err(|fault| said(&fault, folder));
    let named = recorded.and_then(|()| disk::name(half, into).map_err(|error| not_written(into, &error)));
    if let Err(why) = named {
        // Its name it may have got, and it is not durable there.
        [half, into].into_iter().try_for_each(disk::remove).map_err(|error| not_written(into, &error))?;
        return Err(why);
    }
    Ok(spoken(&Say::BackupHolds { file, entries: head.seq.to_string() }))
}

/// Asked of the folder before the record is copied: the copy's fault would name the database, not the folder.
fn takes_a_file(half: &Path) -> std::io::Result<()> {
    std::fs::File::create_new(half).and_then(|_| std::fs::remove_file(half))
}

/// Restores the backup `file` into the data folder `into`; sentences say what was done.
///
/// # Errors
/// The sentence that says why everything is as it was.
pub fn restore(file: &Path, into: &Path, aside: Option<&Path>) -> Result<String, String> {
    let unread = |why: std::io::Error| {
        spoken(&Say::FileNotRead { file: file.display().to_string(), why: why.to_string() })
    };
    let bytes = std::fs::read(file).map_err(unread)?;
    let now = session::now().map_err(|fault| said(&fault, into))?;
    let done = session::restore_into(into, &bytes, aside, now).map_err(|why| not_restored(into, &why))?;
    let mut sentences = vec![restored(into, &done.backup)];
    sentences.extend(done.backup.is_ahead_of(now).then_some(Say::RestorableAhead));
    sentences.extend(done.aside.map(|place| Say::RestoredAside { folder: place.display().to_string() }));
    sentences.extend((done.erased_again > 0).then_some(Say::RestoredErased { count: done.erased_again }));
    Ok(sentences.iter().map(spoken).collect::<Vec<_>>().join("\n"))
}

fn restored(into: &Path, backup: &Restorable) -> Say {
    Say::RestoredInto { folder: into.display().to_string(), entries: backup.entries.to_string() }
}

fn not_restored(into: &Path, why: &NotRestored) -> String {
    match why {
        NotRestored::Backup(fault) => spoken(&domain::not_restored(*fault)),
        NotRestored::Record(fault) => said(&OpenFault::Record(fault.clone()), into),
        NotRestored::AsideTaken(taken) => spoken(&Say::ExportTaken { file: taken.display().to_string() }),
        NotRestored::Stands(Relation::HasNewer(count)) => spoken(&Say::RestoreHasNewer { count: *count }),
        NotRestored::Stands(Relation::Another | Relation::GoesOn | Relation::Untouched) => {
            spoken(&Say::RestoreAnother)
        }
    }
}
