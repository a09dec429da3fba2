//! What was done when something went wrong.

use domain::check::facts::Dial;
use domain::practice::{Act, Happened, Judged, Verdict};
use simulator::{Chamber, Origin, SpikeOutcome, What};

use super::harm::pauses;
use crate::seen::{Seen, Turn};

/// To see it, and to turn one dial.
const SOON_US: u64 = 15_000_000;
/// After so long without beats the check itself calls; so long after that nobody has turned anything.
const NO_BEATS_US: u64 = 4_000_000;
const NO_BEATS_LATE_US: u64 = 10_000_000;
/// A P wave is conducted within this, or blocked.
const CONDUCTED_US: u64 = 400_000;
/// Below this a fall of pressure is not tolerated, mmHg: from memory.
const LOW_MMHG: u16 = 80;

pub fn maximum_where_found_fails(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::MaximumWhereFoundFails;
    let first = seen.turns.first();
    let until_us = first.map_or(seen.ended_us, |turn| turn.began_us);
    let lost =
        |(at, outcome): &(u64, SpikeOutcome)| *at < until_us && *outcome == SpikeOutcome::BelowThreshold;
    if seen.spikes().filter(lost).count() < 2 {
        return None;
    }
    Some(match first {
        Some(turn) => seen.judged(act, to_maximum(seen, turn), turn.at_us),
        None => seen.judged(act, Verdict::Missed, until_us),
    })
}

pub fn block_heeded(seen: &Seen<'_>) -> Option<Judged> {
    let blocked_us = first_block_us(seen)?;
    Some(rate_back_soon(seen, Act::BlockHeeded, blocked_us))
}

pub fn wrong_chamber_heeded(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::WrongChamberHeeded;
    let found = seen.exercise.found.output;
    if seen.first_heart().wire == seen.exercise.port() {
        return None;
    }
    let seeks = |turn: &&Turn| {
        turn.is_down_of(Dial::Output) && turn.to < found && seen.paces_faster_than_own(turn.after, turn.at_us)
    };
    Some(match seen.turns.iter().find(seeks) {
        Some(turn) => seen.judged(act, Verdict::Unsafe, turn.at_us),
        None => seen.judged(act, Verdict::Done, seen.ended_us),
    })
}

pub fn pressure_heeded(seen: &Seen<'_>) -> Option<Judged> {
    let low_us = third_low_us(seen)?;
    Some(rate_back_soon(seen, Act::PressureHeeded, low_us))
}

/// OUTPUT stands at maximum and nothing captures, or no beat comes: the emergency card's, and whoever was called.
pub fn is_with_help(seen: &Seen<'_>, at_us: u64) -> bool {
    let from_us = at_us.saturating_sub(NO_BEATS_US);
    let lost = seen.spikes().rfind(|(at, _)| *at < at_us);
    let lost = lost.is_some_and(|(at, outcome)| at >= from_us && outcome == SpikeOutcome::BelowThreshold);
    let beats = seen.beats(Chamber::Ventricle).any(|(at, _)| (from_us..at_us).contains(&at));
    seen.dials_at(at_us).output == seen.exercise.profile.output_last() && (lost || !beats)
}

/// The worst of all pauses that lasted.
pub fn output_first_in_no_beats(seen: &Seen<'_>) -> Option<Judged> {
    let long = pauses(seen).into_iter().filter(|(_, us)| *us > NO_BEATS_US);
    let judged = long.filter_map(|(from, us)| in_no_beats(seen, from, from + us));
    judged.reduce(|worst, next| if next.verdict > worst.verdict { next } else { worst })
}

pub fn maximum_after_shock(seen: &Seen<'_>) -> Option<Judged> {
    let act = Act::MaximumAfterShock;
    let (shock_us, _) = seen.happened.iter().find(|(_, what)| *what == Happened::Shock)?;
    Some(match seen.next_turn(*shock_us) {
        None => seen.judged(act, Verdict::Missed, seen.ended_us),
        Some(turn) => {
            let verdict = to_maximum(seen, turn);
            let late = verdict == Verdict::Done && turn.after_us(*shock_us) > SOON_US;
            if late {
                return Some(seen.judged_after(act, Verdict::Late, turn, *shock_us));
            }
            seen.judged(act, verdict, turn.at_us)
        }
    })
}

/// In one act; a smaller step up is only a beginning.
fn to_maximum(seen: &Seen<'_>, turn: &Turn) -> Verdict {
    match turn.dial {
        Dial::Output if turn.to == seen.exercise.profile.output_last() => Verdict::Done,
        Dial::Output if turn.is_up() => Verdict::Late,
        Dial::Output | Dial::Rate | Dial::Mv => Verdict::Unsafe,
    }
}

/// RATE down is the next turn, and soon; a search for loss of capture instead is unsafe.
fn rate_back_soon(seen: &Seen<'_>, act: Act, met_us: u64) -> Judged {
    let Some(turn) = seen.next_turn(met_us) else {
        return seen.judged(act, Verdict::Missed, seen.ended_us);
    };
    let verdict = match turn.dial {
        Dial::Rate if turn.is_up() => Verdict::Unsafe,
        Dial::Rate if turn.after_us(met_us) > SOON_US => Verdict::Late,
        Dial::Rate => Verdict::Done,
        Dial::Output if !turn.is_up() => Verdict::Unsafe,
        Dial::Output | Dial::Mv => Verdict::Missed,
    };
    seen.judged_after(act, verdict, turn, met_us)
}

fn in_no_beats(seen: &Seen<'_>, from_us: u64, until_us: u64) -> Option<Judged> {
    let act = Act::OutputFirstInNoBeats;
    let answers = |turn: &&Turn| {
        turn.at_us > from_us && (turn.is_up_of(Dial::Output) || turn.at_us > from_us + NO_BEATS_US)
    };
    let turn = seen.turns.iter().find(answers).filter(|turn| turn.at_us <= until_us + SOON_US);
    let Some(turn) = turn else {
        let endured = until_us - from_us > NO_BEATS_LATE_US;
        return endured.then(|| seen.judged(act, Verdict::Missed, until_us));
    };
    let at_maximum = turn.before.output == seen.exercise.profile.output_last();
    let verdict = match turn.is_up_of(Dial::Output) || at_maximum {
        true if turn.after_us(from_us) > NO_BEATS_LATE_US => Verdict::Late,
        true => Verdict::Done,
        false => Verdict::Unsafe,
    };
    Some(seen.judged_after(act, verdict, turn, from_us))
}

/// A paced P wave without a QRS, at a RATE that was turned up.
fn first_block_us(seen: &Seen<'_>) -> Option<u64> {
    let faster_us = seen.turns.iter().find(|turn| turn.is_up_of(Dial::Rate))?.at_us;
    let qrs: Vec<u64> = seen.beats(Chamber::Ventricle).map(|(at, _)| at).collect();
    let conducted = |p: u64| {
        let next = qrs.partition_point(|at| *at < p);
        qrs.get(next).is_some_and(|at| at - p <= CONDUCTED_US)
    };
    let paced = seen.beats(Chamber::Atrium).filter(|(_, origin)| *origin == Origin::Paced);
    let mut blocked = paced.map(|(at, _)| at).filter(|at| *at > faster_us && !conducted(*at));
    blocked.find(|at| at + CONDUCTED_US < seen.ended_us)
}

/// The third low pulse in a row, at a RATE that was turned up.
fn third_low_us(seen: &Seen<'_>) -> Option<u64> {
    let faster_us = seen.turns.iter().find(|turn| turn.is_up_of(Dial::Rate))?.at_us;
    let mut low = 0;
    for event in seen.events.iter().filter(|event| event.at_us > faster_us) {
        let What::Pulse { systolic_mmhg } = event.what else { continue };
        low = if systolic_mmhg < LOW_MMHG { low + 1 } else { 0 };
        if low == 3 {
            return Some(event.at_us);
        }
    }
    None
}
