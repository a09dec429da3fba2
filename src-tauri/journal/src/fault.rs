//! What can go wrong with the record, sorted by who must act. Sentences are made elsewhere.

use std::io;

use rusqlite::ErrorCode;

use crate::chain::Break;

/// Who can do something about a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Actor {
    /// The person at the bedside: one act now.
    Bedside,
    /// Whoever set up the tablet: a folder, its rights, its space, its version.
    SetUp,
    /// The program or the device is at fault; keep the files and report.
    Program,
}

/// Why the record cannot be opened, read or written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Another Holdfast runs on this data folder.
    InUse,
    /// Another program holds the record; nothing was written.
    Held,
    /// No room left on the disk. Nothing that was recorded is lost.
    DiskFull,
    /// The data folder, or the record in it, cannot be written.
    ReadOnly,
    /// The data folder cannot be made or reached.
    NoFolder(String),
    /// The folder was in use before, but the record is not in it any more.
    Missing,
    /// There is no record in the folder, and no trace of one.
    NoRecord,
    /// The file is not a record of ours.
    NotAJournal,
    /// Written by a newer Holdfast.
    Newer { found: i64, known: i64 },
    /// A version number that no released Holdfast wrote.
    UnknownVersion { found: i64, known: i64 },
    /// A table, index or trigger is not as this version made it. Names the object.
    Altered(String),
    /// The record was changed after it was written.
    Broken(Break),
    /// The database file is damaged or cut short.
    Damaged(String),
    /// The record asked to be erased does not exist, is gone already, or is itself an erasure.
    NotErasable { seq: u32 },
    /// The alive time is longer than its place.
    AliveTooLong { bytes: usize, most: usize },
    /// The device gave no random bytes.
    Randomness,
    /// The device failed while reading or writing.
    Device(String),
    /// An earlier failure left it unknown what the disk holds; reopen the record.
    Latched(Box<Fault>),
}

impl Fault {
    pub fn actor(&self) -> Actor {
        match self {
            Fault::InUse | Fault::Held => Actor::Bedside,
            Fault::DiskFull
            | Fault::ReadOnly
            | Fault::NoFolder(_)
            | Fault::Missing
            | Fault::NoRecord
            | Fault::NotAJournal
            | Fault::Newer { .. }
            | Fault::UnknownVersion { .. } => Actor::SetUp,
            Fault::Altered(_)
            | Fault::Broken(_)
            | Fault::Damaged(_)
            | Fault::NotErasable { .. }
            | Fault::AliveTooLong { .. }
            | Fault::Randomness
            | Fault::Device(_) => Actor::Program,
            Fault::Latched(first) => first.actor(),
        }
    }

    /// After these SQLite has rolled back cleanly, so the next write may be tried.
    pub(crate) fn leaves_disk_known(&self) -> bool {
        matches!(self, Fault::DiskFull | Fault::Held | Fault::NotErasable { .. } | Fault::Randomness)
    }

    /// A file of ours beside the record.
    pub fn from_io(error: &io::Error) -> Fault {
        use io::ErrorKind::{PermissionDenied, QuotaExceeded, ReadOnlyFilesystem, StorageFull};
        let kind = error.kind();
        if matches!(kind, PermissionDenied | ReadOnlyFilesystem) {
            Fault::ReadOnly
        } else if matches!(kind, StorageFull | QuotaExceeded) {
            Fault::DiskFull
        } else {
            Fault::Device(error.to_string())
        }
    }
}

impl From<Break> for Fault {
    fn from(broken: Break) -> Fault {
        Fault::Broken(broken)
    }
}

impl From<rusqlite::Error> for Fault {
    fn from(error: rusqlite::Error) -> Fault {
        let text = error.to_string();
        // A column of another type than its STRICT table allows: only a damaged page does that.
        error.sqlite_error_code().map_or(Fault::Damaged(text.clone()), |code| from_code(code, text))
    }
}

fn from_code(code: ErrorCode, text: String) -> Fault {
    if matches!(code, ErrorCode::ReadOnly | ErrorCode::PermissionDenied) {
        return Fault::ReadOnly;
    }
    let known = [
        (ErrorCode::DiskFull, Fault::DiskFull),
        (ErrorCode::DatabaseBusy, Fault::Held),
        (ErrorCode::NotADatabase, Fault::NotAJournal),
        (ErrorCode::DatabaseCorrupt, Fault::Damaged(text.clone())),
    ];
    let found = known.into_iter().find(|(known, _)| *known == code);
    found.map_or(Fault::Device(text), |(_, fault)| fault)
}

impl std::fmt::Display for Fault {
    /// For logs only; a person reads a sentence from the catalogue.
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{self:?}")
    }
}

impl std::error::Error for Fault {}
