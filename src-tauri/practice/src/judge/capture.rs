//! How a loss of capture was sought, and what was done about it.

use domain::check::facts::{ASYNCHRONOUS, Dial};
use domain::practice::{Act, Judged, Reason, Verdict};
use domain::profile::Position;
use simulator::{Origin, SpikeOutcome};

use crate::seen::{Seen, Turn};

/// Own rhythm is shown for so long: the rule for the check.
const SHOWN_WITHIN_US: u64 = 600_000_000;

pub fn own_rhythm_first(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::OwnRhythmFirst;
    let found = seen.exercise.found.output;
    let begins = |turn: &&Turn| turn.is_down_of(Dial::Output) && turn.from >= found && turn.to < found;
    let begun: Vec<&Turn> = seen.turns.iter().filter(begins).collect();
    if let Some(turn) = begun.iter().find(|turn| !own_was_shown(seen, turn.at_us)) {
        return Some(seen.judged(act, Verdict::Unsafe, turn.at_us));
    }
    Some(seen.judged(act, Verdict::Done, begun.first()?.at_us))
}

pub fn output_steps_watched(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::OutputStepsWatched;
    let asked = u16::from(seen.exercise.rules.beats_down);
    let beats = usize::from(asked);
    if let Some(turn) = search(seen).into_iter().find(|turn| is_too_far(seen, turn)) {
        let reason = Reason::OneTurn { dial: Dial::Output, from: turn.from, to: turn.to };
        return Some(seen.judged(act, Verdict::Missed, turn.at_us).because(reason));
    }
    let pairs = seen.turns.windows(2).filter(|pair| {
        pair.iter().all(|turn| turn.is_down_of(Dial::Output))
            && seen.paces_faster_than_own(pair[1].before, pair[1].at_us)
    });
    let mut last = None;
    for pair in pairs {
        let (from, until) = (pair[0].at_us, pair[1].began_us);
        let spikes = seen.spikes().filter(|(at, _)| (from..until).contains(at)).count();
        if spikes < beats {
            let seen_so_many = u16::try_from(spikes).unwrap_or(u16::MAX);
            let reason = Reason::Spikes { at: pair[1].from, seen: seen_so_many, asked };
            return Some(seen.judged(act, Verdict::Missed, until).because(reason));
        }
        last = Some(until);
    }
    last.map(|at| seen.judged(act, Verdict::Done, at))
}

/// Turns down while the generator leads, each to where OUTPUT has not stood in that search.
fn search<'a>(seen: &'a Seen<'_>) -> Vec<&'a Turn> {
    let down = seen.turns.iter().filter(|turn| {
        turn.is_down_of(Dial::Output) && seen.paces_faster_than_own(turn.before, turn.began_us)
    });
    let mut lowest = Position::MAX;
    let lower = |turn: &&Turn| {
        let before = lowest;
        lowest = lowest.min(turn.to);
        turn.to < before
    };
    down.filter(lower).collect()
}

/// More than the rule's stride, though the dial has a position between.
fn is_too_far(seen: &Seen<'_>, turn: &Turn) -> bool {
    let output = |at| u64::from(seen.exercise.profile.output_at(at));
    let kept = 100_u64.saturating_sub(seen.exercise.rules.capture_stride_percent.into());
    turn.from - turn.to > 1 && output(turn.to) * 100 < output(turn.from) * kept
}

/// The worst of all losses.
pub fn only_up_after_loss(seen: &Seen<'_>) -> Option<Judged> {
    let lost = seen.spikes().filter(|(at, outcome)| {
        *outcome == SpikeOutcome::BelowThreshold
            && output_turned_last(seen, *at)
            && seen.paces_faster_than_own(seen.dials_at(*at), *at)
    });
    let mut worst: Option<Judged> = None;
    let mut answered_us = 0;
    for (at, _) in lost {
        if at < answered_us {
            continue;
        }
        let judged = after_loss(seen, at);
        answered_us = judged.at_us;
        if worst.is_none_or(|worst| judged.verdict > worst.verdict) {
            worst = Some(judged);
        }
    }
    worst
}

/// A search for loss of capture is under way.
fn output_turned_last(seen: &Seen<'_>, at_us: u64) -> bool {
    let last = seen.turns.iter().rfind(|turn| turn.began_us < at_us);
    last.is_some_and(|turn| turn.dial == Dial::Output)
}

fn after_loss(seen: &Seen<'_>, lost_us: u64) -> Judged {
    let act = Act::OnlyUpAfterLoss;
    let soon_us = u64::from(seen.exercise.rules.after_loss_s) * 1_000_000;
    let at_maximum = seen.dials_at(lost_us).output == seen.exercise.profile.output_last();
    let Some(turn) = seen.next_turn(lost_us) else {
        // A call turns no dial.
        let verdict = if at_maximum { Verdict::Done } else { Verdict::Missed };
        return seen.judged(act, verdict, seen.ended_us);
    };
    let verdict = match turn.dial {
        Dial::Output if !turn.is_up() => Verdict::Unsafe,
        Dial::Rate if at_maximum => Verdict::Done,
        Dial::Mv if at_maximum && turn.to == ASYNCHRONOUS => Verdict::Done,
        Dial::Output if turn.after_us(lost_us) > soon_us => Verdict::Late,
        Dial::Output => Verdict::Done,
        Dial::Rate | Dial::Mv => Verdict::Missed,
    };
    seen.judged_after(act, verdict, turn, lost_us)
}

/// Own beats alone for as long as the rule's hold, within the last ten minutes.
pub fn own_was_shown(seen: &Seen<'_>, at_us: u64) -> bool {
    let hold_us = u64::from(seen.exercise.rules.own_hold_s) * 1_000_000;
    let from_us = at_us.saturating_sub(SHOWN_WITHIN_US);
    let mut since = None;
    for (beat, origin) in seen.wire_beats().filter(|(at, _)| (from_us..at_us).contains(at)) {
        if origin == Origin::Paced {
            since = None;
        } else if beat - *since.get_or_insert(beat) >= hold_us {
            return true;
        }
    }
    false
}
