//! Flags: one line each, ranked, with the act asked for.

use serde::{Deserialize, Serialize};

use crate::say::Say;
use crate::units::OutputUnit;

/// Ranked by how soon somebody must act: earlier variants come first.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Flag {
    NoCaptureAtMaximum,
    NoRuleSatisfied,
    /// The unit's OUTPUT rule says nothing about this dial's unit.
    RuleOfOtherUnit,
    StillBlind,
    /// Own beats stayed among the spikes at the highest RATE of a test.
    NotPacedOver,
    /// Asynchronous, or the highest number where there is none, stays and nobody ordered it.
    SeesNothing,
    WrongChamber,
    NoBeats,
    Shock,
    /// Fast and wide, or no pulse with spikes.
    Fibrillation,
    /// A spike made no beat where no loss was sought.
    LostUnsought,
    FoundDidNotCapture,
    DidNotSeeAsFound,
    NumberBelowLowest,
    NumberRefused,
    /// As the dial and the rule file print them.
    CaptureAboveLimit {
        is: String,
        limit: String,
        unit: OutputUnit,
    },
    /// In mV.
    SignalBelowLimit {
        is: String,
        limit: String,
    },
    FoundMarginBelowRule {
        multiple: String,
    },
    /// A bracket of more than one position: its ends, as the dial prints them.
    NotNarrowed {
        low: String,
        high: String,
    },
    LeftAsRead,
    BlockFromRate,
    Pauses,
    ExtraBeatUnmarked,
    MarksWithoutBeats,
    Climbs {
        per_day: String,
        unit: OutputUnit,
    },
    Doubled {
        was: String,
        is: String,
    },
    HalfSignalGone {
        was: String,
        is: String,
    },
    FoundAsynchronous,
    NotTolerated,
    SpikeAtMinimumMadeABeat,
    NotRead,
    Away,
    Slip,
    /// The wall clock was set in mid-check: on is positive.
    ClockSet {
        by_min: i32,
    },
}

impl Flag {
    /// Somebody is called now, not told in passing.
    pub fn asks_to_act_at_once(&self) -> bool {
        *self <= Flag::NumberRefused
    }

    /// Spikes made no beats where they should have, or the heart was shaken: what held before says nothing.
    pub fn makes_earlier_capture_doubtful(&self) -> bool {
        let doubtful = [
            Flag::NoCaptureAtMaximum,
            Flag::LostUnsought,
            Flag::FoundDidNotCapture,
            Flag::WrongChamber,
            Flag::NoBeats,
            Flag::Fibrillation,
            Flag::Shock,
        ];
        doubtful.contains(self)
    }

    /// The clock of a check that has jumped so far in all; a jump that was undone is none.
    pub fn of_clock(jump_ms: i64) -> Option<Flag> {
        let by_min = i32::try_from(jump_ms / 60_000).unwrap_or(i32::MAX);
        (by_min != 0).then_some(Flag::ClockSet { by_min })
    }

    /// The line, with the act asked for.
    pub fn say(&self) -> Say {
        match self.clone() {
            Flag::NoCaptureAtMaximum => Say::FlagNoCaptureAtMaximum,
            Flag::NoRuleSatisfied => Say::FlagNoRuleSatisfied,
            Flag::RuleOfOtherUnit => Say::FlagRuleOfOtherUnit,
            Flag::StillBlind => Say::FlagStillBlind,
            Flag::NotPacedOver => Say::FlagNotPacedOver,
            Flag::SeesNothing => Say::FlagSeesNothing,
            Flag::WrongChamber => Say::FlagWrongChamber,
            Flag::NoBeats => Say::FlagNoBeats,
            Flag::Shock => Say::FlagShock,
            Flag::Fibrillation => Say::FlagFibrillation,
            Flag::LostUnsought => Say::FlagLostUnsought,
            Flag::FoundDidNotCapture => Say::FlagFoundDidNotCapture,
            Flag::DidNotSeeAsFound => Say::FlagDidNotSeeAsFound,
            Flag::NumberBelowLowest => Say::FlagNumberBelowLowest,
            Flag::NumberRefused => Say::FlagNumberRefused,
            Flag::CaptureAboveLimit { is, limit, unit } => {
                Say::FlagCaptureAboveLimit { is: Box::new(figure_unit(is, unit)), limit }
            }
            Flag::SignalBelowLimit { is, limit } => Say::FlagSignalBelowLimit { is, limit },
            Flag::FoundMarginBelowRule { multiple } => Say::FlagFoundMarginBelowRule { multiple },
            Flag::NotNarrowed { low, high } => Say::FlagNotNarrowed { low, high },
            Flag::LeftAsRead => Say::FlagLeftAsRead,
            Flag::BlockFromRate => Say::FlagBlockFromRate,
            Flag::Pauses => Say::FlagPauses,
            Flag::ExtraBeatUnmarked => Say::FlagExtraBeatUnmarked,
            Flag::MarksWithoutBeats => Say::FlagMarksWithoutBeats,
            Flag::Climbs { per_day, unit } => {
                Say::FlagClimbs { per_day: Box::new(figure_unit(per_day, unit)) }
            }
            Flag::Doubled { was, is } => Say::FlagDoubled { was, is },
            Flag::HalfSignalGone { was, is } => Say::FlagHalfSignalGone { was, is },
            Flag::FoundAsynchronous => Say::FlagFoundAsynchronous,
            Flag::NotTolerated => Say::FlagNotTolerated,
            Flag::SpikeAtMinimumMadeABeat => Say::FlagSpikeAtMinimum,
            Flag::NotRead => Say::FlagNotRead,
            Flag::Away => Say::FlagAway,
            Flag::Slip => Say::FlagSlip,
            Flag::ClockSet { by_min } if by_min < 0 => Say::ClockSetBack { minutes: by_min.unsigned_abs() },
            Flag::ClockSet { by_min } => Say::ClockSetOn { minutes: by_min.unsigned_abs() },
        }
    }
}

fn figure_unit(figure: String, unit: OutputUnit) -> Say {
    let unit = match unit {
        OutputUnit::MilliAmp => Say::MilliAmp,
        OutputUnit::Volt => Say::Volt,
    };
    Say::FigureUnit { figure, unit: Box::new(unit) }
}
