//! Files that leave: into a folder of their own, whole or not at all.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Write as _};
use std::path::{Path, PathBuf};

use domain::teaching::ask::NotWritten;

/// Under the data folder.
pub(crate) const FOLDER: &str = "Exports";

/// The path of the file, once it is on the disk under its final name.
pub(crate) fn write(data: &Path, name: &str, bytes: &[u8]) -> Result<String, NotWritten> {
    let folder = data.join(FOLDER);
    let (half, whole) = (folder.join(format!("{name}.half")), folder.join(name));
    let written = fs::create_dir_all(&folder).and_then(|()| put(&half, &whole, bytes));
    written.map_err(|error| {
        // What is left of it is of no use; if it cannot go, the first fault is the one to say.
        let _ = fs::remove_file(&half);
        fault(&error)
    })?;
    let shown = whole.canonicalize().unwrap_or_else(|_| PathBuf::from(&whole));
    Ok(shown.display().to_string())
}

fn put(half: &Path, whole: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create(half)?;
    file.write_all(bytes)?;
    file.sync_all()?;
    fs::rename(half, whole)
}

fn fault(error: &io::Error) -> NotWritten {
    if matches!(error.kind(), ErrorKind::StorageFull | ErrorKind::QuotaExceeded) {
        NotWritten::DiskFull
    } else {
        NotWritten::Device(error.to_string())
    }
}
