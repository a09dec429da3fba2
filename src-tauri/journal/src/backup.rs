//! A backup: the whole record as one file, packed, with the sum of every byte.
//!
//! Magic, version, length before and after packing, SHA-256 of these and of what follows, then the packed file. A
//! version once released is never written otherwise.

use std::fs;
use std::io::{Read, Write};
use std::path::Path;

use flate2::Compression;
use flate2::read::DeflateDecoder;
use flate2::write::DeflateEncoder;

use crate::chain::{Head, digest};
use crate::disk;
use crate::fault::Fault;
use crate::folder::{self, Paths};
use crate::{rows, schema};

const MAGIC: &[u8; 16] = b"HOLDFAST BACKUP\n";
const VERSION: u16 = 1;
/// Magic, version, two lengths.
const BEFORE_SUM: usize = 16 + 2 + 8 + 8;
const HEADER: usize = BEFORE_SUM + 32;

/// Why bytes are no backup that can be unpacked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotABackup {
    /// Something else.
    Foreign,
    Newer {
        found: u16,
    },
    /// It ends before its end.
    CutShort,
    /// Its bytes are not those that were written.
    Altered,
    /// The place it was to be unpacked into.
    Fault(Fault),
}

/// Writes the record of `folder`, as it stands now, into the new file `into`; on the disk when it returns. Reads beside
/// a running app and keeps no writer waiting. The head it holds.
///
/// # Errors
/// See `Fault`; nothing half written stays.
pub fn back_up(folder: &Path, into: &Path) -> Result<Head, Fault> {
    let copy = into.with_extension("copy");
    folder::remove(&copy)?;
    let copied = copied(folder, &copy);
    let packed = copied.and_then(|head| Ok((head, pack(&fs::read(&copy).map_err(io)?).map_err(io)?)));
    folder::remove(&copy)?;
    let (head, bytes) = packed?;
    disk::put(into, &bytes).map_err(io)?;
    Ok(head)
}

/// One consistent copy without free pages; in it the head is read.
fn copied(folder: &Path, copy: &Path) -> Result<Head, Fault> {
    let connection = schema::connect_to_read(&Paths::of(folder))?;
    connection.execute("VACUUM INTO ?1", [copy.to_string_lossy()])?;
    drop(connection);
    rows::head(&rusqlite::Connection::open_with_flags(copy, rusqlite::OpenFlags::SQLITE_OPEN_READ_ONLY)?)
}

fn pack(raw: &[u8]) -> std::io::Result<Vec<u8>> {
    let mut encoder = DeflateEncoder::new(Vec::new(), Compression::default());
    encoder.write_all(raw)?;
    let packed = encoder.finish()?;
    let lengths = [raw.len() as u64, packed.len() as u64].map(u64::to_be_bytes).concat();
    let header = [MAGIC.as_slice(), &VERSION.to_be_bytes(), &lengths].concat();
    let sum = digest(&[&header, &packed]);
    Ok([header.as_slice(), &sum.0, &packed].concat())
}

/// Unpacks a backup into the new folder `into` as a record of its own. It is whole then; whether it holds is for
/// `verify` to say.
///
/// # Errors
/// See `NotABackup`.
pub fn unpack(bytes: &[u8], into: &Path) -> Result<(), NotABackup> {
    let raw = opened(bytes)?;
    let write = || {
        disk::make_private(into)?;
        disk::put(&Paths::of(into).journal(), &raw)
    };
    write().map_err(|error| NotABackup::Fault(io(error)))
}

fn opened(bytes: &[u8]) -> Result<Vec<u8>, NotABackup> {
    let begins = bytes.len().min(MAGIC.len());
    if begins == 0 || bytes.get(..begins) != MAGIC.get(..begins) {
        return Err(NotABackup::Foreign);
    }
    let (header, rest) = bytes.split_at_checked(HEADER).ok_or(NotABackup::CutShort)?;
    let (before_sum, sum) = header.split_at(BEFORE_SUM);
    let found = u16::from_be_bytes([before_sum[16], before_sum[17]]);
    if found > VERSION {
        return Err(NotABackup::Newer { found });
    }
    let length = |at: usize| before_sum[at..].first_chunk().map(|chunk| u64::from_be_bytes(*chunk));
    let (raw, packed) = length(18).zip(length(26)).ok_or(NotABackup::CutShort)?;
    if (rest.len() as u64) < packed {
        return Err(NotABackup::CutShort);
    }
    if rest.len() as u64 > packed || digest(&[before_sum, rest]).0 != *sum {
        return Err(NotABackup::Altered);
    }
    inflate(rest, raw)
}

/// No more than the header says.
fn inflate(packed: &[u8], length: u64) -> Result<Vec<u8>, NotABackup> {
    let mut raw = Vec::new();
    let read = DeflateDecoder::new(packed).take(length.saturating_add(1)).read_to_end(&mut raw);
    let whole = read.is_ok() && raw.len() as u64 == length;
    whole.then_some(raw).ok_or(NotABackup::Altered)
}

fn io(error: std::io::Error) -> Fault {
    Fault::from_io(&error)
}
