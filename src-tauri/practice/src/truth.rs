//! What a check should have found, and what the unit's rule makes of it: from the heart's numbers and the printed
//! dials alone, in arithmetic of its own.

use domain::check::facts::Found;
use domain::practice::Threshold;
use domain::profile::{Position, Profile};
use domain::rules::{OutputRule, Rules};
use domain::units::OutputUnit;
use simulator::Truth;

/// The capture result cannot be so.
pub fn capture_is_untrue(said: Threshold, truth: &Truth, profile: &Profile) -> bool {
    match said.found {
        Found::Exact => lowest_at_or_above(profile, truth.going_up_micro) != Some(said.at),
        // Its upper end too has captured after a loss: a bracket holds the threshold going up.
        Found::Bracket => {
            profile.output_at(said.low) >= truth.going_up_micro
                || profile.output_at(said.at) < truth.going_up_micro
        }
        Found::AtMost => said.at != 0 || profile.output_at(0) < truth.going_down_micro,
        Found::Nothing | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone => false,
    }
}

/// The sensing result cannot be so.
pub fn sensing_is_untrue(said: Threshold, truth: &Truth, profile: &Profile) -> bool {
    let sees = |at: Position| profile.mv_at(at) <= truth.smallest_signal_uv;
    match said.found {
        Found::Exact => !sees(said.at) || (said.at < profile.mv_last() && sees(said.at + 1)),
        Found::AtLeast | Found::SeenWhereItStood => !sees(said.at),
        Found::SeenAtNone => sees(0),
        Found::Nothing | Found::AtMost | Found::Bracket => false,
    }
}

/// The highest number that sees the smallest signal.
pub fn highest_that_sees(profile: &Profile, truth: &Truth) -> Option<Position> {
    (0..=profile.mv_last()).rfind(|at| profile.mv_at(*at) <= truth.smallest_signal_uv)
}

pub fn lowest_at_or_above(profile: &Profile, micro: u32) -> Option<Position> {
    (0..=profile.output_last()).find(|at| profile.output_at(*at) >= micro)
}

/// Least output, in hundredths of a micro-unit, that the rule asks for on this threshold. `None`: no output satisfies it.
pub fn least_by_rule(rules: &Rules, unit: OutputUnit, threshold_micro: u32) -> Option<u64> {
    let hundred = u64::from(threshold_micro) * 100;
    match rules.output_rule {
        OutputRule::Double => Some(2 * hundred),
        OutputRule::DoublePlusOne => (unit == OutputUnit::MilliAmp).then_some(2 * hundred + 100_000),
        OutputRule::Band { low_percent, floor_ua, .. } => {
            let times = u64::from(threshold_micro) * u64::from(low_percent);
            let floor = match unit {
                OutputUnit::MilliAmp => hundred + u64::from(floor_ua) * 100,
                OutputUnit::Volt => 0,
            };
            Some(times.max(floor))
        }
    }
}

/// The most, in hundredths of a micro-unit; never below the least.
pub fn most_by_rule(rules: &Rules, threshold_micro: u32, least: u64) -> u64 {
    match rules.output_rule {
        OutputRule::Double | OutputRule::DoublePlusOne => least,
        OutputRule::Band { high_percent, .. } => {
            (u64::from(threshold_micro) * u64::from(high_percent)).max(least)
        }
    }
}
