//! From the end of testing to the dials: what is set next, and what is said to stay.

use super::facts::{Dial, Facts, Found, Own, Row, Why};
use super::guard::Guard;
use super::setup::Setup;
use super::step::Step;
use super::target::plan;
use super::turn::{ask, turn};
use super::{margin, restore};
use crate::profile::Position;

/// No test is done, or none further: each dial is restored and said.
pub fn untested(setup: &Setup<'_>, facts: Facts, why: Why) -> Facts {
    let mut next = facts.settled();
    next.not_tested(why);
    restore_or_stay(setup, next)
}

/// RATE is back after a search for own beats: the margin check only by the unit's rule.
pub fn after_own_back(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    if margin::is_possible(setup, &facts) {
        return ask(facts, Step::MarginAsk);
    }
    restore_or_stay(setup, facts)
}

/// Capture is found, refused or skipped, and OUTPUT stands at or above restore or plan.
pub fn capture_over(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    let captured = facts.capture != Found::Nothing;
    let sensed = facts.sensing != Found::Nothing;
    if captured {
        return turn(facts, Step::SetOutput, Dial::Output, plan(setup, &facts).output);
    }
    let below = facts.lowest_output() < restore::target(setup, &facts).output;
    if sensed && below && setup.guards.on(Guard::OutputUpBeforeResult) {
        return turn(facts, Step::CaptureOut, Dial::Output, restore::target(setup, &facts).output);
    }
    if sensed {
        return rate_card(setup, Facts { set: 1, ..facts });
    }
    restore_or_stay(setup, facts)
}

/// OUTPUT stands at maximum and captures there: it stays, and somebody is called.
pub fn at_maximum(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.settled();
    next.not_tested(Why::FoundDoesNotCapture);
    if next.own == Own::Shown {
        next.own = Own::Cleared;
    }
    restore_or_stay(setup, next)
}

pub fn rate_card(setup: &Setup<'_>, facts: Facts) -> Facts {
    rate_back(setup, facts, Step::SetRate, plan(setup, &facts).rate)
}

/// RATE on a card of its own. Read at asynchronous after a slip, the number comes before RATE is lowered: the list
/// has it so.
pub fn rate_back(setup: &Setup<'_>, facts: Facts, step: Step, to: Position) -> Facts {
    let lowers = to < facts.stand.rate;
    if lowers && facts.stands_asynchronous() && setup.guards.on(Guard::RateKeptWhileAsynchronous) {
        return restore_or_stay(setup, facts);
    }
    turn(facts, step, Dial::Rate, to)
}

pub fn number_card(setup: &Setup<'_>, facts: Facts) -> Facts {
    turn(facts, Step::SetMv, Dial::Mv, plan(setup, &facts).mv)
}

/// One card with the dials that differ; where none does, the card that says where each stays.
pub fn restore_or_stay(setup: &Setup<'_>, facts: Facts) -> Facts {
    let row = restore::row(setup, &facts);
    let row = if row == Row::NothingTurned { Row::Set } else { row };
    if !restore::lines(setup, &facts, row).is_empty() {
        return restore::open_row(facts, row);
    }
    if setup.guards.on(Guard::StaysSaid) { ask(facts, Step::Stays) } else { ask(facts, Step::ReadBack) }
}
