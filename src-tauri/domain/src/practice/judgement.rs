//! What the judge found, as results: never computed again when it is shown.

use serde::{Deserialize, Serialize};

use crate::check::facts::Dials;

/// The named critical acts of a check.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Act {
    /// The rate was not lowered while asynchronous.
    AsynchronousFirst,
    /// Own beats were looked for step by step, each watched, not below the limit.
    OwnRhythm,
    /// At the first own beat a generator that did not see it was put right before anything else.
    SeesOwn,
    /// Rate below own and OUTPUT at minimum before the mV number went up.
    OutputBeforeNumber,
    /// Not longer at minimum OUTPUT than the rule allows.
    MinimumTime,
    /// Capture was lost only with an own rhythm shown, and the rate above it.
    OwnBeforeLoss,
    /// After a spike without a beat OUTPUT only went up, in time.
    UpAfterLoss,
    /// No beats: OUTPUT first, high, at once.
    NoBeatsOutput,
    /// Every dial was set by the rule on what was found, or put back.
    SetByRule,
    /// The dials were left safe: captured, own beats seen.
    LeftSafe,
    /// The dials were read at the end.
    ReadBack,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Finding {
    Done,
    Late,
    Missed,
    /// Fails the run whatever else was right.
    Unsafe,
    /// The exercise never called for it.
    NotCalledFor,
}

/// One act, judged: when, how the dials stood, and that instant of the strip to look at again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Judged {
    pub act: Act,
    pub finding: Finding,
    /// µs from the beginning of the run; `None` where it never came.
    pub at_us: Option<u64>,
    pub dials: Option<Dials>,
}

/// A threshold found, against the truth of the heart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Against {
    Equal,
    /// The bracket holds the truth.
    Within,
    /// So many positions too high; below 0 too low.
    Off {
        positions: i16,
    },
    /// There was one to find, and none was.
    NotFound,
    /// Rightly none was looked for.
    NotCalledFor,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Judgement {
    /// Version of simulator and judge.
    pub engine: String,
    pub passed: bool,
    /// In the order of the check.
    pub acts: Vec<Judged>,
    pub capture: Against,
    /// As the dial prints it.
    pub capture_found: Option<String>,
    pub capture_truth: Option<String>,
    pub sensing: Against,
    pub sensing_found: Option<String>,
    pub sensing_truth: Option<String>,
    /// The longest time without a ventricular beat, and all of them beyond 3 s together.
    pub longest_gap_ms: u32,
    pub without_beats_ms: u32,
    pub spikes_on_t: u32,
    pub captured_on_t: u32,
}
