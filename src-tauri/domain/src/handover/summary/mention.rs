//! Flags of a check that the next team must know.

use serde::{Deserialize, Serialize};

use crate::flags::Flag;
use crate::handover::figure::Figure;

/// Ranked by how soon somebody must act, as `flags::Flag` is.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Mention {
    NoCaptureAtMaximum,
    NoRuleSatisfied,
    StillBlind,
    SeesNothing,
    WrongChamber,
    NoBeats,
    Shock,
    Fibrillation,
    LostUnsought,
    FoundDidNotCapture,
    DidNotSeeAsFound,
    NumberRefused,
    /// In the unit of the check.
    CaptureAboveLimit {
        limit: Figure,
    },
    /// In mV.
    SignalBelowLimit {
        limit: Figure,
    },
    FoundMargin {
        multiple: Figure,
    },
    LeftAsRead,
    BlockFromRate,
    Pauses,
    ExtraBeatUnmarked,
    MarksWithoutBeats,
    /// In the unit of the check.
    Doubled {
        was: Figure,
    },
    /// In mV.
    SignalHalved {
        was: Figure,
    },
    FoundAsynchronous,
    NotTolerated,
    SpikeAtMinimum,
    NotPacedOver,
    NumberBelowLowest,
}

impl Mention {
    /// `None` for what concerns only the tablet, or stands in another line.
    pub fn of(flag: &Flag) -> Option<Mention> {
        Some(match flag {
            Flag::NoCaptureAtMaximum => Mention::NoCaptureAtMaximum,
            Flag::NoRuleSatisfied | Flag::RuleOfOtherUnit => Mention::NoRuleSatisfied,
            Flag::StillBlind => Mention::StillBlind,
            Flag::SeesNothing => Mention::SeesNothing,
            Flag::WrongChamber => Mention::WrongChamber,
            Flag::NoBeats => Mention::NoBeats,
            Flag::Shock => Mention::Shock,
            Flag::Fibrillation => Mention::Fibrillation,
            Flag::LostUnsought => Mention::LostUnsought,
            Flag::NotPacedOver => Mention::NotPacedOver,
            Flag::NumberBelowLowest => Mention::NumberBelowLowest,
            Flag::FoundDidNotCapture => Mention::FoundDidNotCapture,
            Flag::DidNotSeeAsFound => Mention::DidNotSeeAsFound,
            Flag::NumberRefused => Mention::NumberRefused,
            Flag::CaptureAboveLimit { limit, .. } => {
                Mention::CaptureAboveLimit { limit: Figure::new(limit)? }
            }
            Flag::SignalBelowLimit { limit, .. } => Mention::SignalBelowLimit { limit: Figure::new(limit)? },
            Flag::FoundMarginBelowRule { multiple } => {
                Mention::FoundMargin { multiple: Figure::new(multiple)? }
            }
            Flag::LeftAsRead => Mention::LeftAsRead,
            Flag::BlockFromRate => Mention::BlockFromRate,
            Flag::Pauses => Mention::Pauses,
            Flag::ExtraBeatUnmarked => Mention::ExtraBeatUnmarked,
            Flag::MarksWithoutBeats => Mention::MarksWithoutBeats,
            Flag::Doubled { was, .. } => Mention::Doubled { was: Figure::new(was)? },
            Flag::HalfSignalGone { was, .. } => Mention::SignalHalved { was: Figure::new(was)? },
            Flag::FoundAsynchronous => Mention::FoundAsynchronous,
            Flag::NotTolerated => Mention::NotTolerated,
            Flag::SpikeAtMinimumMadeABeat => Mention::SpikeAtMinimum,
            // The code names both ends of the bracket.
            Flag::NotNarrowed { .. } => return None,
            // The next check, which the code names, is sooner by it.
            Flag::Climbs { .. } => return None,
            Flag::NotRead | Flag::Away | Flag::Slip | Flag::ClockSet { .. } => return None,
        })
    }

    /// Those that carry no figure, by their number in a copy. Frozen: numbers are never used again.
    pub const PLAIN: [(u8, Mention); 22] = [
        (0, Mention::NoCaptureAtMaximum),
        (1, Mention::NoRuleSatisfied),
        (2, Mention::StillBlind),
        (3, Mention::WrongChamber),
        (4, Mention::NoBeats),
        (5, Mention::Shock),
        (6, Mention::FoundDidNotCapture),
        (7, Mention::DidNotSeeAsFound),
        (8, Mention::NumberRefused),
        (10, Mention::BlockFromRate),
        (11, Mention::Pauses),
        (12, Mention::ExtraBeatUnmarked),
        (15, Mention::FoundAsynchronous),
        (16, Mention::NotTolerated),
        (17, Mention::SpikeAtMinimum),
        (18, Mention::LeftAsRead),
        (21, Mention::MarksWithoutBeats),
        (22, Mention::Fibrillation),
        (23, Mention::LostUnsought),
        (24, Mention::SeesNothing),
        (25, Mention::NotPacedOver),
        (26, Mention::NumberBelowLowest),
    ];
}
