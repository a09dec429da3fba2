use std::fmt;

use practice::LARGEST_BYTES;

/// Why a file that is to lie beside another was not read.
#[derive(Debug)]
pub enum BesideFault {
    Unreadable(std::io::Error),
    TooLarge {
        bytes: u64,
    },
    /// The text was read from no file: nothing lies beside it.
    NoFolder,
}

impl fmt::Display for BesideFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            BesideFault::Unreadable(error) => write!(out, "{error}"),
            BesideFault::TooLarge { bytes } => write!(out, "{bytes} bytes; {LARGEST_BYTES} are allowed"),
            BesideFault::NoFolder => write!(out, "only a CSV written out in the scenario can be read here"),
        }
    }
}

impl std::error::Error for BesideFault {}
