//! How own rhythm was looked for.

use domain::check::facts::{ASYNCHRONOUS, Dial};
use domain::practice::{Act, Judged, Reason, Verdict, whole_seconds};
use simulator::{Origin, SpikeOutcome};

use super::capture::own_was_shown;
use crate::seen::{Seen, Turn};

/// Beats this long ago still say whether the heart or the generator leads.
const LOOK_BACK_US: u64 = 10_000_000;
/// A blind generator is put right within this.
const BLIND_LATE_US: u64 = 30_000_000;

pub fn out_of_asynchronous(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::OutOfAsynchronous;
    if seen.exercise.found.mv != ASYNCHRONOUS {
        return None;
    }
    let lowered = |turn: &&Turn| turn.is_down_of(Dial::Rate) && turn.before.mv == ASYNCHRONOUS;
    if let Some(turn) = seen.turns.iter().find(lowered) {
        return Some(seen.judged(act, Verdict::Unsafe, turn.at_us));
    }
    let out = seen.turns.iter().find(|turn| turn.is_down_of(Dial::Mv));
    Some(match out {
        Some(turn) => seen.judged(act, Verdict::Done, turn.at_us),
        None => seen.judged(act, Verdict::Missed, seen.ended_us),
    })
}

pub fn rate_steps_watched(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::RateStepsWatched;
    let steps = search(seen);
    let wrong = |turn: &&Turn| Some((turn.at_us, too_far(seen, turn).or_else(|| too_soon(seen, turn))?));
    if let Some((at_us, reason)) = steps.iter().find_map(wrong) {
        return Some(seen.judged(act, Verdict::Missed, at_us).because(reason));
    }
    if let Some(last) = steps.last().filter(|last| ended_somewhere(seen, last)) {
        return Some(seen.judged(act, Verdict::Done, last.at_us));
    }
    let asked = found_above_limit(seen) && found_paces(seen) && !cut_short(seen);
    asked.then(|| seen.judged(act, Verdict::Missed, seen.ended_us))
}

pub fn rate_limit_kept(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::RateLimitKept;
    let profile = &seen.exercise.profile;
    let lowest = limit(seen).min(seen.exercise.found.rate);
    let below = |turn: &&Turn| turn.dial == Dial::Rate && turn.to < lowest && was_paced(seen, turn.at_us);
    if let Some(turn) = seen.turns.iter().find(below) {
        return Some(seen.judged(act, Verdict::Unsafe, turn.at_us));
    }
    let slowest = seen.turns.iter().filter(|turn| turn.is_down_of(Dial::Rate));
    let slowest = slowest.min_by_key(|turn| profile.rate_at(turn.to))?;
    Some(seen.judged(act, Verdict::Done, slowest.at_us))
}

pub fn blind_put_right(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::BlindPutRight;
    let met_us = blind_us(seen)?;
    let Some(turn) = seen.next_turn(met_us) else {
        return Some(seen.judged(act, Verdict::Missed, seen.ended_us));
    };
    let right = turn.is_up_of(Dial::Rate) || turn.is_down_of(Dial::Mv);
    let worse = turn.is_down_of(Dial::Rate) || turn.is_up_of(Dial::Mv) || turn.is_up_of(Dial::Output);
    let verdict = match (right, worse) {
        (true, _) if turn.after_us(met_us) > BLIND_LATE_US => Verdict::Late,
        (true, _) => Verdict::Done,
        (false, true) => Verdict::Unsafe,
        (false, false) => Verdict::Missed,
    };
    Some(seen.judged_after(act, verdict, turn, met_us))
}

/// The third own beat that the number found cannot see, once RATE stands below them.
fn blind_us(seen: &Seen<'_>) -> Option<u64> {
    let (profile, found) = (&seen.exercise.profile, seen.exercise.found);
    let own_uv = seen.exercise.truth(seen.seed).smallest_signal_uv;
    let blind = found.mv != ASYNCHRONOUS && profile.mv_at(found.mv) > own_uv;
    let leads = |at: u64| seen.own_leads(seen.dials_at(at), at);
    let own = seen.wire_beats().filter(|(at, origin)| *origin == Origin::Own && leads(*at));
    let third = own.map(|(at, _)| at).nth(2)?;
    (blind && seen.dials_at(third).mv == found.mv).then_some(third)
}

/// Steps down while the generator leads, before OUTPUT is turned down. Back from a test rate to the found one is none:
/// where neither number nor OUTPUT can be tested, nothing else lies between.
fn search<'a>(seen: &'a Seen<'_>) -> Vec<&'a Turn> {
    let tested = seen.turns.iter().position(|turn| turn.is_down_of(Dial::Output));
    let before = &seen.turns[..tested.unwrap_or(seen.turns.len())];
    let found = seen.exercise.found.rate;
    let down = before.iter().filter(|turn| turn.is_down_of(Dial::Rate) && turn.to < found);
    down.filter(|turn| was_paced(seen, turn.at_us)).collect()
}

/// More than the rule's step, though the dial has a position between.
fn too_far(seen: &Seen<'_>, turn: &Turn) -> Option<Reason> {
    let rate = |at| seen.exercise.profile.rate_at(at);
    let step = rate(turn.from).saturating_sub(rate(turn.to));
    let far = step > seen.exercise.rules.own_step && turn.from - turn.to > 1;
    far.then_some(Reason::OneTurn { dial: Dial::Rate, from: turn.from, to: turn.to })
}

/// The position before was left sooner than the rule's watch. A first step waits for nothing.
fn too_soon(seen: &Seen<'_>, turn: &Turn) -> Option<Reason> {
    let before = seen.turns.iter().rfind(|other| other.at_us < turn.at_us && other.dial == Dial::Rate);
    let before = before.filter(|before| before.is_down_of(Dial::Rate))?;
    let (asked, watched_us) = (seen.exercise.rules.own_watch_s, turn.began_us - before.at_us);
    let soon = watched_us < u64::from(asked) * 1_000_000;
    soon.then_some(Reason::Watched { at: turn.from, seconds: whole_seconds(watched_us), asked })
}

/// Own beats came, or the limit was reached, or something broke in.
fn ended_somewhere(seen: &Seen<'_>, last: &Turn) -> bool {
    let own = seen.wire_beats().any(|(at, origin)| at > last.at_us && origin == Origin::Own);
    own || last.to <= limit(seen) || cut_short(seen)
}

fn cut_short(seen: &Seen<'_>) -> bool {
    !seen.happened.is_empty() || !super::harm::pauses(seen).is_empty()
}

fn found_above_limit(seen: &Seen<'_>) -> bool {
    seen.exercise.found.rate > limit(seen)
}

fn found_paces(seen: &Seen<'_>) -> bool {
    let first = seen.turns.first().map_or(seen.ended_us, |turn| turn.began_us);
    let mut before = seen.spikes().filter(|(at, _)| *at < first);
    before.any(|(_, outcome)| outcome == SpikeOutcome::Captured)
}

/// The lowest position at or above the rule's limit.
fn limit(seen: &Seen<'_>) -> domain::profile::Position {
    let profile = &seen.exercise.profile;
    let limit = seen.exercise.rules.own_limit;
    (0..=profile.rate_last()).find(|at| profile.rate_at(*at) >= limit).unwrap_or(profile.rate_last())
}

/// The generator led in the seconds before. Where an own rhythm has been shown, a few paced beats among its own are a
/// disturbance's: noise that the generator sees puts a spike off and lets another through.
fn was_paced(seen: &Seen<'_>, at_us: u64) -> bool {
    let from_us = at_us.saturating_sub(LOOK_BACK_US);
    let before = seen.wire_beats().filter(|(at, _)| (from_us..at_us).contains(at));
    let (paced, own): (Vec<_>, Vec<_>) = before.partition(|(_, origin)| *origin == Origin::Paced);
    let own_leads = own.len() > paced.len() && own_was_shown(seen, at_us);
    !paced.is_empty() && !own_leads
}
