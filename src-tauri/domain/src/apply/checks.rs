//! Checks open, go on, end.

#![allow(clippy::wildcard_enum_match_arm, reason = "the fold above sends only what belongs here")]

use uuid::Uuid;

use crate::check::answer::Answer;
use crate::check::facts::Facts;
use crate::event::{Answered, What};
use crate::moment::Moment;
use crate::practice::PRACTICE_BED;
use crate::record::Record;
use crate::state::State;
use crate::state::bed::{DueNow, OpenCheck, Origin, Wire};
use crate::state::screen::Screen;

pub fn happen(state: &mut State, what: &What, at: Moment) {
    match what {
        What::CheckOpened { bed, wire, check, facts } => {
            let open = opened(state, *bed, *check, *facts, at);
            if let Some(found) = state.checked_wire_mut(*bed, *wire) {
                found.check = Some(open);
            }
            state.screen = if *bed == PRACTICE_BED {
                Screen::Practising
            } else {
                Screen::Check { bed: *bed, wire: *wire }
            };
        }
        What::Answered(answered) => answer(state, answered, at),
        What::CheckEnded { bed, wire, record, due } => {
            if let Some(found) = state.checked_wire_mut(*bed, *wire) {
                end(found, record, *due, at);
            }
            if *bed != PRACTICE_BED {
                state.screen = Screen::Result { bed: *bed, wire: *wire, back: 0 };
            }
        }
        What::CheckLeft { bed, wire, .. } => {
            if let Some(found) = state.checked_wire_mut(*bed, *wire) {
                found.check = None;
                if found.due_now.is_none() && found.records.is_empty() {
                    found.due_now = Some(DueNow::NotFinished);
                }
            }
            if *bed != PRACTICE_BED {
                state.screen = Screen::Bed { bed: *bed };
            }
        }
        What::AskedAgain { bed, wire, dials } => {
            if let Some(check) = state.checked_wire_mut(*bed, *wire).and_then(|w| w.check.as_mut()) {
                check.asked_before = check.asked_again.replace(*dials);
            }
        }
        _ => {}
    }
}

/// The rules of this moment are the check's to its end; those of an exercise are its own.
fn opened(state: &State, bed: u32, id: Uuid, facts: Facts, at: Moment) -> OpenCheck {
    let staged = state.practice.as_ref().filter(|_| bed == PRACTICE_BED).map(|open| &open.staged);
    OpenCheck {
        rules: staged.map_or_else(|| Box::new(state.rules.clone()), |staged| staged.rules.clone()),
        rules_hash: staged.map_or_else(|| state.rules_hash().to_owned(), |staged| staged.rules.id.clone()),
        origin: if staged.is_some() { Origin::Practice } else { Origin::Care },
        ..OpenCheck::new(id, facts, at)
    }
}

fn answer(state: &mut State, answered: &Answered, at: Moment) {
    if let Some(check) = state.checked_wire_mut(answered.bed, answered.wire).and_then(|w| w.check.as_mut()) {
        if answered.facts.step != check.facts.step {
            (check.asked_again, check.asked_before) = (None, None);
        }
        check.facts = answered.facts;
        check.before = answered.before;
        check.times = answered.times;
        check.names = answered.names.clone();
        if !matches!(answered.answer, Answer::Woke(_)) {
            check.last = at;
        }
        check.answers += 1;
        check.away_ms = answered.away_ms;
    }
}

fn end(wire: &mut Wire, record: &Record, due: Option<DueNow>, at: Moment) {
    wire.check = None;
    wire.due_since = due.map(|why| if wire.due_now == Some(why) { wire.due_since.unwrap_or(at) } else { at });
    wire.due_now = due;
    wire.owed = (!record.read).then_some(at);
    wire.standing = None;
    wire.read_since = None;
    wire.forget_asked();
    wire.another_box = false;
    wire.records.push(record.clone());
}
