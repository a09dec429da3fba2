//! The named rules in words, with their figures.

use crate::rules::{OutputRule, Rules, SensingRule};
use crate::say::Say;
use crate::units::OutputUnit;

pub fn sensing(rules: &Rules) -> Say {
    match rules.sensing_rule {
        SensingRule::BelowHalf => Say::RuleBelowHalf,
        SensingRule::Half => Say::RuleHalf,
        SensingRule::HalfLessOne => Say::RuleHalfLessOne,
        SensingRule::OneThird => Say::RuleThird,
    }
}

pub fn output(rules: &Rules, unit: OutputUnit) -> Say {
    match rules.output_rule {
        OutputRule::Double => Say::RuleDouble,
        OutputRule::DoublePlusOne => Say::RuleDoublePlusOne,
        OutputRule::Band { low_percent, high_percent, floor_ua, .. } => {
            let (low, high) = (times(low_percent), times(high_percent));
            if floor_ua == 0 || unit == OutputUnit::Volt {
                Say::RuleBand { low, high }
            } else {
                Say::RuleBandFloor { low, high, floor: milliamps(floor_ua) }
            }
        }
    }
}

/// 150 % as "1.5", 200 % as "2".
fn times(percent: u16) -> String {
    decimal(u32::from(percent), 100)
}

fn milliamps(ua: u32) -> String {
    decimal(ua, 1000)
}

fn decimal(value: u32, of: u32) -> String {
    let (whole, rest) = (value / of, value % of);
    let width = of.to_string().len() - 1;
    let digits = format!("{rest:0width$}");
    match digits.trim_end_matches('0') {
        "" => whole.to_string(),
        kept => format!("{whole}.{kept}"),
    }
}
