//! Stages 5 to 8: set one dial a card, read the dials, confirm at the restored rate, done.

use super::answer::Answer;
use super::facts::{Dials, Facts, Marks, Why};
use super::guard::Guard;
use super::setup::Setup;
use super::step::Step;
use super::turn::{again, ask, turn, watch};
use super::{capture, conclude, restore};

/// The plan was turned, and read: `Facts::set` when the reading itself is what stands.
pub const AS_READ: u8 = 4;

pub fn answer(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let facts = *facts;
    Some(match (facts.step, answer) {
        (S::SetOutput, Answer::EverySpikeMadeABeat) => {
            let mut next = facts;
            next.held_at(facts.to);
            conclude::rate_card(setup, Facts { set: 1, ..next })
        }
        (S::SetRate, Answer::Fine) => conclude::number_card(setup, Facts { set: 2, ..facts }),
        (S::SetMv, Answer::Fine) => to_reading(setup, Facts { set: 3, ..facts }),
        (S::SetMv | S::Confirm, Answer::BeatNotMarked) => number_misses(setup, facts),
        (S::SetMv, Answer::Pause) => {
            to_reading(setup, Facts { set: 3, marks: facts.marks.and(Marks::PAUSES), ..facts })
        }
        (S::SetOutput | S::SetRate | S::Confirm, Answer::SpikeWithoutABeat) => capture::fails(setup, facts),
        (S::Stays, Answer::AllTrue) => to_reading(setup, facts),
        (S::Restore, Answer::AllTrue) => restored(setup, facts),
        (S::Restore, Answer::SpikeWithoutABeat) => capture::fails(setup, as_listed(setup, facts)),
        (S::ReadBack, Answer::Read(dials)) => compare(setup, facts, dials),
        (S::ReadBack | S::ReadAfter | S::Differs, Answer::No) => ask(facts, S::Reason),
        (S::Reason, Answer::Back) => Facts { step: facts.from, ..facts },
        (S::Differs, Answer::Back) => ask(facts, S::ReadBack),
        (S::Reason, Answer::ReasonAndName) if facts.from == S::Differs => {
            to_confirming(Facts { set: AS_READ, ..facts })
        }
        (S::Reason, Answer::ReasonAndName) => to_confirming(facts),
        (S::ReadAfter, Answer::Read(dials)) => to_confirming(Facts { stand: dials, set: AS_READ, ..facts }),
        (S::Confirm, Answer::Fine) => ask(facts, S::Guarded),
        (S::Guarded, Answer::AllTrue) => ask(facts, S::Done),
        (S::Done, Answer::AllTrue) => ask(facts, S::Ended),
        _ => return None,
    })
}

fn to_reading(setup: &Setup<'_>, facts: Facts) -> Facts {
    if setup.guards.on(Guard::ReadBeforeEnd) { ask(facts, Step::ReadBack) } else { ask(facts, Step::Done) }
}

fn to_confirming(facts: Facts) -> Facts {
    watch(facts, Step::Confirm)
}

/// Every dial of the list stands as listed.
fn as_listed(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.settled();
    for line in restore::lines(setup, &facts, facts.row) {
        next.stand = next.stand.with(line.dial, line.to);
    }
    next
}

fn restored(setup: &Setup<'_>, facts: Facts) -> Facts {
    let next = as_listed(setup, facts);
    to_reading(setup, next)
}

fn compare(setup: &Setup<'_>, facts: Facts, dials: Dials) -> Facts {
    let expected = expected(setup, &facts);
    let next = Facts { stand: dials, ..facts };
    if dials == expected { to_confirming(next) } else { ask(next, Step::Differs) }
}

/// What the reading should say: restore, or the plan as turned; above own where the number is blind.
pub fn expected(setup: &Setup<'_>, facts: &Facts) -> Dials {
    let mut expected = restore::target(setup, facts);
    for line in restore::lines(setup, facts, facts.row) {
        expected = expected.with(line.dial, line.to);
    }
    expected
}

/// The number does not see here: it goes lower by what is known, or somebody is called.
fn number_misses(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.settled();
    next.missed_at(next.stand.mv);
    next.marks = next.marks.and(Marks::DID_NOT_SEE_AS_FOUND);
    next.not_tested(Why::DidNotSee);
    next.set = next.set.min(2);
    let lower = super::target::plan(setup, &next).mv;
    if lower == next.stand.mv {
        return again(to_reading(setup, Facts { marks: next.marks.and(Marks::STILL_BLIND), ..next }));
    }
    turn(next, Step::SetMv, super::facts::Dial::Mv, lower)
}
