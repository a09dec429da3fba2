//! Opening cards: one dial to one position, or a question.

use super::facts::{Dial, Facts, Phase};
use super::side::below;
use super::step::Step;
use crate::profile::Position;

/// Asks to turn one dial. Where it stands there already, the watch begins at once.
#[inline]
pub fn turn(facts: Facts, step: Step, dial: Dial, to: Position) -> Facts {
    let mut next = facts.settled();
    next.step = step;
    next.from = below(facts).step;
    next.came_from = next.from;
    next.dial = dial;
    next.to = to;
    next.touched = true;
    let stands = next.stand.at(dial) == to && !next.doubt.has(dial);
    next.phase = if stands { Phase::Watching } else { Phase::Turning };
    next
}

/// A question with no dial to turn and no watch.
#[inline]
pub fn ask(facts: Facts, step: Step) -> Facts {
    let mut next = facts.settled();
    next.step = step;
    next.from = below(facts).step;
    next.came_from = next.from;
    next.phase = Phase::Open;
    next
}

/// A question whose good answer opens after a watch; no dial is turned.
#[inline]
pub fn watch(facts: Facts, step: Step) -> Facts {
    debug_assert!(step.is_watched_question());
    Facts { phase: Phase::Watching, ..ask(facts, step) }
}

/// The same card from the start: the watch begins again, once the dial stands.
pub fn again(facts: Facts) -> Facts {
    if facts.phase == Phase::Turning { facts } else { Facts { phase: Phase::Watching, ..facts } }
}
