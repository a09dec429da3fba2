//! The acts a run is judged by: from the order of a pacing check, and from what a competency asks to be shown
//! (COMP, CDHA: sensing test in order, sensing told from capture, asynchronous pacing, pace and sense marks).

use serde::{Deserialize, Serialize};

use crate::say::Say;

/// How an act was done. The later, the worse.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Verdict {
    Done,
    Late,
    Missed,
    Unsafe,
}

impl Verdict {
    pub fn say(self) -> Say {
        match self {
            Verdict::Done => Say::VerdictDone,
            Verdict::Late => Say::VerdictLate,
            Verdict::Missed => Say::VerdictMissed,
            Verdict::Unsafe => Say::VerdictUnsafe,
        }
    }
}

macro_rules! acts {
    ($($(#[$meta:meta])* $act:ident => $say:expr;)*) => {
        /// A critical act, in the order of a check.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Act { $($(#[$meta])* $act),* }

        impl Act {
            pub const ALL: &[Act] = &[$(Act::$act),*];

            /// The act as it is asked for.
            pub fn say(self) -> Say {
                match self { $(Act::$act => $say),* }
            }
        }
    };
}

acts! {
    /// Spikes without beats as found: OUTPUT to maximum in one act.
    MaximumWhereFoundFails => Say::ActMaximumWhereFoundFails;
    /// Out of asynchronous before RATE goes down.
    OutOfAsynchronous => Say::ActOutOfAsynchronous;
    /// Own beats are looked for by RATE, each step watched.
    RateStepsWatched => Say::ActRateStepsWatched;
    /// Never below the limit while paced.
    RateLimitKept => Say::ActRateLimitKept;
    /// Spikes fall through own beats: RATE up, number down.
    BlindPutRight => Say::ActBlindPutRight;
    /// OUTPUT stands at minimum, RATE below own, before the number goes up.
    OutputBeforeNumber => Say::ActOutputBeforeNumber;
    /// A spike at minimum made a beat: the number goes no further up.
    SpikeAtMinimumHeeded => Say::ActSpikeAtMinimumHeeded;
    MinimumKeptShort => Say::ActMinimumKeptShort;
    SensingFound => Say::ActSensingFound;
    /// The number is down again before OUTPUT goes up.
    NumberBeforeOutput => Say::ActNumberBeforeOutput;
    /// OUTPUT goes below found only once own rhythm was shown.
    OwnRhythmFirst => Say::ActOwnRhythmFirst;
    OutputStepsWatched => Say::ActOutputStepsWatched;
    OnlyUpAfterLoss => Say::ActOnlyUpAfterLoss;
    CaptureFound => Say::ActCaptureFound;
    /// P waves without QRS at the faster rate: RATE down.
    BlockHeeded => Say::ActBlockHeeded;
    /// An atrial spike makes a wide beat: no loss of capture is sought.
    WrongChamberHeeded => Say::ActWrongChamberHeeded;
    /// Low pressure while paced: RATE back.
    PressureHeeded => Say::ActPressureHeeded;
    /// No beats: OUTPUT first, at once.
    OutputFirstInNoBeats => Say::ActOutputFirstInNoBeats;
    MaximumAfterShock => Say::ActMaximumAfterShock;
    /// Pauses by what is no beat: number up, or asynchronous.
    PausesEnded => Say::ActPausesEnded;
    OutputByRule => Say::ActOutputByRule;
    NumberByRule => Say::ActNumberByRule;
    RateBack => Say::ActRateBack;
    /// Where the dials are said to stand, they stand.
    DialsRead => Say::ActDialsRead;
    /// The last setting was watched.
    Confirmed => Say::ActConfirmed;
    /// What was answered is what the strip showed.
    AnsweredAsSeen => Say::ActAnsweredAsSeen;
}
