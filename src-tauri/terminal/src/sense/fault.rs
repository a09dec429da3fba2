use std::fmt;

use domain::units::{MICRO_PER_MILLI, printed};

/// Why nothing can be sensed: what, where, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SenseFault {
    NoSuchOption { found: String },
    Missing { name: &'static str },
    OutOfRange { name: &'static str, found: String, allowed: Allowed },
    Unreadable { file: String, why: String },
    Empty { file: String },
    NotAFigure { file: String, line: usize, found: String },
    TooLarge { file: String, line: usize, found: String },
    NoTime { file: String, line: usize, found: String },
}

/// What an option takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Allowed {
    Whole {
        least: u32,
        most: u32,
    },
    /// µV.
    LevelFrom {
        least: u32,
    },
    FewerLevels {
        most: u32,
    },
}

impl fmt::Display for Allowed {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Allowed::Whole { least, most } => write!(out, "{least} to {most}"),
            Allowed::LevelFrom { least } => {
                write!(out, "{} mV or more, to the thousandth", printed(*least, MICRO_PER_MILLI, 3))
            }
            Allowed::FewerLevels { most } => write!(out, "fewer than {most} levels"),
        }
    }
}

impl fmt::Display for SenseFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SenseFault::NoSuchOption { found } => write!(
                out,
                "{found}: no such option. Allowed: --signal FILE.csv --hz N --from mV --to mV --step mV --blank-ms N [--json]."
            ),
            SenseFault::Missing { name } => write!(out, "{name} is missing, or has no value."),
            SenseFault::OutOfRange { name, found, allowed } => {
                write!(out, "{name}: {found} stands there; {allowed} is allowed.")
            }
            SenseFault::Unreadable { file, why } => write!(out, "{file} cannot be read ({why})."),
            SenseFault::Empty { file } => {
                write!(out, "{file} holds no figure; one in mV on each line is allowed.")
            }
            SenseFault::NotAFigure { file, line, found } => {
                write!(out, "{file}, line {line}: {found:?} stands there; a figure in mV is allowed.")
            }
            SenseFault::TooLarge { file, line, found } => {
                write!(
                    out,
                    "{file}, line {line}: {found:?} stands there; up to 100 mV is allowed. Is it in µV?"
                )
            }
            SenseFault::NoTime { file, line, found } => write!(
                out,
                "{file}, line {line}: {found:?} stands there, and what stands before the comma does not rise as time does. A decimal comma is read where columns are parted by ; or a tab; else write a point."
            ),
        }
    }
}

impl std::error::Error for SenseFault {}
