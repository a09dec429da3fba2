//! The order of the sensing test, and what a number sees besides beats.

use domain::check::facts::{ASYNCHRONOUS, Dial};
use domain::practice::{Act, Judged, Reason, Verdict};
use domain::profile::Position;
use domain::rules::SensingRule;
use simulator::{MarkKind, Origin, SpikeOutcome, What};

use crate::seen::{Seen, Turn};

/// To see a limit pass, and to turn two dials on the way out.
const WAY_OUT_US: u64 = 20_000_000;
/// Own beats this long ago are present.
const PRESENT_US: u64 = 4_000_000;
const PAUSES_LATE_US: u64 = 180_000_000;

pub fn output_before_number(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::OutputBeforeNumber;
    let raised: Vec<&Turn> = seen.turns.iter().filter(|turn| raises_number(seen, turn)).collect();
    let ready = |turn: &&&Turn| turn.after.output == 0 && seen.own_leads(turn.after, turn.at_us);
    if let Some(turn) = raised.iter().find(|turn| !ready(turn)) {
        return Some(seen.judged(act, Verdict::Unsafe, turn.at_us));
    }
    Some(seen.judged(act, Verdict::Done, raised.first()?.at_us))
}

pub fn spike_at_minimum_heeded(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::SpikeAtMinimumHeeded;
    let at_minimum = |at: u64| seen.dials_at(at).output == 0 && seen.own_leads(seen.dials_at(at), at);
    let captured =
        |(at, outcome): &(u64, SpikeOutcome)| *outcome == SpikeOutcome::Captured && at_minimum(*at);
    let (made_us, _) = seen.spikes().find(captured)?;
    let later = seen
        .turns
        .iter()
        .find(|turn| turn.at_us > made_us && raises_number(seen, turn) && !turn.was_under_way(made_us));
    Some(match later {
        Some(turn) => seen.judged(act, Verdict::Unsafe, turn.at_us),
        None => seen.judged(act, Verdict::Done, made_us),
    })
}

pub fn minimum_kept_short(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::MinimumKeptShort;
    let down = seen.turns.iter().filter(|turn| turn.is_down_of(Dial::Output) && turn.to == 0);
    let most_us = u64::from(seen.exercise.rules.minimum_output_s) * 1_000_000 + WAY_OUT_US;
    let stay = |turn: &Turn| {
        let up = seen.turns.iter().find(|next| next.at_us > turn.at_us && next.is_up_of(Dial::Output));
        (up.map_or(seen.ended_us, |up| up.began_us), turn.at_us)
    };
    let stays: Vec<(u64, u64)> = down.map(stay).collect();
    if let Some((until, from)) = stays.iter().find(|(until, from)| until - from > most_us) {
        return Some(seen.judged(act, Verdict::Late, *until).because(Reason::after(until - from)));
    }
    Some(seen.judged(act, Verdict::Done, stays.first()?.0))
}

pub fn number_before_output(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::NumberBeforeOutput;
    let out = |turn: &&Turn| turn.is_up_of(Dial::Output) && turn.from == 0 && was_raised(seen, turn);
    let turns: Vec<&Turn> = seen.turns.iter().filter(out).collect();
    let blind = |turn: &&&Turn| turn.before.mv > highest_safe(seen) && own_is_present(seen, turn.began_us);
    if let Some(turn) = turns.iter().find(blind) {
        return Some(seen.judged(act, Verdict::Unsafe, turn.at_us));
    }
    Some(seen.judged(act, Verdict::Done, turns.first()?.at_us))
}

/// What is no beat is taken for one, and a pause comes of it.
pub fn pauses_ended(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::PausesEnded;
    let began_us = first_pause_us(seen)?;
    let raised = seen.turns.iter().find(|turn| turn.at_us >= began_us && turn.is_up_of(Dial::Mv));
    Some(match raised {
        Some(turn) if turn.after_us(began_us) > PAUSES_LATE_US => {
            seen.judged_after(act, Verdict::Late, turn, began_us)
        }
        Some(turn) => seen.judged(act, Verdict::Done, turn.at_us),
        None => seen.judged(act, Verdict::Missed, seen.ended_us),
    })
}

/// From when until when the number that was said to be the threshold was tried: the signal may drift on.
pub fn measured_us(seen: &Seen<'_>) -> Option<(u64, u64)> {
    let (said_us, said) = seen.said?;
    let to_number =
        |turn: &&Turn| turn.dial == Dial::Mv && turn.to == said.sensing.at && turn.after.output == 0;
    let from_us = seen.turns.iter().rfind(to_number)?.at_us;
    let next = seen.turns.iter().find(|turn| turn.dial == Dial::Mv && turn.began_us > from_us);
    Some((from_us, next.map_or(said_us, |turn| turn.began_us)))
}

/// The highest number that is safe at full output: the rule's on the true signal, or as found where that sees.
pub fn highest_safe(seen: &Seen<'_>) -> Position {
    let (profile, rules) = (&seen.exercise.profile, &seen.exercise.rules);
    let measured_uv = measured_us(seen).map_or(0, |(from_us, _)| seen.truth_at(from_us).smallest_signal_uv);
    let signal_uv = seen.exercise.truth(seen.seed).smallest_signal_uv.max(measured_uv);
    let by_rule =
        (0..=profile.mv_last()).rfind(|at| obeys(rules.sensing_rule, profile.mv_at(*at), signal_uv));
    let found = seen.exercise.found.mv;
    let found_sees = found != ASYNCHRONOUS && profile.mv_at(found) <= signal_uv;
    by_rule.unwrap_or(0).max(if found_sees { found } else { 0 })
}

/// The unit's rule on a signal, in arithmetic of its own.
pub fn obeys(rule: SensingRule, number_uv: u32, signal_uv: u32) -> bool {
    let (number, signal) = (u64::from(number_uv), u64::from(signal_uv));
    match rule {
        SensingRule::BelowHalf => number + number < signal,
        SensingRule::Half => number + number <= signal,
        SensingRule::HalfLessOne => number + number + 2_000 <= signal,
        SensingRule::OneThird => number + number + number <= signal,
    }
}

/// Above every number that is safe, as only the test asks; a number that ends pauses is no test.
fn raises_number(seen: &Seen<'_>, turn: &Turn) -> bool {
    let ends_pauses = first_pause_us(seen).is_some_and(|began| began <= turn.at_us);
    turn.is_up_of(Dial::Mv) && turn.to != ASYNCHRONOUS && turn.to > highest_safe(seen) && !ends_pauses
}

fn was_raised(seen: &Seen<'_>, before: &Turn) -> bool {
    seen.turns.iter().any(|turn| turn.at_us < before.at_us && turn.is_up_of(Dial::Mv))
}

fn own_is_present(seen: &Seen<'_>, at_us: u64) -> bool {
    let from_us = at_us.saturating_sub(PRESENT_US);
    seen.wire_beats().any(|(at, origin)| origin == Origin::Own && (from_us..at_us).contains(&at))
}

/// The second pause within ten seconds that a mark without a beat has made, at a number set in this run. What
/// the number found sees is a matter for a call, not for a dial.
fn first_pause_us(seen: &Seen<'_>) -> Option<u64> {
    const TOGETHER_US: u64 = 10_000_000;
    let beats: Vec<u64> = seen.wire_beats().map(|(at, _)| at).collect();
    let mut before = None;
    for pair in beats.windows(2) {
        let (from, until) = (pair[0], pair[1]);
        let long = until - from > seen.set_interval_us(seen.dials_at(until)) * 6 / 5;
        let number_set = seen.dials_at(until).mv != seen.exercise.found.mv;
        if long && number_set && marked_without_beat(seen, from, until) {
            if before.is_some_and(|before| until - before < TOGETHER_US) {
                return Some(until);
            }
            before = Some(until);
        }
    }
    None
}

fn marked_without_beat(seen: &Seen<'_>, from_us: u64, until_us: u64) -> bool {
    let first = seen.events.partition_point(|event| event.at_us <= from_us);
    let between = seen.events[first..].iter().take_while(|event| event.at_us < until_us);
    let mut marks = between.filter_map(|event| match event.what {
        What::Mark(mark) => Some(mark.kind),
        What::Beat { .. }
        | What::Spike { .. }
        | What::Pulse { .. }
        | What::NoPulse
        | What::VentricularFibrillation => None,
    });
    marks.any(|kind| kind == MarkKind::Sense)
}
