//! mV: the number after a sensing threshold, and the strides up to it.

use serde::{Deserialize, Serialize};

use crate::profile::{Position, Profile};
use crate::rules::{Chamber, Rules};

/// Where the mV number goes after sensing. It is only ever lowered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum MvPlan {
    /// The present number saw every beat, obeys the rule and is not below the lowest ever set.
    Stays,
    Down {
        to: Position,
    },
    /// No lower number is allowed: stays, call.
    Refused,
    /// It stands below the lowest that the unit ever sets: stays, call.
    BelowLowest,
}

pub fn mv_plan(
    profile: &Profile,
    rules: &Rules,
    chamber: Chamber,
    threshold: Position,
    present: Position,
    present_saw_every_beat: bool,
) -> MvPlan {
    let allowed = allows(profile, rules, chamber, threshold, present);
    if allowed && present_saw_every_beat {
        return MvPlan::Stays;
    }
    match mv_rule_position(profile, rules, chamber, threshold) {
        _ if profile.mv_at(present) < rules.lowest_mv_uv(chamber) => MvPlan::BelowLowest,
        Some(to) if to < present => MvPlan::Down { to },
        Some(_) | None => MvPlan::Refused,
    }
}

/// The highest number that obeys the rule on `threshold` and is not below the lowest ever set.
pub fn mv_rule_position(
    profile: &Profile,
    rules: &Rules,
    chamber: Chamber,
    threshold: Position,
) -> Option<Position> {
    profile
        .sensitivity
        .positions
        .all()
        .rev()
        .find(|&position| allows(profile, rules, chamber, threshold, position))
}

fn allows(profile: &Profile, rules: &Rules, chamber: Chamber, threshold: Position, set: Position) -> bool {
    let number = profile.mv_at(set);
    number >= rules.lowest_mv_uv(chamber) && rules.sensing_rule.allows(number, profile.mv_at(threshold))
}

/// The next number of the search up: at most the rule's stride above the present one, at least one
/// position; `None` at the last number before asynchronous.
pub fn mv_stride_up(profile: &Profile, rules: &Rules, from: Position) -> Option<Position> {
    let dial = &profile.sensitivity.positions;
    let next = from.checked_add(1).filter(|&next| next <= dial.last())?;
    let reach = u64::from(dial.value(from)) * (100 + u64::from(rules.sensing_stride_percent)) / 100;
    Some(dial.at_or_below(reach).map_or(next, |stride| stride.max(next)))
}

/// Half of a number that missed, or the nearest above half; at least one position down, the lowest at the end.
pub fn mv_half_down(profile: &Profile, missed: Position) -> Position {
    let half = u64::from(profile.mv_at(missed)).div_ceil(2);
    let reach = profile.sensitivity.positions.at_or_above(half).unwrap_or(missed);
    reach.min(missed.saturating_sub(1))
}

/// The unit's starting number, or the nearest below it (sees more); the lowest when none is below.
pub fn starting_mv(profile: &Profile, rules: &Rules, chamber: Chamber) -> Position {
    profile.sensitivity.positions.at_or_below(rules.starting_mv_uv(chamber).into()).unwrap_or(0)
}
