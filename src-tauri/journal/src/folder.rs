//! The data folder: its files by name, and the lock that keeps a second Holdfast out.

use std::fs::{File, OpenOptions, TryLockError};
use std::path::{Path, PathBuf};

use crate::disk;
use crate::fault::Fault;

/// Names of the files in a data folder.
#[derive(Clone, Debug)]
pub(crate) struct Paths {
    folder: PathBuf,
}

impl Paths {
    pub(crate) fn of(folder: &Path) -> Paths {
        Paths { folder: folder.to_owned() }
    }

    pub(crate) fn folder(&self) -> &Path {
        &self.folder
    }

    pub(crate) fn journal(&self) -> PathBuf {
        self.folder.join("journal.sqlite3")
    }

    /// A journal under this name was never finished.
    pub(crate) fn unfinished(&self) -> PathBuf {
        self.folder.join("journal.new")
    }

    pub(crate) fn wal(&self) -> PathBuf {
        self.folder.join("journal.sqlite3-wal")
    }

    pub(crate) fn alive(&self) -> PathBuf {
        self.folder.join("alive")
    }

    pub(crate) fn reserve(&self) -> PathBuf {
        self.folder.join("reserve")
    }

    fn lock(&self) -> PathBuf {
        self.folder.join("lock")
    }
}

/// Held as long as this Holdfast runs; the system drops it when the process dies.
#[derive(Debug)]
pub(crate) struct Lock {
    file: File,
}

impl Drop for Lock {
    /// Said aloud: a program started at this moment may still hold a copy of the open file.
    fn drop(&mut self) {
        if let Err(error) = self.file.unlock() {
            eprintln!("Holdfast: the lock on the data folder goes with the process: {error}");
        }
    }
}

impl Lock {
    /// Makes the folder if need be and takes its lock.
    pub(crate) fn take(paths: &Paths) -> Result<Lock, Fault> {
        make(paths.folder())?;
        let file = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(paths.lock())
            .map_err(|error| Fault::from_io(&error))?;
        match file.try_lock() {
            Ok(()) => Ok(Lock { file }),
            Err(TryLockError::WouldBlock) => Err(Fault::InUse),
            Err(TryLockError::Error(error)) => Err(Fault::from_io(&error)),
        }
    }
}

fn make(folder: &Path) -> Result<(), Fault> {
    disk::make_private(folder).map_err(|error| {
        let fault = Fault::from_io(&error);
        if let Fault::Device(text) = fault { Fault::NoFolder(text) } else { fault }
    })
}

pub(crate) fn remove(file: &Path) -> Result<(), Fault> {
    disk::remove(file).map_err(|error| Fault::from_io(&error))
}

/// Gives a file its name; it is durable when this returns.
pub(crate) fn name(half: &Path, whole: &Path) -> Result<(), Fault> {
    disk::name(half, whole).map_err(|error| Fault::from_io(&error))
}
