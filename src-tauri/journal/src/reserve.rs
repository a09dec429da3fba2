//! Room put by for a full disk. A check that stands at test values when the disk fills must still
//! be led back, and a card moves only once its record is written: so the last room is given up
//! then, and the person told.

use std::fs::{File, OpenOptions};
use std::io::{self, Seek, SeekFrom, Write};
use std::path::Path;

use crate::fault::Fault;

/// Enough for some hundred taps, the write-ahead log included.
pub(crate) const BYTES: u64 = 4 * 1024 * 1024;
const PIECE: usize = 64 * 1024;

pub(crate) struct Reserve {
    file: File,
    bytes: u64,
    spent: bool,
}

impl Reserve {
    /// Opens the reserve as it stands.
    pub(crate) fn open(path: &Path) -> Result<Reserve, Fault> {
        let open = || {
            let file = OpenOptions::new().create(true).truncate(false).write(true).open(path)?;
            let bytes = file.metadata()?.len();
            Ok(Reserve { file, bytes, spent: false })
        };
        open().map_err(|error: io::Error| Fault::from_io(&error))
    }

    /// Fills it if there is room; once spent it stays so until the next start.
    pub(crate) fn fill_unless_spent(&mut self) -> Result<(), Fault> {
        if self.spent {
            return Ok(());
        }
        match self.fill_io() {
            Err(error) if Fault::from_io(&error) != Fault::DiskFull => Err(Fault::from_io(&error)),
            Ok(()) => Ok(()),
            // A part of it would keep the last room from the record and still not be enough.
            Err(_) => self.spend().map(|_| ()),
        }
    }

    fn fill_io(&mut self) -> io::Result<()> {
        self.file.seek(SeekFrom::End(0))?;
        let piece = vec![0; PIECE];
        while self.bytes < BYTES {
            self.file.write_all(&piece)?;
            self.bytes += piece.len() as u64;
        }
        self.file.sync_data()
    }

    pub(crate) fn is_full(&self) -> bool {
        self.bytes >= BYTES
    }

    /// Gives its room back to the disk; `false` when there was none to give.
    pub(crate) fn spend(&mut self) -> Result<bool, Fault> {
        let had = self.file.metadata().and_then(|metadata| {
            self.file.set_len(0)?;
            self.file.sync_all()?;
            Ok(metadata.len() > 0)
        });
        self.bytes = 0;
        self.spent = true;
        had.map_err(|error| Fault::from_io(&error))
    }
}
