//! The named rules a unit may choose between. Published procedures differ and are not mixed.

use serde::{Deserialize, Serialize};

use super::Source;
use crate::units::OutputUnit;

/// From a sensing threshold to the number set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum SensingRule {
    BelowHalf,
    Half,
    /// Half less 1 mV: refuses at 2 mV and below.
    HalfLessOne,
    OneThird,
}

/// From a capture threshold to the output set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum OutputRule {
    /// Multiples in percent. On an mA dial also `floor_ua` above the threshold; volts have no floor.
    Band {
        low_percent: u16,
        high_percent: u16,
        aim_percent: u16,
        floor_ua: u32,
    },
    Double,
    /// Double plus 1 mA; says nothing about a dial in volts.
    DoublePlusOne,
}

impl SensingRule {
    pub const ALL: [Self; 4] = [Self::BelowHalf, Self::Half, Self::HalfLessOne, Self::OneThird];

    /// The name in a rule file.
    pub fn name(self) -> &'static str {
        match self {
            Self::BelowHalf => "below half",
            Self::Half => "half",
            Self::HalfLessOne => "half less 1 mV",
            Self::OneThird => "one third",
        }
    }

    pub fn source(self) -> Source {
        match self {
            Self::BelowHalf => Source::read("CTS"),
            Self::Half => Source::read("CICM13, CICM16"),
            Self::HalfLessOne => Source::read("ACCCN"),
            Self::OneThird => Source::PRACTICE,
        }
    }

    /// Whether a number of `set_uv` obeys the rule on a threshold of `threshold_uv`.
    pub fn allows(self, set_uv: u32, threshold_uv: u32) -> bool {
        let (set, threshold) = (u64::from(set_uv), u64::from(threshold_uv));
        match self {
            Self::BelowHalf => 2 * set < threshold,
            Self::Half => 2 * set <= threshold,
            Self::HalfLessOne => 2 * set + 2_000 <= threshold,
            Self::OneThird => 3 * set <= threshold,
        }
    }
}

impl OutputRule {
    /// 2 to 3 times, the highest position inside, at least 1 mA above the threshold.
    pub const EXAMPLE: Self =
        Self::Band { low_percent: 200, high_percent: 300, aim_percent: 300, floor_ua: 1_000 };

    /// 1.5 to 3 times: needs a clinician's name.
    pub const WIDE: Self = Self::Band { low_percent: 150, high_percent: 300, aim_percent: 300, floor_ua: 0 };

    /// The name in a rule file.
    pub fn name(self) -> &'static str {
        match self {
            Self::Band { .. } => "band",
            Self::Double => "double",
            Self::DoublePlusOne => "double plus 1 mA",
        }
    }

    pub const fn source(self) -> Source {
        match self {
            Self::Band { floor_ua: 0, .. } => Source::read("CTS"),
            Self::Band { .. } => Source::read("CTS, ACCCN"),
            Self::Double => Source::read("CICM13"),
            Self::DoublePlusOne => Source::read("ACCCN"),
        }
    }

    /// False for a rule in mA on a dial in volts: no position can satisfy it.
    pub fn speaks_of(self, unit: OutputUnit) -> bool {
        self != Self::DoublePlusOne || unit == OutputUnit::MilliAmp
    }

    pub fn begins_below_double(self) -> bool {
        matches!(self, Self::Band { low_percent, .. } if low_percent < 200)
    }
}
