//! Files of a wire and backups, in the Exports folder: each comes under its name only once it is whole, and goes with
//! the erasure of whoever stands in it.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use domain::State;
use domain::leaving::{Left, NotWritten, Way, Writing, Written};
use export::{Between, Care};
use journal::{Fault, disk};

use crate::exports::FOLDER;

/// Names that begin so are not finished.
const UNFINISHED: char = '.';
const BACKUPS: &str = "backup-";

/// Writes what was asked for, or nothing. Asked again for the same, it comes to the same.
pub(crate) fn write(folder: &Path, state: &State, writing: &Writing) -> Written {
    let exports = folder.join(FOLDER);
    let part = exports.join(format!("{UNFINISHED}{}", writing.name()));
    let place = exports.join(writing.name());
    let written = fs::create_dir_all(&exports)
        .and_then(|()| remove(&part))
        .map_err(|error| not_written(&error))
        .and_then(|()| match writing {
            Writing::Files { bed, wire, .. } => {
                files(state, *bed, *wire).and_then(|made| write_all(&part, &made))
            }
            Writing::Backup { .. } => back_up(folder, &part),
        })
        .and_then(|()| finish(&part, &place).map_err(|error| not_written(&error)));
    match written {
        Ok(()) => Written::At(place.canonicalize().unwrap_or(place).display().to_string()),
        Err(why) => {
            // What was begun is in nobody's way; it goes with the next writing at the latest.
            if let Err(error) = remove(&part) {
                eprintln!("Holdfast: {}: {error}", part.display());
            }
            Written::Not(why)
        }
    }
}

type Made = Vec<(&'static str, Vec<u8>)>;

/// Every check on a patient that was made on this wire, what befell it between them, and one page of the newest.
fn files(state: &State, bed: u32, wire: u32) -> Result<Made, NotWritten> {
    let (bed, wire) = state.bed(bed).zip(state.wire(bed, wire)).ok_or(NotWritten::NotMade)?;
    let checks = Care::of_wire(wire);
    let between = Between::of_wire(state, bed, wire);
    let newest = checks.last().ok_or(NotWritten::NotMade)?;
    let csv = export::csv(&checks).map_err(|fault| not_made(&fault))?;
    let rest = export::between_csv(&between).map_err(|fault| not_made(&fault))?;
    let bundle = export::bundle(&checks, &between).map_err(|fault| not_made(&fault))?;
    let page = export::pdf(state, newest, state.language).map_err(|fault| not_made(&fault))?;
    let bundle = format!("{bundle:#}\n").into_bytes();
    Ok(vec![("checks.csv", csv), ("between.csv", rest), ("bundle.json", bundle), ("newest.pdf", page)])
}

fn not_made(fault: &impl std::fmt::Debug) -> NotWritten {
    eprintln!("Holdfast: export: {fault:?}");
    NotWritten::NotMade
}

fn write_all(folder: &Path, files: &Made) -> Result<(), NotWritten> {
    let write = || {
        fs::create_dir(folder)?;
        files.iter().try_for_each(|(name, bytes)| disk::put(&folder.join(name), bytes))?;
        disk::sync(folder)
    };
    write().map_err(|error| not_written(&error))
}

fn back_up(folder: &Path, part: &Path) -> Result<(), NotWritten> {
    journal::back_up(folder, part).map(|_| ()).map_err(|fault| {
        eprintln!("Holdfast: backup: {fault}");
        by_fault(&fault)
    })
}

fn by_fault(fault: &Fault) -> NotWritten {
    if *fault == Fault::DiskFull {
        NotWritten::DiskFull
    } else if matches!(fault, Fault::ReadOnly | Fault::Device(_)) {
        NotWritten::Refused
    } else {
        NotWritten::NotMade
    }
}

fn not_written(error: &io::Error) -> NotWritten {
    eprintln!("Holdfast: export: {error}");
    by_fault(&Fault::from_io(error))
}

/// One of the same name is an earlier end of the same writing.
fn finish(part: &Path, place: &Path) -> io::Result<()> {
    remove(place)?;
    disk::name(part, place)
}

/// Takes away the files in which an erased patient may stand: their own, every backup, and whatever was not finished.
pub(crate) fn remove_of(folder: &Path, left: &[Left]) -> io::Result<()> {
    let exports = folder.join(FOLDER);
    let own = |name: &str| left.iter().any(|one| one.way == Way::Files && one.name.as_deref() == Some(name));
    for place in names(&exports)? {
        let name = place.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        if own(&name) || name.starts_with(BACKUPS) || name.starts_with(UNFINISHED) {
            remove(&place)?;
        }
    }
    Ok(())
}

fn names(exports: &Path) -> io::Result<Vec<PathBuf>> {
    match fs::read_dir(exports) {
        Ok(entries) => entries.map(|entry| entry.map(|entry| entry.path())).collect(),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(Vec::new()),
        Err(error) => Err(error),
    }
}

/// A file or a folder that may not be there.
pub(crate) fn remove(place: &Path) -> io::Result<()> {
    if place.is_dir() { fs::remove_dir_all(place) } else { disk::remove(place) }
}
