//! Files and folders that hold something of a patient: whole under their name or not there, and for their owner alone.

use std::fs::{self, DirBuilder, File};
use std::io::{self, ErrorKind, Write as _};
use std::path::{Path, PathBuf};

/// Makes a folder, and those above it that are missing; those it makes, only their owner may look into.
///
/// # Errors
/// The system's own.
pub fn make_private(folder: &Path) -> io::Result<()> {
    let mut builder = DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder)
}

/// The folder and those above it that are missing, the innermost first: what `make_private` would make.
pub fn missing(folder: &Path) -> Vec<PathBuf> {
    let missing = |folder: &&Path| !folder.as_os_str().is_empty() && !folder.exists();
    folder.ancestors().take_while(missing).map(Path::to_path_buf).collect()
}

/// Removes a folder that was made for nothing; one into which somebody has put something stays.
pub fn remove_empty(folder: &Path) {
    if let Err(error) = fs::remove_dir(folder)
        && !matches!(error.kind(), ErrorKind::NotFound | ErrorKind::DirectoryNotEmpty)
    {
        eprintln!("Holdfast: {}: {error}", folder.display());
    }
}

/// Writes a new file. Its bytes are on the disk when this returns; that it has its name there is for `name`, or `sync`
/// of its folder.
///
/// # Errors
/// The system's own, also where the file is there already; nothing half written stays.
pub fn put(file: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut new = File::create_new(file)?;
    let written = new.write_all(bytes).and_then(|()| new.sync_all());
    if written.is_err() {
        remove(file)?;
    }
    written
}

/// Gives the file `half` its name on the same disk, in the place of what bore it.
///
/// # Errors
/// The system's own.
pub fn name(half: &Path, whole: &Path) -> io::Result<()> {
    fs::rename(half, whole)?;
    sync(whole.parent().unwrap_or(Path::new("")))
}

/// A name is durable only once its folder is.
///
/// # Errors
/// The system's own.
pub fn sync(folder: &Path) -> io::Result<()> {
    #[cfg(unix)]
    {
        let here = Path::new(".");
        File::open(if folder.as_os_str().is_empty() { here } else { folder })?.sync_all()?;
    }
    #[cfg(not(unix))]
    let _ = folder;
    Ok(())
}

/// Removes a file that may not be there.
///
/// # Errors
/// The system's own.
pub fn remove(file: &Path) -> io::Result<()> {
    match fs::remove_file(file) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}
