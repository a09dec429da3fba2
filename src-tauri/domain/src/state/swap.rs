//! A swap that is open on a wire, and what one leaves.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::moment::Moment;
use crate::record::Printed;
use crate::swap::facts::{Facts, Work};
use crate::swap::times::Times;

/// A change of generator or battery that somebody has begun and nobody has ended.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OpenSwap {
    pub id: Uuid,
    pub opened: Moment,
    pub facts: Facts,
    /// The card whose answer opened the present one, for a slip.
    pub before: Option<Facts>,
    pub times: Times,
    pub last: Moment,
    pub names: Names,
    /// The generator that takes over, by profile id, once it is chosen.
    pub new: Option<String>,
    pub away_ms: i64,
}

/// Who was named, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Names {
    pub clinician: Option<String>,
    /// Why the dials were not read at the end, or stay different, and who was told.
    pub reason: Option<String>,
    pub told: Option<String>,
}

/// How a swap ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Outcome {
    /// Nothing was unplugged.
    NothingChanged,
    /// The wire is in the new box.
    Moved,
    /// The wire is in the box it was in, with another battery.
    BatteryChanged,
    /// Unplugged, and back in the old box.
    BackInTheOld,
}

/// One ended swap: results, never computed again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SwapRecord {
    pub id: Uuid,
    pub opened: Moment,
    pub ended: Moment,
    pub work: Work,
    pub outcome: Outcome,
    /// Own beats with a pulse were seen before it began.
    pub own_beats: bool,
    pub no_beats: bool,
    pub shock: bool,
    /// The old box paced another wire too.
    #[serde(default)]
    pub shared: bool,
    pub from: String,
    pub to: String,
    pub old: Option<Printed>,
    /// As read at the end; `None`: not read.
    pub left: Option<Printed>,
    pub names: Names,
}
