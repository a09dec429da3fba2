//! Files that leave: into a folder of their own, whole or not at all.

use std::fs;
use std::io::{self, ErrorKind};
use std::path::Path;

use domain::teaching::ask::NotWritten;
use journal::disk;

/// Under the data folder.
pub(crate) const FOLDER: &str = "Exports";

/// The path of the file, once it is on the disk under its final name.
pub(crate) fn write(data: &Path, name: &str, bytes: &[u8]) -> Result<String, NotWritten> {
    let folder = data.join(FOLDER);
    let (half, whole) = (folder.join(format!("{name}.half")), folder.join(name));
    // One that is there was left by a death.
    let put = || disk::remove(&half).and_then(|()| disk::put(&half, bytes));
    let written = fs::create_dir_all(&folder).and_then(|()| put()).and_then(|()| disk::name(&half, &whole));
    written.map_err(|error| {
        // What is left of it is of no use; if it cannot go, the first fault is the one to say.
        let _ = disk::remove(&half);
        fault(&error)
    })?;
    let shown = whole.canonicalize().unwrap_or(whole);
    Ok(shown.display().to_string())
}

fn fault(error: &io::Error) -> NotWritten {
    if matches!(error.kind(), ErrorKind::StorageFull | ErrorKind::QuotaExceeded) {
        NotWritten::DiskFull
    } else {
        NotWritten::Device(error.to_string())
    }
}
