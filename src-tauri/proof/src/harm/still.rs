//! Time without beats: nobody is left so for more than four seconds, but with a heart that brings none in time by
//! itself; then OUTPUT up must be the next act.

use observer::{Dial, Reading};
use simulator::{AtrialRhythm, Chamber, Lead, Truth};

use super::{Harm, is_at_maximum};
use crate::bystander::{ACT_US, Gap, LONGEST_GAP_US, Turn};
use crate::case::Case;
use crate::played::Played;
use crate::shift::Mishap;

pub fn harms(case: &Case, played: &Played) -> Vec<Harm> {
    let gaps = || played.bystander.gaps.iter().filter(|gap| !gap.fibrillating);
    let too_long = gaps().filter(|gap| is_too_long(case, gap)).cloned().map(Harm::WithoutBeats);
    let order = gaps().filter(|gap| is_output_late(case, gap)).cloned().map(Harm::OutputNotFirst);
    let not_restored = gaps().filter(|gap| is_not_restored(case, played, gap));
    too_long.chain(order).chain(not_restored.cloned().map(Harm::NotRestored)).collect()
}

fn is_too_long(case: &Case, gap: &Gap) -> bool {
    // A heart that never beats by itself has its beats from the act that turns OUTPUT up.
    let alone_us = longest_alone_us(case).unwrap_or(0);
    let acts = acts_us(case) + act_after_shock_us(case);
    let bound = if may_stand_still(case) { alone_us.max(LONGEST_GAP_US) + acts } else { LONGEST_GAP_US };
    // Nor does the check bring the beats in a gap that it came to, nor any dial where no output captures.
    gap.us > bound && gap.unseen_us == 0 && !is_helpless(case)
}

fn is_output_late(case: &Case, gap: &Gap) -> bool {
    gap.then.as_ref().is_some_and(|turn| !is_output_up(case, turn) && !is_at_maximum(case, &turn.to))
}

/// Nobody turned OUTPUT up within the time of one act, and it stood neither at its maximum nor where NO BEATS asks.
fn is_not_restored(case: &Case, played: &Played, gap: &Gap) -> bool {
    let until_us = LONGEST_GAP_US.max(gap.unseen_us) + acts_us(case);
    if gap.us <= until_us || !may_stand_still(case) {
        return false;
    }
    let within = gap.from.at_us..=gap.from.at_us + until_us;
    let mut stood = &gap.from.dials;
    let asked = |at_us: &u64| within.contains(at_us);
    let mut raised = is_at_maximum(case, stood) || played.bystander.stood.iter().any(asked);
    for (_, to) in played.bystander.turns.iter().filter(|(at_us, _)| within.contains(at_us)) {
        raised |= output(case, to) > output(case, stood);
        stood = to;
    }
    !raised
}

fn is_output_up(case: &Case, turn: &Turn) -> bool {
    turn.dial == Dial::Output && output(case, &turn.to) > output(case, &turn.from)
}

fn output(case: &Case, reading: &Reading) -> Option<u32> {
    case.profile.read_output(&reading.output).ok().map(|at| case.profile.output_at(at))
}

/// Where noise holds the spikes, OUTPUT alone brings no beat: asynchronous is one act more.
fn acts_us(case: &Case) -> u64 {
    if case.heart.noise.is_some() { 2 * ACT_US } else { ACT_US }
}

/// Where a shock has raised the threshold, the OUTPUT that captured before it is too low: the maximum is one act more.
fn act_after_shock_us(case: &Case) -> u64 {
    let shock = case.shift.happens.is_some_and(|happens| happens.what == Mishap::Shock);
    if shock { ACT_US } else { 0 }
}

/// The highest output does not capture, the lead lets go, or no P wave of this wire comes to the ventricle.
fn is_helpless(case: &Case) -> bool {
    let highest = case.profile.output_at(case.profile.output_last());
    let heart = case.heart_in_the_end();
    let truth = Truth::of(&heart, case.profile.pulse_width_us);
    highest < truth.going_up_micro || heart.lead != Lead::Sound || is_out_of_reach(case)
}

fn is_out_of_reach(case: &Case) -> bool {
    let heart = &case.heart;
    let conducts = heart.conduction.is_some() && !matches!(heart.atrium, AtrialRhythm::Fibrillating { .. });
    heart.wire == Chamber::Atrium && !conducts
}

/// The heart brings no beat in time: then four seconds may pass.
fn may_stand_still(case: &Case) -> bool {
    case.heart.standstill.is_some() || longest_alone_us(case).is_none_or(|alone_us| alone_us > LONGEST_GAP_US)
}

/// How long this heart can be without a beat of its own, µs. `None`: for ever.
fn longest_alone_us(case: &Case) -> Option<u64> {
    // A ventricle that stops by itself answers a ventricular wire, but no P wave.
    let standstill = case.heart.standstill.filter(|_| case.heart.wire == Chamber::Atrium);
    let stops_us = standstill.map_or(0, |standstill| u64::from(standstill.lasts_us));
    own_interval_us(case).map(|us| us + stops_us)
}

/// Between own beats, at most; standstill not counted.
fn own_interval_us(case: &Case) -> Option<u64> {
    /// Of the slowest own rhythm drawn, and a P wave that is blocked.
    const CONDUCTED_US: u64 = 2_000_000;
    let heart = &case.heart;
    if let Some(escape) = heart.escape {
        let slept = escape.suppression.map_or(0, |habit| habit.longest_us);
        return Some(u64::from(escape.interval_us) + u64::from(escape.scatter_us) + u64::from(slept));
    }
    if let (AtrialRhythm::Recorded(recording), Chamber::Ventricle) = (&heart.atrium, heart.wire) {
        return Some(recording.slowest_us());
    }
    let conducted = heart.conduction.is_some() && heart.atrium != AtrialRhythm::Silent;
    conducted.then_some(CONDUCTED_US)
}
