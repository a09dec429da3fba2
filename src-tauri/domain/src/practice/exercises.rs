//! The exercises by name. Each is a file of the same id; its words are here.

use serde::{Deserialize, Serialize};

use crate::say::Say;

macro_rules! exercises {
    ($($(#[$meta:meta])* $id:ident: $file:literal, $name:expr, $line:expr;)*) => {
        /// One exercise.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum ExerciseId { $($(#[$meta])* #[serde(rename = $file)] $id),* }

        impl ExerciseId {
            /// From quiet to nasty.
            pub const ALL: &[ExerciseId] = &[$(ExerciseId::$id),*];

            /// As its file names it.
            pub fn id(self) -> &'static str {
                match self { $(ExerciseId::$id => $file),* }
            }

            pub fn name(self) -> Say {
                match self { $(ExerciseId::$id => $name),* }
            }

            /// What it is about, in one line.
            pub fn line(self) -> Say {
                match self { $(ExerciseId::$id => $line),* }
            }
        }
    };
}

exercises! {
    Quiet: "quiet", Say::ExerciseQuiet, Say::ExerciseQuietLine;
    NoOwnBeats: "no-own-beats", Say::ExerciseNoOwnBeats, Say::ExerciseNoOwnBeatsLine;
    EscapeSleeps: "escape-sleeps", Say::ExerciseEscapeSleeps, Say::ExerciseEscapeSleepsLine;
    HighThreshold: "high-threshold", Say::ExerciseHighThreshold, Say::ExerciseHighThresholdLine;
    DidNotSee: "did-not-see", Say::ExerciseDidNotSee, Say::ExerciseDidNotSeeLine;
    FoundAsynchronous: "found-asynchronous", Say::ExerciseFoundAsynchronous, Say::ExerciseFoundAsynchronousLine;
    ExtraBeats: "extra-beats", Say::ExerciseExtraBeats, Say::ExerciseExtraBeatsLine;
    TWaveSeen: "t-wave-seen", Say::ExerciseTWaveSeen, Say::ExerciseTWaveSeenLine;
    MinimumCaptures: "minimum-captures", Say::ExerciseMinimumCaptures, Say::ExerciseMinimumCapturesLine;
    BlockAtFasterRate: "block-at-faster-rate", Say::ExerciseBlock, Say::ExerciseBlockLine;
    WrongChamber: "wrong-chamber", Say::ExerciseWrongChamber, Say::ExerciseWrongChamberLine;
    PressureFalls: "pressure-falls", Say::ExercisePressureFalls, Say::ExercisePressureFallsLine;
    LoosePin: "loose-pin", Say::ExerciseLoosePin, Say::ExerciseLoosePinLine;
    SpikesWithoutBeats: "spikes-without-beats", Say::ExerciseSpikesWithoutBeats, Say::ExerciseSpikesWithoutBeatsLine;
    CaptureLost: "capture-lost", Say::ExerciseCaptureLost, Say::ExerciseCaptureLostLine;
    ShockInCheck: "shock-in-check", Say::ExerciseShock, Say::ExerciseShockLine;
    NoCaptureAtMaximum: "no-capture-at-maximum", Say::ExerciseNoCapture, Say::ExerciseNoCaptureLine;
}
