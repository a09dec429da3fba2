//! OUTPUT: the plan after a capture threshold, the strides down to it, the margin.

use serde::{Deserialize, Serialize};

use crate::profile::{Position, Profile};
use crate::rules::{OutputRule, Rules};
use crate::units::{MICRO_PER_MILLI, OutputUnit};

/// Where OUTPUT goes after capture.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum OutputPlan {
    /// `flagged`: above the rule's band, because the dial has no position inside it.
    At { position: Position, flagged: bool },
    /// No position satisfies the rule: stays at maximum, call.
    Maximum,
    /// The rule says nothing about this dial's unit: OUTPUT is left to whoever is called.
    OtherUnit,
}

/// The rule on one threshold, in µA or µV times 100 so that percents stay whole.
struct Band {
    low: u64,
    aim: u64,
    high: u64,
}

/// The highest position from the low end to the aim; else the lowest above it, flagged when it
/// lies above the band.
pub fn output_plan(profile: &Profile, rules: &Rules, threshold: Position) -> OutputPlan {
    let band = band(rules.output_rule, profile.output_unit(), profile.output_at(threshold));
    band.map_or(OutputPlan::OtherUnit, |band| inside(profile, &band))
}

fn inside(profile: &Profile, band: &Band) -> OutputPlan {
    let dial = &profile.output.positions;
    let value = |position| u64::from(dial.value(position)) * 100;
    let Some(lowest) = dial.at_or_above(band.low.div_ceil(100)) else {
        return OutputPlan::Maximum;
    };
    let aimed = dial.at_or_below(band.aim / 100).filter(|&position| value(position) >= band.low);
    let position = aimed.unwrap_or(lowest);
    OutputPlan::At { position, flagged: value(position) > band.high }
}

/// An output of `set` is less than the rule asks on `threshold`.
pub fn is_below_rule(profile: &Profile, rules: &Rules, set: Position, threshold: Position) -> bool {
    let (set, threshold) = (profile.output_at(set), profile.output_at(threshold));
    is_value_below_rule(rules, profile.output_unit(), set, threshold)
}

/// The same for values in µA or µV, which need not be positions of one dial.
pub fn is_value_below_rule(rules: &Rules, unit: OutputUnit, set: u32, threshold: u32) -> bool {
    let band = band(rules.output_rule, unit, threshold);
    band.is_some_and(|band| u64::from(set) * 100 < band.low)
}

/// The lowest and the highest position that the rule allows on `threshold`.
pub fn rule_positions(profile: &Profile, rules: &Rules, threshold: Position) -> Option<(Position, Position)> {
    let dial = &profile.output.positions;
    let band = band(rules.output_rule, profile.output_unit(), profile.output_at(threshold))?;
    let (low, high) = (dial.at_or_above(band.low.div_ceil(100))?, dial.at_or_below(band.high / 100)?);
    (low <= high).then_some((low, high))
}

/// `None` when the rule says nothing about this unit.
fn band(rule: OutputRule, unit: OutputUnit, threshold: u32) -> Option<Band> {
    let threshold = u64::from(threshold);
    let exactly = |value| Band { low: value, aim: value, high: value };
    match rule {
        OutputRule::Band { low_percent, high_percent, aim_percent, floor_ua } => {
            let floor =
                if unit == OutputUnit::MilliAmp { (threshold + u64::from(floor_ua)) * 100 } else { 0 };
            let low = (threshold * u64::from(low_percent)).max(floor);
            let upper = |percent: u16| (threshold * u64::from(percent)).max(low);
            Some(Band { low, aim: upper(aim_percent), high: upper(high_percent) })
        }
        OutputRule::Double => Some(exactly(threshold * 200)),
        OutputRule::DoublePlusOne if unit == OutputUnit::MilliAmp => {
            Some(exactly(threshold * 200 + u64::from(MICRO_PER_MILLI) * 100))
        }
        OutputRule::DoublePlusOne => None,
    }
}

/// The next position of the search down: at most the rule's stride below the present value, at
/// least one position; `None` at the lowest.
pub fn output_stride_down(profile: &Profile, rules: &Rules, from: Position) -> Option<Position> {
    let dial = &profile.output.positions;
    let from = from.min(dial.last());
    let next = from.checked_sub(1)?;
    let kept = 100_u64.saturating_sub(rules.capture_stride_percent.into());
    let reach = (u64::from(dial.value(from)) * kept).div_ceil(100);
    Some(dial.at_or_above(reach).map_or(next, |stride| stride.min(next)))
}

/// Nearest half the restore output from above.
pub fn margin_position(profile: &Profile, restore_output: Position) -> Position {
    let half = u64::from(profile.output_at(restore_output)).div_ceil(2);
    profile.output.positions.at_or_above(half).unwrap_or(restore_output)
}

/// How many times the threshold the output is, rounded down to a tenth: "3", "2.8".
pub fn multiple_text(profile: &Profile, set: Position, threshold: Position) -> String {
    multiple_of(profile.output_at(set), profile.output_at(threshold))
}

/// The same for two values of one unit.
pub fn multiple_of(set: u32, threshold: u32) -> String {
    let tenths = u64::from(set) * 10 / u64::from(threshold).max(1);
    match (tenths / 10, tenths % 10) {
        (whole, 0) => whole.to_string(),
        (whole, tenth) => format!("{whole}.{tenth}"),
    }
}
