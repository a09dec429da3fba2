//! A reading unlike what the check believes. The first one may have been wrong, or somebody may have turned the dial:
//! either way a dial is asked back only to where this check itself has shown it to be safe, or to the safer side.

use super::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Marks, NONE};
use super::guard::Guard;
use super::restore::rule_position;
use super::setup::Setup;
use super::target::{output_by_rule, plan};
use crate::profile::Position;

/// Where the dials are to go from where they stand, each left alone that nothing shown in this check asks back.
pub fn kept(setup: &Setup<'_>, facts: &Facts, target: Dials) -> Dials {
    let left_alone = |dial: &Dial| {
        let is_read = !facts.in_doubt(*dial) && !facts.asks(*dial);
        is_read && stays(setup, facts, *dial, target.at(*dial))
    };
    let stand = |dials: Dials, dial: Dial| dials.with(dial, facts.current(dial));
    Dial::ALL.into_iter().filter(left_alone).fold(target, stand)
}

fn stays(setup: &Setup<'_>, facts: &Facts, dial: Dial, target: Position) -> bool {
    if !setup.guards.on(Guard::ReadingNotUndone) {
        return false;
    }
    match dial {
        Dial::Output => facts.current(dial) > target && !output_may_fall(setup, facts, target),
        Dial::Rate => !rate_may_go_back(setup, facts, target),
        Dial::Mv => number_rises(facts.current(dial), target) && !number_may_rise(setup, facts, target),
    }
}

/// The plan on a threshold of this check; or a card had OUTPUT turned, and every spike made a beat there or lower.
fn output_may_fall(setup: &Setup<'_>, facts: &Facts, to: Position) -> bool {
    let planned = output_by_rule(setup, facts).is_some() && to >= plan(setup, facts).output;
    let shown = facts.turned.has(Dial::Output) && facts.proved != NONE && facts.proved <= to;
    planned || shown
}

/// A card had RATE turned, or an emergency asked for it. Else it goes up alone, and not above the highest test rate:
/// a RATE that was knocked down leaves a patient who needs it paced too slowly.
fn rate_may_go_back(setup: &Setup<'_>, facts: &Facts, to: Position) -> bool {
    let asked = facts.turned.has(Dial::Rate) || facts.emergency_rate != NONE;
    asked || (facts.current(Dial::Rate) < to && setup.is_test_rate(to))
}

/// Asynchronous is asked for by an order, pauses or an emergency, not by a reading.
fn number_rises(from: Position, to: Position) -> bool {
    to != ASYNCHRONOUS && from < to
}

/// Up to the rule on a threshold of this check; or a card had mV turned, and every own beat was marked there or
/// higher. Pauses at a lower number ask it back as well.
fn number_may_rise(setup: &Setup<'_>, facts: &Facts, to: Position) -> bool {
    let by_rule = rule_position(setup, facts).is_some_and(|rule| to <= rule);
    let seen = facts.marks.has(Marks::PAUSES) || (facts.saw != NONE && to <= facts.saw);
    by_rule || (facts.turned.has(Dial::Mv) && seen)
}
