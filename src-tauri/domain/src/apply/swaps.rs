//! Swaps open, go on, end.

#![allow(clippy::wildcard_enum_match_arm, reason = "the fold above sends only what belongs here")]

use super::wires::due as due_now;
use crate::event::{SwapAnswered, What};
use crate::moment::Moment;
use crate::state::State;
use crate::state::bed::DueNow;
use crate::state::screen::Screen;
use crate::state::swap::{Names, OpenSwap, Outcome};
use crate::swap::answer::Answer;

pub fn happen(state: &mut State, what: &What, at: Moment) {
    match what {
        What::SwapOpened { bed, wire, swap, facts } => {
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.forget_asked();
                found.swap = Some(OpenSwap {
                    id: *swap,
                    opened: at,
                    facts: *facts,
                    before: None,
                    times: Default::default(),
                    last: at,
                    names: Names::default(),
                    new: None,
                    away_ms: 0,
                });
            }
            state.screen = Screen::Swap { bed: *bed, wire: *wire };
        }
        What::SwapAnswered(answered) => answer(state, answered, at),
        What::SwapEnded { .. } => end(state, what, at),
        _ => {}
    }
}

fn answer(state: &mut State, answered: &SwapAnswered, at: Moment) {
    let Some(wire) = state.wire_mut(answered.bed, answered.wire) else { return };
    // A card over the reading, as after a death, leaves what was read.
    if wire.swap.as_ref().is_some_and(|open| open.facts.from != answered.facts.from) {
        wire.forget_asked();
    }
    if let Some(open) = wire.swap.as_mut() {
        open.facts = answered.facts;
        open.before = answered.before;
        open.times = answered.times;
        open.names.clone_from(&answered.names);
        open.new.clone_from(&answered.new);
        open.away_ms = answered.away_ms;
        if !matches!(answered.answer, Answer::Woke(_)) {
            open.last = at;
        }
    }
}

fn end(state: &mut State, what: &What, at: Moment) {
    let What::SwapEnded { bed, wire, record, standing, owed, due, others } = what else { return };
    if let Some(found) = state.wire_mut(*bed, *wire) {
        found.swap = None;
        found.generator.clone_from(&record.to);
        if standing.is_some() {
            found.owed = None;
            found.forget_asked();
        }
        found.another_box |= record.outcome == Outcome::Moved;
        if standing.is_some() || record.from != record.to {
            found.read_since = None;
            found.standing.clone_from(standing);
        }
        if *owed {
            found.owed = found.owed.or(Some(at));
        }
        due_now(found, *due, at);
        found.swaps.push((**record).clone());
    }
    for other in others {
        if let Some(found) = state.wire_mut(*bed, *other) {
            found.owed = found.owed.or(Some(at));
            due_now(found, Some(DueNow::SharedBox), at);
        }
    }
    state.screen = Screen::Bed { bed: *bed };
}
