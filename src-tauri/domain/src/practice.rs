//! Practice on a simulated patient, as far as it is remembered: which exercise, what the learner did and when,
//! what the judge found. The patient itself lives elsewhere; it is a function of exercise, seed and entries.

mod judgement;

pub use judgement::{Act, Against, Finding, Judged, Judgement};

use serde::{Deserialize, Serialize};

use crate::check::answer::Answer;
use crate::check::facts::Dial;
use crate::check::step::Step;
use crate::profile::Position;

/// Every exercise that ships. The kebab-case name is the name of its file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ExerciseId {
    Quiet,
    NoOwnBeats,
    SleepingEscape,
    TWaveSeen,
    DidNotSee,
    FoundAsynchronous,
    ExtraBeats,
    LoosePin,
    HighThreshold,
    BlockFromRate,
    CaptureLost,
    Shock,
    WrongChamber,
}

/// One thing that happened in a practice run, at an instant of the simulated patient, µs from its beginning.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Entry {
    Turned {
        at_us: u64,
        dial: Dial,
        /// May be `ASYNCHRONOUS`.
        to: Position,
    },
    /// An answer to a card of the check, in a guided run.
    Answered {
        at_us: u64,
        step: Step,
        answer: Answer,
    },
    /// What an unguided learner found: positions of the dials; `None` where not tested.
    Said {
        at_us: u64,
        capture: Option<Position>,
        sensing: Option<Position>,
    },
    /// The patient stood still for so long of the world's time; nobody is judged on that.
    Paused {
        at_us: u64,
        why: Pause,
        ms: u64,
    },
    Ended {
        at_us: u64,
    },
}

impl Entry {
    /// µs from the beginning of the run.
    pub fn at_us(&self) -> u64 {
        match self {
            Entry::Turned { at_us, .. }
            | Entry::Answered { at_us, .. }
            | Entry::Said { at_us, .. }
            | Entry::Paused { at_us, .. }
            | Entry::Ended { at_us } => *at_us,
        }
    }
}

/// Why a run stood still.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Pause {
    /// The learner asked for it.
    Asked,
    /// The tablet slept, or the strip stood still.
    Stalled,
    /// The app ended and was started again.
    Restarted,
}
