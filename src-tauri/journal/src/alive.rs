//! The alive time: when Holdfast last ran with a check open, and on which record it stood.
//!
//! Outside the chain, in a file of its own whose size never changes: it costs no record, works on
//! a full disk, and, because it names the head, shows when the end of the chain has been lost.
//! Two slots are written in turn, so a torn write leaves the older one.

use std::fs::{File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;

use crate::chain::{Hash, Head, digest};
use crate::fault::Fault;

/// One slot a disk block, so that the two are never torn together.
const SLOT: usize = 4096;
const DIGEST: usize = 32;
/// Counter, number of the head, length of the body.
const NUMBERS: usize = 24;
/// The hash of the head.
const FIXED: usize = DIGEST + NUMBERS + 32;
pub(crate) const MOST: usize = 1024;

/// What one slot says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Alive {
    pub(crate) head: Head,
    pub(crate) body: Vec<u8>,
}

pub(crate) struct AliveFile {
    file: File,
    counter: u64,
}

impl AliveFile {
    /// Opens the file, or makes it with both slots empty.
    pub(crate) fn open(path: &Path) -> Result<(AliveFile, Option<Alive>), Fault> {
        Self::open_io(path).map_err(|error| Fault::from_io(&error))
    }

    fn open_io(path: &Path) -> io::Result<(AliveFile, Option<Alive>)> {
        let mut file = OpenOptions::new().create(true).truncate(false).read(true).write(true).open(path)?;
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes)?;
        if bytes.len() != 2 * SLOT {
            bytes.resize(2 * SLOT, 0);
            file.seek(SeekFrom::Start(0))?;
            file.write_all(&bytes)?;
            file.sync_all()?;
        }
        let newest = newest(&bytes);
        let counter = newest.as_ref().map_or(0, |(counter, _)| *counter);
        Ok((AliveFile { file, counter }, newest.map(|(_, alive)| alive)))
    }

    pub(crate) fn write(&mut self, alive: &Alive) -> Result<(), Fault> {
        if alive.body.len() > MOST {
            return Err(Fault::AliveTooLong { bytes: alive.body.len(), most: MOST });
        }
        self.write_io(alive).map_err(|error| Fault::from_io(&error))
    }

    fn write_io(&mut self, alive: &Alive) -> io::Result<()> {
        let counter = self.counter + 1;
        let place = (counter % 2) * SLOT as u64;
        self.file.seek(SeekFrom::Start(place))?;
        self.file.write_all(&encode(counter, alive))?;
        self.file.sync_data()?;
        self.counter = counter;
        Ok(())
    }
}

/// Reads the newest whole slot without writing. No file, or none whole: no alive time, which the
/// reader of a gap takes as the longest one.
pub(crate) fn read(path: &Path) -> Result<Option<Alive>, Fault> {
    match std::fs::read(path) {
        Ok(bytes) => Ok(newest(&bytes).map(|(_, alive)| alive)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(Fault::from_io(&error)),
    }
}

fn newest(bytes: &[u8]) -> Option<(u64, Alive)> {
    bytes.chunks(SLOT).take(2).filter_map(decode).max_by_key(|(counter, _)| *counter)
}

fn encode(counter: u64, alive: &Alive) -> Vec<u8> {
    let length = alive.body.len() as u64;
    let numbers = [counter, u64::from(alive.head.seq), length].map(u64::to_be_bytes).concat();
    let rest = [numbers.as_slice(), &alive.head.hash.0, &alive.body].concat();
    [&digest(&[&rest]).0, rest.as_slice()].concat()
}

fn decode(slot: &[u8]) -> Option<(u64, Alive)> {
    let (sum, rest) = slot.split_first_chunk::<DIGEST>()?;
    let counter = number(rest, 0)?;
    let seq = u32::try_from(number(rest, 8)?).ok()?;
    let length = usize::try_from(number(rest, 16)?).ok()?;
    let whole = rest.get(..FIXED - DIGEST + length.min(MOST))?;
    let (fixed, body) = whole.split_at_checked(FIXED - DIGEST)?;
    let hash = Hash(*fixed.get(NUMBERS..)?.first_chunk()?);
    let sound = digest(&[whole]).0 == *sum && body.len() == length;
    sound.then(|| (counter, Alive { head: Head { seq, hash }, body: body.to_owned() }))
}

fn number(bytes: &[u8], at: usize) -> Option<u64> {
    bytes.get(at..)?.first_chunk().map(|chunk| u64::from_be_bytes(*chunk))
}
