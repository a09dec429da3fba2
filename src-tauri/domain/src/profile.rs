//! A generator's dials as printed on the unit's own box.

use serde::{Deserialize, Serialize};

mod dial;
mod file;
mod shipped;
mod typed;

pub use dial::Positions;
pub use shipped::{Shipped, shipped};
pub use typed::NoSuchPosition;

use crate::check::facts::Dial;
use crate::nbg::{CheckMode, Code};
use crate::rules::Chamber;
use crate::units::OutputUnit;

/// Index into a dial, ascending from 0.
pub type Position = u8;
/// Why a generator file is refused.
pub type ProfileFault = crate::document::Fault;

/// Most positions of a rate dial.
pub const MOST_RATE: usize = 64;
/// Most positions of an output dial.
pub const MOST_OUTPUT: usize = 128;
/// Most numbers of a sensitivity dial.
pub const MOST_SENSITIVITY: usize = 64;

/// Fastest RATE of a generator that is handed in, per minute (from memory).
pub const FASTEST_RATE: u32 = 250;

/// One generator type. Built only by `from_json`, so that every dial is sorted and not empty.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "serde_json::Value", into = "serde_json::Value")]
#[non_exhaustive]
pub struct Profile {
    pub id: String,
    pub name: String,
    /// An invention of this project, to be marked wherever it is shown.
    pub example: bool,
    pub control: Control,
    pub rate: RateDial,
    pub output: OutputDial,
    pub sensitivity: SensitivityDial,
    pub pulse_width_us: u32,
    /// Seconds until the controls lock themselves.
    pub auto_lock_s: Option<u16>,
    pub modes: Vec<Code>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Control {
    Dial,
    Keys,
}

/// How the box is made to pace without sensing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum AsynchronousBy {
    /// It cannot.
    None,
    /// The position after the highest number of the sensitivity dial.
    Position,
    /// A switch or mode of its own.
    Switch,
}

/// Per minute.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RateDial {
    pub positions: Positions,
}

/// µA or µV.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutputDial {
    pub unit: OutputUnit,
    pub positions: Positions,
}

/// µV.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SensitivityDial {
    pub positions: Positions,
    pub asynchronous: AsynchronousBy,
}

impl Profile {
    /// Per minute. A position beyond the dial counts as its last, here and below.
    pub fn rate_at(&self, position: Position) -> u16 {
        u16::try_from(self.rate.positions.value(position)).unwrap_or(u16::MAX)
    }

    /// µA or µV, by the dial's unit.
    pub fn output_at(&self, position: Position) -> u32 {
        self.output.positions.value(position)
    }

    /// µV.
    pub fn mv_at(&self, position: Position) -> u32 {
        self.sensitivity.positions.value(position)
    }

    pub fn rate_text(&self, position: Position) -> &str {
        self.rate.positions.text(position)
    }

    pub fn output_text(&self, position: Position) -> &str {
        self.output.positions.text(position)
    }

    pub fn mv_text(&self, position: Position) -> &str {
        self.sensitivity.positions.text(position)
    }

    pub fn rate_last(&self) -> Position {
        self.rate.positions.last()
    }

    pub fn output_last(&self) -> Position {
        self.output.positions.last()
    }

    /// The highest number; asynchronous counts above it.
    pub fn mv_last(&self) -> Position {
        self.sensitivity.positions.last()
    }

    pub fn asynchronous(&self) -> AsynchronousBy {
        self.sensitivity.asynchronous
    }

    pub fn output_unit(&self) -> OutputUnit {
        self.output.unit
    }

    pub fn read_rate(&self, typed: &str) -> Result<Position, NoSuchPosition> {
        typed::read(Dial::Rate, &self.rate.positions, typed)
    }

    pub fn read_output(&self, typed: &str) -> Result<Position, NoSuchPosition> {
        typed::read(Dial::Output, &self.output.positions, typed)
    }

    pub fn read_mv(&self, typed: &str) -> Result<Position, NoSuchPosition> {
        typed::read(Dial::Mv, &self.sensitivity.positions, typed)
    }

    pub fn rate_at_or_below(&self, per_minute: i32) -> Option<Position> {
        self.rate.positions.at_or_below(u64::try_from(per_minute).ok()?)
    }

    pub fn rate_at_or_above(&self, per_minute: i32) -> Option<Position> {
        self.rate.positions.at_or_above(u64::try_from(per_minute).unwrap_or(0))
    }

    /// Reads a generator file and checks all of it.
    pub fn from_json(text: &str) -> Result<Profile, ProfileFault> {
        file::read_new(&crate::document::parse(text)?)
    }

    /// It has a mode that paces on demand on such a wire: AAI, or VVI.
    pub fn is_for(&self, wire: Chamber) -> bool {
        self.modes.iter().any(|code| code.for_check(wire) == CheckMode::Demand)
    }

    /// The file that reads back as this profile, every position written out.
    pub fn to_json(&self) -> String {
        format!("{:#}", file::write(self))
    }
}

impl TryFrom<serde_json::Value> for Profile {
    type Error = ProfileFault;

    fn try_from(value: serde_json::Value) -> Result<Self, Self::Error> {
        file::read(&value)
    }
}

impl From<Profile> for serde_json::Value {
    fn from(profile: Profile) -> Self {
        file::write(&profile)
    }
}
