//! Practice on a simulated patient: what is kept of a run and what a judgement says. The run itself, and the
//! judge, are a crate of their own: here are only the closed lists that states, events and words share.

mod acts;
mod exercises;
mod kept;
mod reason;

use serde::{Deserialize, Serialize};

pub use acts::{Act, Verdict};
pub use exercises::ExerciseId;
pub use kept::{
    PRACTICE_BED, PRACTICE_WIRE, Paused, Practice, PracticeRun, RUNS_MOST, Staged, stream_of_moment,
    stream_of_run,
};

pub use reason::{Reason, whole_seconds};

use crate::check::answer::Answer;
use crate::check::facts::{Dial, Dials, Facts, Found, NONE};
use crate::check::step::Step;
use crate::profile::Position;
use crate::say::Say;

/// One thing a learner did, or that befell the run, in simulated µs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Entry {
    Turned {
        at_us: u64,
        dial: Dial,
        to: Position,
    },
    /// Guided: what was answered to which card.
    Answered {
        at_us: u64,
        step: Step,
        answer: Answer,
    },
    /// What was found, and where the dials are said to stand: guided from the check's record, unguided typed.
    Said {
        at_us: u64,
        said: Said,
    },
    /// The simulated time stood still for `ms` of the tablet's.
    Paused {
        at_us: u64,
        why: Pause,
        ms: u32,
    },
    Ended {
        at_us: u64,
    },
}

impl Entry {
    pub fn at_us(&self) -> u64 {
        match *self {
            Entry::Turned { at_us, .. }
            | Entry::Answered { at_us, .. }
            | Entry::Said { at_us, .. }
            | Entry::Paused { at_us, .. }
            | Entry::Ended { at_us } => at_us,
        }
    }
}

/// Why simulated time stood still. No learner is judged on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Pause {
    /// Somebody paused it.
    Asked,
    /// The tablet was too busy to draw.
    Stall,
    Sleep,
    /// The program ended and was started again.
    Restart,
}

/// What happened by itself in a run, for whoever tells the learner what no strip shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Happened {
    HeartChanged,
    Shock,
    Power,
    /// Somebody else turned a dial.
    DialTurned(Dial),
}

/// The end of a run, as the learner says it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Said {
    pub capture: Threshold,
    pub sensing: Threshold,
    /// `None`: nobody has read the dials.
    pub stays: Option<Dials>,
}

/// A result: its kind, its position, and of a bracket the lower end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Threshold {
    pub found: Found,
    pub at: Position,
    pub low: Position,
}

impl Threshold {
    pub const NOT_TESTED: Threshold = Threshold { found: Found::Nothing, at: NONE, low: NONE };

    pub fn exactly(at: Position) -> Threshold {
        Threshold { found: Found::Exact, at, low: NONE }
    }
}

/// How a learner without cards says a threshold: in the ways in which a check comes to one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HowFound {
    Exactly,
    AtLeast,
    AtMost,
    /// Lost at the one, held at the other.
    Between,
}

impl HowFound {
    pub const OF_CAPTURE: &[HowFound] = &[HowFound::Exactly, HowFound::AtMost, HowFound::Between];
    pub const OF_SENSING: &[HowFound] = &[HowFound::Exactly, HowFound::AtLeast];

    /// The value a form sends.
    pub fn id(self) -> &'static str {
        match self {
            HowFound::Exactly => "exactly",
            HowFound::AtLeast => "at-least",
            HowFound::AtMost => "at-most",
            HowFound::Between => "between",
        }
    }

    pub fn say(self) -> Say {
        match self {
            HowFound::Exactly => Say::HowExactly,
            HowFound::AtLeast => Say::HowAtLeast,
            HowFound::AtMost => Say::HowAtMost,
            HowFound::Between => Say::HowBetween,
        }
    }
}

impl Said {
    /// As a guided check has found it. `stays` is what was read back.
    pub fn of(facts: &Facts, stays: Option<Dials>) -> Said {
        Said {
            capture: Threshold { found: facts.capture, at: facts.capture_at, low: facts.capture_low },
            sensing: Threshold { found: facts.sensing, at: facts.sensing_at, low: NONE },
            stays,
        }
    }
}

/// A run, judged. The same run gives the same judgement, byte for byte, on the same engine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Judgement {
    pub exercise: ExerciseId,
    pub seed: u64,
    /// Version of simulator and judge.
    pub engine: String,
    pub ended_us: u64,
    /// Each act that the run asked for, done; a single unsafe one fails the run whatever else was right.
    pub passed: bool,
    /// Those that the run asked for, in the order of a check.
    pub acts: Vec<Judged>,
    pub capture: Compared,
    pub sensing: Compared,
    /// Together, and the longest: ventricular pauses of more than three seconds.
    pub without_beats_us: u64,
    pub longest_pause_us: u64,
    pub spikes_on_t: Vec<SpikeOnT>,
}

/// One act, and the instant of the strip to look at again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Judged {
    pub act: Act,
    pub verdict: Verdict,
    pub at_us: u64,
    /// Where the dials stood then.
    pub dials: Dials,
    /// Why it is not done, where the judge can say it in short.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<Reason>,
}

impl Judged {
    /// What is done needs no reason.
    #[must_use]
    pub fn because(self, reason: Reason) -> Judged {
        Judged { reason: (self.verdict != Verdict::Done).then_some(reason), ..self }
    }
}

/// What was said beside what is so.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Compared {
    pub said: Threshold,
    /// The position a perfect test finds; `None` where the dial has none.
    pub truth: Option<Position>,
    pub agreement: Agreement,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Agreement {
    NotTested,
    Equal,
    /// A bracket, or "at least" and "at most", that hold the truth.
    Contains,
    /// Positions above the truth (below: negative).
    OffBy(i16),
    /// A statement that no position can make true.
    Untrue,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SpikeOnT {
    pub at_us: u64,
    pub captured: bool,
}
