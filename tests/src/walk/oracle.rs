//! The unit's rules on this generator's positions, worked out another way than the product does.

use domain::check::setup::Setup;
use domain::rules::{OutputRule, SensingRule};
use domain::units::OutputUnit;

/// Lowest and highest output allowed after a capture threshold, µA or µV; the aim is the highest wanted.
fn output_bounds(setup: &Setup<'_>, threshold: u8) -> Option<(u32, u32)> {
    let t = setup.profile.output_at(threshold);
    let current = setup.profile.output_unit() == OutputUnit::MilliAmp;
    match setup.rules.output_rule {
        OutputRule::Double => Some((2 * t, 2 * t)),
        OutputRule::DoublePlusOne => current.then_some((2 * t + 1_000, 2 * t + 1_000)),
        OutputRule::Band { low_percent, aim_percent, floor_ua, .. } => {
            let times = |percent: u16| (t * u32::from(percent)).div_ceil(100);
            let floor = if current { t + floor_ua } else { 0 };
            let low = times(low_percent).max(floor);
            let aim = (t * u32::from(aim_percent) / 100).max(low);
            Some((low, aim))
        }
    }
}

/// Where OUTPUT goes: the highest position within the bounds, else the lowest above, else maximum; `None` where the
/// rule is not for this unit.
pub fn output_plan(setup: &Setup<'_>, threshold: u8) -> Option<u8> {
    let last = setup.profile.output_last();
    let (low, aim) = output_bounds(setup, threshold)?;
    let enough: Vec<u8> = (0..=last).filter(|p| setup.profile.output_at(*p) >= low).collect();
    let within = enough.iter().rev().find(|p| setup.profile.output_at(**p) <= aim);
    Some(within.or(enough.first()).copied().unwrap_or(last))
}

/// The highest number the unit's rule allows after a sensing threshold, if there is one.
pub fn number_by_rule(setup: &Setup<'_>, threshold: u8) -> Option<u8> {
    let t = setup.profile.mv_at(threshold);
    let most = match setup.rules.sensing_rule {
        SensingRule::BelowHalf => (t - 1) / 2,
        SensingRule::Half => t / 2,
        SensingRule::HalfLessOne => t.checked_sub(2_000)? / 2,
        SensingRule::OneThird => t / 3,
    };
    let least = setup.rules.lowest_mv_uv(setup.chamber);
    let allowed = |p: &u8| (least..=most).contains(&setup.profile.mv_at(*p));
    (0..=setup.profile.mv_last()).filter(allowed).max()
}

/// The lowest number the unit ever sets, on this dial.
pub fn lowest_number(setup: &Setup<'_>) -> u8 {
    let least = setup.rules.lowest_mv_uv(setup.chamber);
    let last = setup.profile.mv_last();
    (0..=last).find(|p| setup.profile.mv_at(*p) >= least).unwrap_or(last)
}

/// Where the number goes: it stays if it saw every beat and obeys the rule; it is only ever lowered.
pub fn number_plan(setup: &Setup<'_>, threshold: u8, restore: u8, restore_saw: bool) -> u8 {
    let by_rule = number_by_rule(setup, threshold);
    let least = setup.rules.lowest_mv_uv(setup.chamber);
    let obeys = by_rule.is_some_and(|rule| restore <= rule) && setup.profile.mv_at(restore) >= least;
    if obeys && restore_saw {
        return restore;
    }
    by_rule.filter(|rule| *rule < restore).unwrap_or(restore)
}

/// The highest rate position at which sensing may be tested.
pub fn sensing_rate(setup: &Setup<'_>, own_slowest: u8) -> Option<u8> {
    let slowest = u16::from(own_slowest);
    let most = if setup.rules.half_rate_in_sensing {
        slowest / 2
    } else {
        slowest.checked_sub(setup.rules.sensing_offset)?
    };
    (0..=setup.profile.rate_last()).filter(|p| setup.profile.rate_at(*p) <= most).max()
}

/// A spike so long after a beat is behind its T wave, ms, and so much of the own interval in a slow rhythm (both
/// from memory).
const BEHIND_T_MS: f64 = 440.0;
const BEHIND_T_OF_OWN: f64 = 0.4;
/// Fractions here, whole microseconds there: no interval is rounded by more, ms.
const ROUNDED_MS: f64 = 0.01;

/// Whether the first spike after missed beats falls on no T wave, by following the beats one by one: each interval
/// one of those that may be typed as these own rates.
pub fn spike_is_off_t_waves(rate: u16, (slowest, fastest): (u8, u8)) -> bool {
    let spike = 60_000.0 / f64::from(rate);
    let typed = [f64::from(slowest) - 0.5, f64::from(fastest) + 0.5];
    let steady = (0..=40).map(|n| vec![60_000.0 / (typed[0] + (typed[1] - typed[0]) * f64::from(n) / 40.0)]);
    let by_turns =
        (0..64_u8).map(|bits| (0..6).map(|n| 60_000.0 / typed[usize::from(bits >> n & 1)]).collect());
    let slow = 60_000.0 / typed[0];
    steady.chain(by_turns).all(|intervals: Vec<f64>| {
        let mut beat = intervals[0];
        for interval in intervals.iter().cycle().skip(1) {
            if beat + interval > spike {
                break;
            }
            beat += interval;
        }
        spike - beat > BEHIND_T_MS.max(BEHIND_T_OF_OWN * slow) - ROUNDED_MS
    })
}
