//! What a check knows, each in a few classes, so that all of it can be walked.

use serde::{Deserialize, Serialize};

use crate::listed::listed;

/// How far one card has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Phase {
    /// The dial may still stand at the old position or already at the new one.
    Turning,
    /// It stands; the time of the watch is running.
    Watching,
    /// The watch has passed: the good answer is open.
    Open,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Known {
    Unknown,
    No,
    Yes,
}

/// The heart's own rhythm, as this check has shown it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Own {
    NotLooked,
    /// Every ventricular beat the heart's own, held, at or above the limit, tolerated.
    Shown,
    /// Paced down to the limit, below it, or not held.
    NotSeen,
    /// Shown, then a pause, a shock or no beats made it worthless.
    Cleared,
}

/// What the first look said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum FirstLook {
    NotLooked,
    EveryBeatPaced,
    OnlyOwn,
    Both,
    SpikesWithoutBeats,
    NoBeats,
}

/// Why the generator is, or is to be left, asynchronous.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Asynchronous {
    No,
    OrderedToday,
    SetForPauses,
    SetInEmergency,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum AtrialRhythm {
    NotAsked,
    PWaves,
    FibrillationOrFlutter,
    NoPWaves,
}

/// What kind of figure a test ended with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Found {
    /// Not tested, or not yet.
    Nothing,
    /// The threshold itself.
    Exact,
    /// Sensing: seen to the last number, or time was up.
    AtLeast,
    /// Capture: held at the lowest position.
    AtMost,
    /// Capture: between `capture_low` (lost) and `capture_at` (held).
    Bracket,
    /// Sensing: the number was not raised; every beat was marked where it stood.
    SeenWhereItStood,
    /// Sensing: no number saw every beat.
    SeenAtNone,
}

listed! {
    /// Why a test was not done. Each is a sentence on the screen, none is a fault.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
    pub enum Why {
        /// Still to come, or done.
        None,
        OrderedAsynchronous,
        Pauses,
        NoOwnBeats,
        OwnBelowLimit,
        OwnNotHeld,
        NotTolerated,
        DidNotSee,
        AtrialFibrillation,
        NoPWaves,
        OwnTooSlowForDial,
        OwnTooFast,
        /// RATE as found lies above the unit's highest test rate.
        FoundTooFast,
        OwnTooOld,
        NumberNotSeen,
        FoundDoesNotCapture,
        NoCaptureAtMaximum,
        BlockFromRate,
        WrongChamber,
        OwnAmongSpikes,
        Stopped,
        NoBeats,
        Shock,
        Fibrillation,
        Away,
        SpikeWithoutBeat,
        Elsewhere,
        /// The dial has no position for the rate the test needs.
        NoSuchRate,
        /// The number is not raised: at no position of RATE is the first spike known to miss a T wave.
        SpikeMayFallOnT,
    }
}

listed! {
    /// A row of the restore table: what was going on when the person stopped.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
    pub enum Row {
        NothingTurned,
        OwnRhythm,
        /// Spikes fell through own beats.
        Blind,
        SensingOutputUp,
        SensingMinimum,
        AfterNoBeats,
        CaptureOwnFaster,
        CaptureFoundFaster,
        CaptureAfterLoss,
        Margin,
        Set,
        FirstLookMaximum,
        AfterShock,
    }
}

/// Facts for flags: each one line in the result.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Marks(pub u32);

impl Marks {
    pub const DID_NOT_SEE_AS_FOUND: Marks = Marks(1);
    pub const EXTRA_BEAT_UNMARKED: Marks = Marks(1 << 1);
    pub const BLOCK_FROM_RATE: Marks = Marks(1 << 2);
    pub const WRONG_CHAMBER: Marks = Marks(1 << 3);
    pub const FOUND_DID_NOT_CAPTURE: Marks = Marks(1 << 4);
    pub const NO_BEATS: Marks = Marks(1 << 5);
    pub const SHOCK: Marks = Marks(1 << 6);
    pub const NOT_TOLERATED: Marks = Marks(1 << 7);
    pub const FOUND_ASYNCHRONOUS: Marks = Marks(1 << 8);
    pub const PAUSES: Marks = Marks(1 << 9);
    pub const AWAY: Marks = Marks(1 << 10);
    pub const SLIP: Marks = Marks(1 << 11);
    pub const SPIKE_AT_MINIMUM_MADE_A_BEAT: Marks = Marks(1 << 12);
    pub const IRREGULAR: Marks = Marks(1 << 13);
    pub const STILL_BLIND: Marks = Marks(1 << 14);
    pub const EMERGENCY: Marks = Marks(1 << 15);
    /// A dial stands as read at the end, unlike what the check believed, and nothing shown in it asked it back.
    pub const LEFT_AS_READ: Marks = Marks(1 << 16);
    /// NO BEATS in the last look, and once more.
    pub const NO_BEATS_IN_LAST_LOOK: Marks = Marks(1 << 17);
    pub const NO_BEATS_AGAIN: Marks = Marks(1 << 18);
    pub const ASYNCHRONOUS_ORDERED: Marks = Marks(1 << 19);
    /// The generator's timer ran from what is no beat.
    pub const MARKS_WITHOUT_BEATS: Marks = Marks(1 << 20);
    /// Spikes made no beats at maximum OUTPUT, whatever came later.
    pub const NO_CAPTURE_AT_MAXIMUM: Marks = Marks(1 << 21);
    /// Fast and wide, or no pulse with spikes.
    pub const FIBRILLATION: Marks = Marks(1 << 22);
    /// A spike made no beat where no loss was sought.
    pub const LOST_UNSOUGHT: Marks = Marks(1 << 23);
    /// Own beats stayed among the spikes at the highest RATE that a test may use.
    pub const NOT_PACED_OVER: Marks = Marks(1 << 24);

    #[must_use]
    pub fn and(self, other: Marks) -> Marks {
        Marks(self.0 | other.0)
    }

    pub fn has(self, other: Marks) -> bool {
        self.0 & other.0 != 0
    }
}
