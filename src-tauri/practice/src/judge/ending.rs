//! How the dials were left, and whether anybody looked.

use domain::check::facts::{ASYNCHRONOUS, Found};
use domain::practice::{Act, Judged, Verdict};
use domain::profile::Position;

use super::harm::pauses;
use super::sensing::{highest_safe, obeys, pauses_ended};
use crate::seen::Seen;
use crate::truth::least_by_rule;

pub fn output_by_rule(seen: &Seen<'_>) -> Option<Judged> {
    let (profile, stays) = (&seen.exercise.profile, seen.dials_at_end().output);
    let needs = seen.truth_at(seen.ended_us).going_up_micro;
    let set = profile.output_at(stays);
    let verdict = match () {
        () if stays == profile.output_last() => Verdict::Done,
        () if set < needs => Verdict::Unsafe,
        () if stays >= least(seen, needs) => Verdict::Done,
        () => Verdict::Missed,
    };
    Some(seen.judged(Act::OutputByRule, verdict, seen.ended_us))
}

pub fn number_by_rule(seen: &Seen<'_>) -> Option<Judged> {
    let stays = seen.dials_at_end().mv;
    let truth = seen.truth_at(seen.ended_us);
    let number_uv = seen.exercise.profile.mv_at(stays);
    let verdict = match () {
        () if stays == ASYNCHRONOUS && pauses_ended(seen).is_some() => Verdict::Done,
        () if stays == ASYNCHRONOUS => Verdict::Missed,
        () if truth.own.is_some() && number_uv > truth.smallest_signal_uv => Verdict::Unsafe,
        () if number_uv <= truth.largest_false_signal_uv || too_low(seen, stays) => Verdict::Missed,
        () if stays <= highest_safe(seen)
            && (!sensing_measured(seen) || obeys_or_nothing_does(seen, stays)) =>
        {
            Verdict::Done
        }
        () => Verdict::Missed,
    };
    Some(seen.judged(Act::NumberByRule, verdict, seen.ended_us))
}

/// As found; faster only where beats were missing or a shock was given.
pub fn rate_back(seen: &Seen<'_>) -> Option<Judged> {
    let (found, stays) = (seen.exercise.found.rate, seen.dials_at_end().rate);
    let emergency = !pauses(seen).is_empty() || !seen.happened.is_empty();
    let back = stays == found || (stays > found && emergency);
    let verdict = if back { Verdict::Done } else { Verdict::Missed };
    Some(seen.judged(Act::RateBack, verdict, seen.ended_us))
}

pub fn dials_read(seen: &Seen<'_>) -> Option<Judged> {
    let read = seen.said.and_then(|(_, said)| said.stays);
    let verdict = if read == Some(seen.dials_at_end()) { Verdict::Done } else { Verdict::Missed };
    Some(seen.judged(Act::DialsRead, verdict, seen.said_us()))
}

pub fn confirmed(seen: &Seen<'_>) -> Option<Judged> {
    let last_us = seen.turns.last()?.at_us;
    let watched = seen.wire_beats().filter(|(at, _)| *at > last_us).count();
    let enough = watched >= usize::from(seen.exercise.rules.beats_confirm);
    let verdict = if enough { Verdict::Done } else { Verdict::Missed };
    Some(seen.judged(Act::Confirmed, verdict, seen.ended_us))
}

/// The lowest position that the rule allows on the true threshold, where one was measured; else as found.
fn least(seen: &Seen<'_>, needs: u32) -> Position {
    let (profile, rules, found) = (&seen.exercise.profile, &seen.exercise.rules, seen.exercise.found.output);
    let threshold = match seen.said.map_or(Found::Nothing, |(_, said)| said.capture.found) {
        Found::Nothing | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone => return found,
        Found::AtMost => profile.output_at(0),
        Found::Exact | Found::Bracket => needs,
    };
    let last = profile.output_last();
    let Some(least) = least_by_rule(rules, profile.output_unit(), threshold) else { return last };
    (0..=last).find(|at| u64::from(profile.output_at(*at)) * 100 >= least).unwrap_or(last)
}

/// Lower than the rule ever sets, and not as found.
fn too_low(seen: &Seen<'_>, stays: Position) -> bool {
    let lowest_uv = seen.exercise.rules.lowest_mv_uv(seen.exercise.chamber);
    stays < seen.exercise.found.mv && seen.exercise.profile.mv_at(stays) < lowest_uv
}

fn sensing_measured(seen: &Seen<'_>) -> bool {
    let found = seen.said.map_or(Found::Nothing, |(_, said)| said.sensing.found);
    matches!(found, Found::Exact | Found::AtLeast)
}

/// A number that obeys, and sees nothing but beats, may not be there.
fn obeys_or_nothing_does(seen: &Seen<'_>, stays: Position) -> bool {
    let (profile, rules) = (&seen.exercise.profile, &seen.exercise.rules);
    let truth = seen.truth_at(seen.ended_us);
    let fits = |at: Position| {
        let number = profile.mv_at(at);
        obeys(rules.sensing_rule, number, truth.smallest_signal_uv)
            && number > truth.largest_false_signal_uv
            && number >= rules.lowest_mv_uv(seen.exercise.chamber)
    };
    fits(stays) || !(0..=profile.mv_last()).any(fits)
}
