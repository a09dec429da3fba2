//! NO BEATS, the emergency card, fibrillation, a shock: OUTPUT first, and local emergency rules.

use super::answer::Answer;
use super::facts::{Asynchronous, Dial, Doubt, Facts, Known, Marks, Row, Turned, Why};
use super::guard::Guard;
use super::restore;
use super::setup::Setup;
use super::step::{Stage, Step};
use super::turn::{ask, turn};
use crate::profile::Position;

pub fn answer(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let facts = *facts;
    Some(match (facts.step, answer) {
        (S::NoBeats, Answer::BeatsAgain) => beats_again(facts),
        (S::NoBeats, Answer::SpikesWithoutBeats) => spikes_without_beats(setup, facts),
        (S::NoBeats, Answer::NoSpikesCame) => no_spikes(setup, facts),
        (S::NoSpikes, Answer::SpikesWithoutBeats | Answer::NoSpikesCame) => emergency(setup, facts),
        (S::OwnDown | S::OwnHold | S::SenseRate, Answer::NotTolerated) => not_tolerated(setup, facts),
        // Before the first reading nobody may have said yet whose wire it is.
        (S::Emergency | S::Arrest, Answer::BeatsAgain) if setup.history && !facts.dials_read() => {
            ask(facts, S::SamePatient)
        }
        (S::NoSpikes | S::Emergency | S::Arrest, Answer::BeatsAgain) => ask(facts, S::ReadAfter),
        (S::Emergency, Answer::FastWide) => arrest(facts),
        (S::Arrest, Answer::ShockGiven) => after_shock(setup, facts),
        (S::AfterShock, Answer::Fine) => {
            let mut next = facts;
            next.held_at(facts.to);
            restore::open_row(next.settled(), Row::AfterShock)
        }
        (S::AfterShock, Answer::SpikeWithoutABeat) => {
            let mut next = facts.settled();
            next.lost_at(next.stand.output);
            emergency(setup, next)
        }
        _ => return None,
    })
}

/// The first act is OUTPUT: to restore if it was seen to capture in this check and stands lower now,
/// else to maximum. Where it was last said to stand above restore it is never turned down: nothing
/// captures there.
/// It ends the search and clears the evidence for an own rhythm.
pub fn no_beats(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = over(facts, Why::NoBeats, no_beats_mark(&facts));
    if !facts.dials_read() {
        return emergency(setup, next);
    }
    if !setup.guards.on(Guard::OutputFirstAfterNoBeats) {
        return restore::open_row(next, Row::AfterNoBeats);
    }
    next.no_beats = true;
    let restore_output = restore::target(setup, &next).output;
    let above = facts.highest_output() > restore_output;
    let lower_now = facts.lowest_output() < restore_output && !above;
    let seen = next.found_captures == Known::Yes || next.proved == restore_output;
    let to = if seen && lower_now { restore_output } else { setup.maximum() };
    output_to(next, to)
}

fn no_beats_mark(facts: &Facts) -> Marks {
    if facts.step.stage() != Some(Stage::Confirm) {
        return Marks::NO_BEATS;
    }
    let again = facts.marks.has(Marks::NO_BEATS_IN_LAST_LOOK);
    let mark = if again { Marks::NO_BEATS_AGAIN } else { Marks::NO_BEATS_IN_LAST_LOOK };
    Marks::NO_BEATS.and(mark)
}

fn output_to(facts: Facts, to: u8) -> Facts {
    turn(Facts { emergency_output: to, ..facts }, Step::NoBeats, Dial::Output, to)
}

fn over(facts: Facts, why: Why, mark: Marks) -> Facts {
    let mut next = facts;
    next.clear_own();
    next.not_tested(why);
    next.marks = next.marks.and(mark);
    next
}

/// Said before OUTPUT stands, it is the first line of the list.
fn beats_again(facts: Facts) -> Facts {
    let mut next = facts.broken_off();
    next.loss_open = false;
    restore::open_row(next, Row::AfterNoBeats)
}

fn spikes_without_beats(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.settled();
    next.lost_at(next.stand.output);
    if next.stand.output == setup.maximum() {
        emergency(setup, next)
    } else {
        output_to(next, setup.maximum())
    }
}

/// No spikes: call, maximum, asynchronous (or the highest number), RATE, connections.
fn no_spikes(setup: &Setup<'_>, facts: Facts) -> Facts {
    Facts { step: Step::NoSpikes, ..emergency(setup, facts) }
}

/// Call, local emergency rules, OUTPUT maximum, asynchronous, RATE, connections. Where asynchronous is asked for, RATE
/// is not asked down: own beats may be there.
pub fn emergency(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = over(facts.settled(), Why::NoCaptureAtMaximum, Marks::EMERGENCY);
    if next.lost == setup.maximum() {
        next.marks = next.marks.and(Marks::NO_CAPTURE_AT_MAXIMUM);
    }
    next.asynchronous = Asynchronous::SetInEmergency;
    next.emergency_output = setup.maximum();
    next.emergency_rate = emergency_rate(setup, &next);
    next.touched = true;
    next.turned = Turned::ALL;
    next.doubt = Doubt::ALL;
    next.set = 0;
    ask(next, Step::Emergency)
}

/// The unit's, found, or where RATE may stand now: the highest of them.
fn emergency_rate(setup: &Setup<'_>, facts: &Facts) -> Position {
    let unit = setup.emergency_rate();
    if !facts.dials_read() {
        return unit;
    }
    let stands = if setup.guards.on(Guard::RateKeptWhileAsynchronous) { facts.stand.rate } else { 0 };
    unit.max(facts.back_to.rate).max(stands)
}

/// Fibrillation, or no pulse with spikes: no dial. Call, CPR and shock by local rules.
pub fn arrest(facts: Facts) -> Facts {
    let next = over(facts, Why::Fibrillation, Marks::EMERGENCY.and(Marks::FIBRILLATION));
    Facts { touched: true, doubt: Doubt::ALL, ..ask(next, Step::Arrest) }
}

/// After an external shock: OUTPUT to maximum, not the old setting. What captured before it is worth
/// nothing: the threshold may have risen six-fold (SHOCK).
pub fn after_shock(setup: &Setup<'_>, facts: Facts) -> Facts {
    let next = over(facts, Why::Shock, Marks::SHOCK);
    if !next.dials_read() {
        return emergency(setup, next);
    }
    let mut next = Facts { emergency_output: setup.maximum(), set: 0, ..next };
    next.forget_capture(Why::Shock);
    // A number raised by the search goes down with it: one list, no watch between.
    let number = restore::target(setup, &next).mv;
    let may_be_higher = next.highest_number() > number || next.in_doubt(Dial::Mv);
    if may_be_higher && number != setup.blindest() {
        return restore::open_row(next, Row::AfterShock);
    }
    turn(next, Step::AfterShock, Dial::Output, setup.maximum())
}

/// Not tolerated, low pressure: the way back for the card it happened on.
pub fn not_tolerated(setup: &Setup<'_>, facts: Facts) -> Facts {
    let next = over(facts, Why::NotTolerated, Marks::NOT_TOLERATED);
    restore::open(setup, next)
}
