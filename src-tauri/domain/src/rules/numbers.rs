//! The one table of every number of a rule file: range, example and source.

use super::{OutputRule, Rules, Source};
use crate::units::{MICRO_PER_MILLI, MICRO_PER_WHOLE, decimals, shortest};

/// A multiple is held in percent.
pub(super) const PERCENT_PER_WHOLE: u32 = 100;

/// One number. `least`, `greatest` and `example` are in the unit of the field (mA: µA; mV and V: µV).
pub struct NumberRule {
    /// In a rule file.
    pub name: &'static str,
    /// In `Rules`.
    pub field: &'static str,
    pub unit: NumberUnit,
    pub least: u32,
    pub greatest: u32,
    /// 0 where the example sets none.
    pub example: u32,
    pub source: Source,
    /// A file from before this rule was known lacks it, and means: none.
    pub may_lack: bool,
    load: fn(&Rules) -> u32,
    store: fn(&mut Rules, u32),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NumberUnit {
    PerMinute,
    Seconds,
    Hours,
    Days,
    Years,
    Months,
    Beats,
    Steps,
    Percent,
    /// These three are held in µV and µA, and written in the file as text ("1.0").
    MilliVolt,
    MilliAmp,
    Volt,
    /// Held in percent, and written as text too ("2.5").
    Times,
}

impl NumberUnit {
    pub fn symbol(self) -> &'static str {
        match self {
            Self::PerMinute => "/min",
            Self::Seconds => "s",
            Self::Hours => "h",
            Self::Days => "days",
            Self::Years => "years",
            Self::Months => "months",
            Self::Beats => "beats",
            Self::Steps => "steps",
            Self::Percent => "%",
            Self::MilliVolt => "mV",
            Self::MilliAmp => "mA",
            Self::Volt => "V",
            Self::Times => "×",
        }
    }

    /// As a rule file writes it.
    pub fn text(self, value: u32) -> String {
        let Some(scale) = self.scale() else { return value.to_string() };
        let exact = shortest(value, scale);
        if decimals(&exact) == 0 && self != Self::Times { format!("{exact}.0") } else { exact }
    }

    /// Parts of one unit that the number is held in; a number that is written as text has them, any other is whole.
    pub fn scale(self) -> Option<u32> {
        match self {
            Self::MilliVolt | Self::MilliAmp => Some(MICRO_PER_MILLI),
            Self::Volt => Some(MICRO_PER_WHOLE),
            Self::Times => Some(PERCENT_PER_WHOLE),
            Self::PerMinute
            | Self::Seconds
            | Self::Hours
            | Self::Days
            | Self::Years
            | Self::Months
            | Self::Beats
            | Self::Steps
            | Self::Percent => None,
        }
    }
}

impl NumberRule {
    /// By its name in a file or in `Rules`.
    pub fn named(name: &str) -> Option<&'static NumberRule> {
        NUMBERS.iter().find(|number| number.name == name || number.field == name)
    }

    pub fn load(&self, rules: &Rules) -> u32 {
        (self.load)(rules)
    }

    pub(super) fn store(&self, rules: &mut Rules, value: u32) {
        (self.store)(rules, value);
    }

    pub fn allows(&self, value: u32) -> bool {
        (self.least..=self.greatest).contains(&value)
    }
}

/// One row; how it is loaded and stored comes last.
macro_rules! row {
    ($name:expr, $field:ident, $unit:ident, $least:literal..=$greatest:literal, $example:literal, $source:expr, $load:expr, $store:expr) => {
        NumberRule {
            name: $name,
            field: stringify!($field),
            unit: NumberUnit::$unit,
            least: $least,
            greatest: $greatest,
            example: $example,
            source: $source,
            may_lack: false,
            load: $load,
            store: $store,
        }
    };
}

/// `as` cannot cut here: a test stores every greatest value and loads it back.
macro_rules! number {
    ($field:ident: $kind:ty, $($rest:tt)*) => {
        number!(stringify!($field), $field: $kind, $($rest)*)
    };
    ($name:expr, $field:ident: $kind:ty, $unit:ident, $least:literal..=$greatest:literal, $example:literal, $source:expr) => {
        row!(
            $name, $field, $unit, $least..=$greatest, $example, $source,
            |rules| rules.$field.into(),
            |rules, value| rules.$field = value as $kind
        )
    };
}

/// No source gives a figure, so the example sets none: whether there is one is the unit's own.
const fn limit(number: NumberRule) -> NumberRule {
    NumberRule { may_lack: true, ..number }
}

const MEMORY: Source = Source::MEMORY;

pub static NUMBERS: [NumberRule; 30] = [
    number!(own_step: u16, PerMinute, 5..=10, 10, Source::read("ACCCN")),
    number!(own_watch_s: u16, Seconds, 5..=30, 10, MEMORY),
    number!(own_hold_s: u16, Seconds, 10..=60, 30, MEMORY),
    number!(own_limit: u16, PerMinute, 30..=60, 50, Source::read("ACCCN")),
    number!(sensing_offset: u16, PerMinute, 10..=20, 10, Source::read("CICM13, CTS, COMP")),
    number!(capture_offset: u16, PerMinute, 10..=20, 10, Source::read("CICM13, ACCCN")),
    number!(highest_test_rate: u16, PerMinute, 90..=130, 110, MEMORY),
    number!("lowest_ventricle_mV", lowest_mv_ventricle_uv: u32, MilliVolt, 500..=2_000, 1_000, MEMORY),
    number!("lowest_atrium_mV", lowest_mv_atrium_uv: u32, MilliVolt, 200..=1_000, 400, MEMORY),
    number!("starting_ventricle_mV", starting_mv_ventricle_uv: u32, MilliVolt, 500..=3_000, 2_000, MEMORY),
    number!("starting_atrium_mV", starting_mv_atrium_uv: u32, MilliVolt, 200..=1_000, 500, MEMORY),
    number!(sensing_stride_percent: u8, Percent, 5..=50, 50, Source::PRACTICE),
    number!(capture_stride_percent: u8, Percent, 5..=20, 20, Source::PRACTICE),
    number!(beats_down: u8, Beats, 3..=10, 5, MEMORY),
    number!(beats_threshold: u8, Beats, 5..=20, 10, Source::ARITHMETIC),
    number!(beats_confirm: u8, Beats, 10..=30, 20, Source::ARITHMETIC),
    number!(minimum_output_s: u16, Seconds, 30..=180, 120, MEMORY),
    number!(after_loss_ups: u8, Steps, 1..=3, 3, MEMORY),
    number!(after_loss_s: u16, Seconds, 5..=10, 10, MEMORY),
    number!(age_least: u8, Years, 16..=21, 16, MEMORY),
    number!(emergency_rate: u16, PerMinute, 60..=100, 80, MEMORY),
    number!(check_every_h: u8, Hours, 4..=24, 12, Source::read("ACCCN, CTS, NK")),
    number!(check_every_narrow_h: u8, Hours, 1..=12, 8, MEMORY),
    number!(narrow_multiple_percent: u16, Percent, 150..=300, 200, MEMORY),
    NumberRule { may_lack: true, ..number!(sign_off_months: u16, Months, 6..=36, 12, MEMORY) },
    NumberRule { may_lack: true, ..number!(erase_after_days: u16, Days, 7..=3_650, 30, MEMORY) },
    limit(number!("capture_limit_mA", capture_limit_ua: u32, MilliAmp, 1_000..=25_000, 0, MEMORY)),
    limit(number!("capture_limit_V", capture_limit_uv: u32, Volt, 500_000..=10_000_000, 0, MEMORY)),
    limit(
        number!("signal_limit_ventricle_mV", signal_limit_ventricle_uv: u32, MilliVolt, 500..=10_000, 0, MEMORY),
    ),
    limit(number!("signal_limit_atrium_mV", signal_limit_atrium_uv: u32, MilliVolt, 200..=4_000, 0, MEMORY)),
];

macro_rules! band {
    ($name:literal, $field:ident: $kind:ty, $unit:ident, $least:literal..=$greatest:literal, $example:literal, $source:expr) => {
        row!(
            $name,
            $field,
            $unit,
            $least..=$greatest,
            $example,
            $source,
            |rules| match rules.output_rule {
                OutputRule::Band { $field, .. } => $field.into(),
                OutputRule::Double | OutputRule::DoublePlusOne => 0,
            },
            |rules, value| {
                if let OutputRule::Band { $field, .. } = &mut rules.output_rule {
                    *$field = value as $kind;
                }
            }
        )
    };
}

/// The bounds of a band, inside `output_rule`; its aim lies between low and high. No other rule has them.
pub static BAND: [NumberRule; 3] = [
    band!("low", low_percent: u16, Times, 150..=300, 200, OutputRule::WIDE.source()),
    band!("high", high_percent: u16, Times, 200..=300, 300, OutputRule::WIDE.source()),
    band!("floor_mA", floor_ua: u32, MilliAmp, 0..=1_000, 1_000, OutputRule::DoublePlusOne.source()),
];
