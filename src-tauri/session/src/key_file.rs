//! The tablet's key: a file of its own in the data folder, for nobody else's eyes. It is in no record, no log, no view.

use std::fs::{self, File, OpenOptions};
use std::io::{ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

use domain::handover::tablet::KeyLost;
use journal::disk;
use seal::{Secret, TabletKey};

use crate::trouble::Trouble;

const NAME: &str = "tablet.key";
/// Written whole before it gets its name.
const UNFINISHED: &str = "tablet.key.new";
const BYTES: usize = 32;

/// The key in this folder.
///
/// # Errors
/// There is none, or what is there is no key.
pub fn read(folder: &Path) -> Result<TabletKey, KeyLost> {
    let bytes = match File::open(path(folder)).and_then(contents) {
        Ok(bytes) => Secret::new(bytes),
        Err(error) if error.kind() == ErrorKind::NotFound => return Err(KeyLost::Gone),
        Err(error) => {
            eprintln!("Holdfast: the tablet's key cannot be read: {error}");
            return Err(KeyLost::Damaged);
        }
    };
    TabletKey::from_secret(&bytes).ok_or(KeyLost::Damaged)
}

fn path(folder: &Path) -> PathBuf {
    folder.join(NAME)
}

/// One byte more than a key, so that a longer file is none.
fn contents(file: File) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::with_capacity(BYTES + 1);
    file.take(BYTES as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// A new key in this folder, from the device's random bytes; what was no key there is kept beside it.
pub(crate) fn make(folder: &Path) -> Result<TabletKey, Trouble> {
    let mut seed = [0; BYTES];
    getrandom::fill(&mut seed).map_err(|_| Trouble::NoRandomness)?;
    let key = TabletKey::from_seed(&seed);
    seed.fill(0);
    write(folder, &key).map_err(|error| Trouble::Unwritable(error.to_string()))?;
    Ok(key)
}

fn write(folder: &Path, key: &TabletKey) -> std::io::Result<()> {
    let unfinished = folder.join(UNFINISHED);
    let mut file = private(&unfinished)?;
    file.write_all(key.seed().expose())?;
    file.sync_all()?;
    if path(folder).exists() {
        fs::rename(path(folder), folder.join("tablet.key.damaged"))?;
    }
    disk::name(&unfinished, &path(folder))
}

#[cfg(unix)]
fn private(path: &Path) -> std::io::Result<File> {
    use std::os::unix::fs::OpenOptionsExt;
    OpenOptions::new().write(true).create(true).truncate(true).mode(0o600).open(path)
}

#[cfg(not(unix))]
fn private(path: &Path) -> std::io::Result<File> {
    OpenOptions::new().write(true).create(true).truncate(true).open(path)
}
