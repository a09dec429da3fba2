//! The margin check: half the restore output for three beats, only where the unit switched it on.

use super::answer::Answer;
use super::facts::{Dial, Facts, Known, Own};
use super::setup::Setup;
use super::step::Step;
use super::turn::turn;
use super::{capture, conclude, restore};
use crate::plan::margin_position;

pub fn answer(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let facts = *facts;
    Some(match (facts.step, answer) {
        (S::MarginAsk, Answer::Yes) => one_down(setup, facts),
        (S::MarginAsk, Answer::No) => conclude::restore_or_stay(setup, facts),
        (S::MarginOne, Answer::EverySpikeMadeABeat) => half(setup, facts),
        (S::MarginHalf, Answer::EverySpikeMadeABeat) => back(setup, facts),
        (S::MarginBack, Answer::EverySpikeMadeABeat) => {
            let mut next = facts;
            next.held_at(facts.to);
            conclude::restore_or_stay(setup, next.settled())
        }
        (S::MarginOne | S::MarginHalf | S::MarginBack, Answer::SpikeWithoutABeat) => {
            capture::fails(setup, facts)
        }
        _ => return None,
    })
}

/// No own rhythm, the unit's rule on, and an output that captures with room below it.
pub fn is_possible(setup: &Setup<'_>, facts: &Facts) -> bool {
    let restore = restore::target(setup, facts);
    let room = margin_position(setup.profile, restore.output) < restore.output;
    setup.rules.margin_check && facts.own == Own::NotSeen && facts.found_captures == Known::Yes && room
}

fn one_down(setup: &Setup<'_>, facts: Facts) -> Facts {
    let output = restore::target(setup, &facts).output;
    turn(facts, Step::MarginOne, Dial::Output, output.saturating_sub(1))
}

fn half(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts;
    next.held_at(facts.to);
    let restore_output = restore::target(setup, &facts).output;
    let half = margin_position(setup.profile, restore_output).min(next.to);
    turn(next, Step::MarginHalf, Dial::Output, half)
}

fn back(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts;
    next.held_at(facts.to);
    next.held_down = facts.to;
    let output = restore::target(setup, &next).output;
    turn(next, Step::MarginBack, Dial::Output, output)
}
