//! The cards of a check. A step and its facts are the whole card.

use serde::{Deserialize, Serialize};

use crate::listed::listed;

listed! {
    /// One card. The comment says what it asks.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
    pub enum Step {
        // Ready
        /// Is this the patient of the last check?
        SamePatient,
        /// Is there an order, and may you do this?
        Order,
        /// Who accepts the example rules for this patient?
        Accept,
        /// First four lines of the list.
        ListFirst,
        /// Last four lines of the list.
        ListSecond,
        PulseTrace,
        Standby,
        RightWire,
        /// Which line was not true?
        WhichLine,
        /// No check, and why.
        Blocked,
        /// Read the dials before anything is turned.
        ReadFound,
        FirstLook,
        /// Spikes without beats at the first look: OUTPUT to maximum.
        FirstMaximum,
        /// Beats came back at maximum, or not: connections, call.
        FirstConnections,
        Atrium,
        AsynchronousOrdered,
        /// Out of asynchronous: mV to a number.
        AsynchronousOff,
        /// Pauses: back to asynchronous.
        AsynchronousOn,
        // Own rhythm
        OwnDown,
        /// At the first own beat: did the generator mark it?
        FirstOwn,
        BlindRateUp,
        BlindMvDown,
        OwnHold,
        OwnRate,
        /// RATE back: no test.
        OwnBack,
        // Sensing
        SenseRate,
        SenseMinimum,
        SenseUp,
        SenseDown,
        /// Way out: mV first.
        SenseMvOut,
        /// Way out: OUTPUT.
        SenseOutputOut,
        // Capture
        CaptureRate,
        CaptureDown,
        /// A loss in a stride: straight back to the last that held.
        CaptureBack,
        /// A loss by single positions: only up.
        CaptureUp,
        /// Beats again: the threshold count.
        CaptureCount,
        /// Three ups or ten seconds: OUTPUT to restore.
        CaptureRestore,
        /// OUTPUT up before any result is shown.
        CaptureOut,
        /// The found output does not capture: OUTPUT to maximum.
        CaptureMaximum,
        /// Block from the faster rate: RATE down at once.
        CaptureRateDown,
        // Margin check
        MarginAsk,
        MarginOne,
        MarginHalf,
        MarginBack,
        // Set
        SetOutput,
        SetRate,
        SetMv,
        /// Nothing was tested: where each dial stays.
        Stays,
        ReadBack,
        /// The reading differs from the plan.
        Differs,
        /// After trouble or a long sleep the dials stand lower than before: meant so, or put right.
        ReadLower,
        /// Not read, or different: a reason, and who was told.
        Reason,
        Confirm,
        Guarded,
        Done,
        // Side cards
        Wrong,
        WrongMore,
        Elsewhere,
        Slip,
        Restore,
        /// NO BEATS: OUTPUT first.
        NoBeats,
        /// No spikes: maximum, asynchronous, RATE, connections.
        NoSpikes,
        Emergency,
        Arrest,
        AfterShock,
        /// After the trouble: the dials as they stand now.
        ReadAfter,
        Away,
        AwayRead,
        /// The check is over without a result.
        Ended,
    }
}

/// The eight stages a person sees on the rail.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Stage {
    Ready,
    OwnRhythm,
    Sensing,
    Capture,
    Set,
    Read,
    Confirm,
    Done,
}

impl Step {
    #[inline]
    pub fn stage(self) -> Option<Stage> {
        use Step::*;
        Some(match self {
            SamePatient | Order | Accept | ListFirst | ListSecond | PulseTrace | Standby | RightWire
            | WhichLine | Blocked | ReadFound | FirstLook | FirstMaximum | FirstConnections | Atrium
            | AsynchronousOrdered | AsynchronousOff | AsynchronousOn => Stage::Ready,
            OwnDown | FirstOwn | BlindRateUp | BlindMvDown | OwnHold | OwnRate | OwnBack => Stage::OwnRhythm,
            SenseRate | SenseMinimum | SenseUp | SenseDown | SenseMvOut | SenseOutputOut => Stage::Sensing,
            CaptureRate | CaptureDown | CaptureBack | CaptureUp | CaptureCount | CaptureRestore
            | CaptureOut | CaptureMaximum | CaptureRateDown | MarginAsk | MarginOne | MarginHalf
            | MarginBack => Stage::Capture,
            SetOutput | SetRate | SetMv | Stays => Stage::Set,
            ReadBack | Differs | ReadLower | Reason | ReadAfter => Stage::Read,
            Confirm | Guarded => Stage::Confirm,
            Done => Stage::Done,
            Wrong | WrongMore | Elsewhere | Slip | Restore | NoBeats | NoSpikes | Emergency | Arrest
            | AfterShock | Away | AwayRead | Ended => return None,
        })
    }

    /// A question that turns no dial, and whose good answer opens after a watch.
    #[inline]
    pub fn is_watched_question(self) -> bool {
        matches!(self, Step::OwnHold | Step::CaptureCount | Step::Confirm)
    }

    /// Cards that open over another card and may return to it.
    #[inline]
    pub fn is_side(self) -> bool {
        matches!(self, Step::Wrong | Step::WrongMore | Step::Elsewhere | Step::Slip | Step::Away)
    }
}
