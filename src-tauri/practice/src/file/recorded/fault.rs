//! Why a recording is no rhythm: what stands there, what is allowed.

use std::fmt;

use simulator::{NoRhythm, Recording};

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RecordingFault {
    NoSource,
    /// Both `file` and `csv`, or neither.
    OneOfBoth,
    NotBeside {
        found: String,
    },
    Unreadable {
        file: String,
        why: String,
    },
    TooLarge,
    Rate {
        found: u32,
    },
    NoLevel,
    Level {
        found: String,
    },
    LevelWithoutRate,
    Empty,
    NotAFigure {
        line: usize,
        found: String,
    },
    TooLargeAFigure {
        line: usize,
        found: String,
    },
    BelowZero {
        line: usize,
    },
    TooManyColumns {
        line: usize,
        found: usize,
        allowed: usize,
    },
    NoBeat {
        level_uv: u32,
    },
    NoRhythm(NoRhythm),
    /// Two own rhythms in one heart.
    BesideAtrium,
    /// The file was read, the recording that it names was not.
    NotRead,
}

impl fmt::Display for RecordingFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RecordingFault::NoSource => {
                write!(
                    out,
                    "source: nothing stands there; \"invented\", or where the recording comes from, is allowed."
                )
            }
            RecordingFault::OneOfBoth => {
                write!(out, "one of file (a CSV beside this file) and csv (written out here) is allowed.")
            }
            RecordingFault::NotBeside { found } => {
                write!(out, "file: {found:?} stands there; the name of a file beside this one is allowed.")
            }
            RecordingFault::Unreadable { file, why } => write!(out, "{file} cannot be read ({why})."),
            RecordingFault::TooLarge => {
                write!(out, "the CSV is larger than {} MB, which is allowed.", super::LARGEST_BYTES >> 20)
            }
            RecordingFault::Rate { found } => {
                write!(out, "hz: {found} stands there; 1 to {} is allowed.", super::FASTEST_HZ)
            }
            RecordingFault::NoLevel => {
                write!(
                    out,
                    "level_mV: nothing stands there; a signal needs the level that its beats rise to."
                )
            }
            RecordingFault::Level { found } => {
                write!(out, "level_mV: {found} stands there; 0.001 to {} is allowed.", super::LARGEST_MV)
            }
            RecordingFault::LevelWithoutRate => {
                write!(
                    out,
                    "hz: nothing stands there; a signal needs its samples a second, and beats no level_mV."
                )
            }
            RecordingFault::Empty => {
                write!(out, "there is no figure in the CSV; one on each line is allowed.")
            }
            RecordingFault::NotAFigure { line, found } => {
                write!(out, "line {line}: {found:?} stands there; a figure is allowed.")
            }
            RecordingFault::TooLargeAFigure { line, found } => {
                write!(out, "line {line}: {found} stands there; up to {} mV is allowed.", super::LARGEST_MV)
            }
            RecordingFault::BelowZero { line } => {
                write!(out, "line {line}: a figure below zero stands there; zero or more is allowed.")
            }
            RecordingFault::TooManyColumns { line, found, allowed: 1 } => {
                write!(out, "line {line}: {found} figures stand there; one, in mV, is allowed in a signal.")
            }
            RecordingFault::TooManyColumns { line, found, .. } => write!(
                out,
                "line {line}: {found} figures stand there; the second of a beat, and its signal in mV, are allowed. A signal needs hz."
            ),
            RecordingFault::NoBeat { level_uv } => {
                write!(out, "no beat found: the signal never rises to {} mV.", f64::from(*level_uv) / 1e3)
            }
            RecordingFault::NoRhythm(why) => no_rhythm(out, why),
            RecordingFault::BesideAtrium => {
                write!(out, "atrium stands there too; a heart follows one of both.")
            }
            RecordingFault::NotRead => write!(out, "the recording has not been read."),
        }
    }
}

fn no_rhythm(out: &mut fmt::Formatter<'_>, why: &NoRhythm) -> fmt::Result {
    const HOUR_US: u64 = 3_600_000_000;
    let seconds = |us: u64| us as f64 / 1e6;
    let [nearest, farthest] = [Recording::NEAREST_US, Recording::FARTHEST_US].map(|us| seconds(us.into()));
    match *why {
        NoRhythm::TooFew { beats } => {
            write!(out, "too short: beats found: {beats}; {} or more are allowed.", Recording::BEATS_LEAST)
        }
        NoRhythm::TooLong => {
            write!(out, "too long: {} hours are allowed.", Recording::LONGEST_US / HOUR_US)
        }
        NoRhythm::Apart { beat: 1, at_us, .. } => {
            write!(out, "beat 1 comes at {} s; up to {farthest} s is allowed.", seconds(at_us))
        }
        NoRhythm::Apart { beat, at_us, before_us } => write!(
            out,
            "beat {beat} comes at {} s, the one before it at {} s; {nearest} s to {farthest} s later is allowed.",
            seconds(at_us),
            seconds(before_us)
        ),
        NoRhythm::SomeSignals { beat } => {
            write!(out, "beat {beat}: a signal in mV is allowed with every beat or with none.")
        }
        NoRhythm::Signal(why) => write!(out, "{why}."),
    }
}
