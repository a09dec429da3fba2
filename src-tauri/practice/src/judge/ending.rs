//! How the dials were left, and whether anybody looked.

use domain::check::facts::{ASYNCHRONOUS, Dial, Found};
use domain::practice::{Act, Judged, Reason, Verdict};
use domain::profile::Position;
use simulator::SpikeOutcome;

use super::harm::pauses;
use super::sensing::{highest_safe, measured_us, obeys, pauses_ended};
use super::trouble::is_with_help;
use crate::seen::Seen;
use crate::truth::{least_by_rule, most_by_rule};

pub fn output_by_rule(seen: &Seen<'_>) -> Option<Judged> {
    let (profile, stays) = (&seen.exercise.profile, seen.dials_at_end().output);
    let needs = seen.truth_at(seen.ended_us).going_up_micro;
    let set = profile.output_at(stays);
    let verdict = match () {
        () if stays > most(seen, needs) && !was_in_trouble(seen) => Verdict::Late,
        () if stays == profile.output_last() => Verdict::Done,
        () if set < needs => Verdict::Unsafe,
        () if stays >= least(seen, needs) => Verdict::Done,
        () => Verdict::Missed,
    };
    let reason = if verdict == Verdict::Late { Reason::AboveRule } else { Reason::BelowRule };
    Some(seen.judged(Act::OutputByRule, verdict, seen.ended_us).because(reason))
}

pub fn number_by_rule(seen: &Seen<'_>) -> Option<Judged> {
    let stays = seen.dials_at_end().mv;
    let truth = seen.truth_at(seen.ended_us);
    let number_uv = seen.exercise.profile.mv_at(stays);
    let verdict = match () {
        () if stays == ASYNCHRONOUS && pauses_ended(seen).is_some() => Verdict::Done,
        () if stays == ASYNCHRONOUS && was_set_for_a_loss(seen) => Verdict::Done,
        () if stays == ASYNCHRONOUS => Verdict::Missed,
        () if truth.own.is_some() && number_uv > truth.smallest_signal_uv => {
            if is_left_to_the_call(seen, stays) { Verdict::Done } else { Verdict::Unsafe }
        }
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

/// The emergency card's asynchronous, where nothing captured.
fn was_set_for_a_loss(seen: &Seen<'_>) -> bool {
    let set = seen.turns.iter().rfind(|turn| turn.dial == Dial::Mv && turn.to == ASYNCHRONOUS);
    set.is_some_and(|turn| is_with_help(seen, turn.began_us))
}

/// Blind, and the check knows no better: paced above own, and called. Either the unit's rule has no number that sees,
/// or the one to try was tried: its starting number, or one position where it was found lower.
fn is_left_to_the_call(seen: &Seen<'_>, stays: Position) -> bool {
    let (profile, rules, found) = (&seen.exercise.profile, &seen.exercise.rules, seen.exercise.found.mv);
    let least_uv = rules.lowest_mv_uv(seen.exercise.chamber);
    let signal_uv = seen.truth_at(seen.ended_us).smallest_signal_uv;
    let none_sees = !(0..=profile.mv_last()).any(|at| (least_uv..=signal_uv).contains(&profile.mv_at(at)));
    let starting_uv = rules.starting_mv_uv(seen.exercise.chamber);
    let tried = stays < found && (found == ASYNCHRONOUS || profile.mv_at(stays) <= starting_uv);
    let paced = seen.paces_faster_than_own(seen.dials_at_end(), seen.ended_us);
    paced && stays <= found && (tried || none_sees)
}

/// As found; faster only where beats were missing or a shock was given.
pub fn rate_back(seen: &Seen<'_>) -> Option<Judged> {
    let (found, stays) = (seen.exercise.found.rate, seen.dials_at_end().rate);
    let emergency =
        !pauses(seen).is_empty() || !seen.happened.is_empty() || is_with_help(seen, seen.ended_us);
    let back = stays == found || (stays > found && emergency);
    let verdict = if back { Verdict::Done } else { Verdict::Missed };
    Some(seen.judged(Act::RateBack, verdict, seen.ended_us))
}

pub fn dials_read(seen: &Seen<'_>) -> Option<Judged> {
    let read = seen.said.and_then(|(_, said)| said.stays);
    // The check was handed over: help turns the dials now.
    if read.is_none() && is_with_help(seen, seen.ended_us) {
        return None;
    }
    let verdict = if read == Some(seen.dials_at_end()) { Verdict::Done } else { Verdict::Missed };
    Some(seen.judged(Act::DialsRead, verdict, seen.said_us()))
}

pub fn confirmed(seen: &Seen<'_>) -> Option<Judged> {
    if is_with_help(seen, seen.ended_us) {
        return None;
    }
    let last_us = seen.turns.last()?.at_us;
    let watched = seen.wire_beats().filter(|(at, _)| *at > last_us).count();
    let asked = u16::from(seen.exercise.rules.beats_confirm);
    let enough = watched >= usize::from(asked);
    let verdict = if enough { Verdict::Done } else { Verdict::Missed };
    let reason = Reason::Beats { seen: u16::try_from(watched).unwrap_or(u16::MAX), asked };
    Some(seen.judged(Act::Confirmed, verdict, seen.ended_us).because(reason))
}

/// The lowest position that the rule allows on the true threshold, where one was measured; else as found.
fn least(seen: &Seen<'_>, needs: u32) -> Position {
    let (profile, rules) = (&seen.exercise.profile, &seen.exercise.rules);
    let Some(threshold) = measured(seen, needs) else { return seen.exercise.found.output };
    let last = profile.output_last();
    let Some(least) = least_by_rule(rules, profile.output_unit(), threshold) else { return last };
    at_or_above(seen, least).unwrap_or(last)
}

/// The highest position that the rule asks for on the threshold as the dial came to it; else as found. Where no
/// position fits it is the last.
fn most(seen: &Seen<'_>, needs: u32) -> Position {
    let (profile, rules) = (&seen.exercise.profile, &seen.exercise.rules);
    let last = profile.output_last();
    let said = seen.said.map_or(needs, |(_, said)| profile.output_at(said.capture.at.min(last)));
    let Some(threshold) = measured(seen, said.max(needs)) else { return seen.exercise.found.output };
    let Some(least) = least_by_rule(rules, profile.output_unit(), threshold) else { return last };
    let most = most_by_rule(rules, threshold, least);
    let within = (0..=last).rfind(|at| u64::from(profile.output_at(*at)) * 100 <= most);
    within.unwrap_or(0).max(at_or_above(seen, least).unwrap_or(last))
}

/// The threshold to go by; `None` where nobody says that one was measured.
fn measured(seen: &Seen<'_>, threshold: u32) -> Option<u32> {
    match seen.said.map_or(Found::Nothing, |(_, said)| said.capture.found) {
        Found::Nothing | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone => None,
        // Nobody went below the lowest position, nor up to it from a loss.
        Found::AtMost => {
            let held = seen.truth_at(seen.ended_us).going_down_micro;
            Some(seen.exercise.profile.output_at(0).max(held))
        }
        Found::Exact | Found::Bracket => Some(threshold),
    }
}

fn at_or_above(seen: &Seen<'_>, hundredths: u64) -> Option<Position> {
    let profile = &seen.exercise.profile;
    (0..=profile.output_last()).find(|at| u64::from(profile.output_at(*at)) * 100 >= hundredths)
}

/// Then a higher OUTPUT is what the card asks.
fn was_in_trouble(seen: &Seen<'_>) -> bool {
    let last_us = seen.spikes().next_back().map(|(at, _)| at);
    let failed = |at: u64| last_us == Some(at) || seen.dials_at(at).output >= seen.exercise.found.output;
    let lost = |(at, outcome): (u64, SpikeOutcome)| outcome == SpikeOutcome::BelowThreshold && failed(at);
    !pauses(seen).is_empty() || !seen.happened.is_empty() || seen.spikes().any(lost)
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
    // As it was measured: what it has drifted since nobody has seen.
    let measured = measured_us(seen).map(|(from_us, _)| seen.truth_at(from_us).smallest_signal_uv);
    let signal_uv = measured.unwrap_or(0).max(truth.smallest_signal_uv);
    let fits = |at: Position| {
        let number = profile.mv_at(at);
        obeys(rules.sensing_rule, number, signal_uv)
            && number > truth.largest_false_signal_uv
            && number >= rules.lowest_mv_uv(seen.exercise.chamber)
    };
    fits(stays) || !(0..=profile.mv_last()).any(fits)
}
