//! What befalls a wire between two checks.

#![allow(clippy::wildcard_enum_match_arm, reason = "the fold above sends only what belongs here")]

use crate::event::What;
use crate::moment::Moment;
use crate::state::State;
use crate::state::bed::{DueNow, Wire};

pub fn happen(state: &mut State, what: &What, at: Moment) {
    match what {
        What::MadeDue { bed, why } => {
            let found = state.beds.iter_mut().filter(|b| b.id == *bed);
            for wire in found.flat_map(|b| &mut b.wires) {
                if *why == DueNow::Polarity {
                    wire.exchanged = Some(at);
                }
                due(wire, Some(*why), at);
            }
        }
        What::WirePlugged { bed, wire, generator, due: why } => {
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.generator.clone_from(generator);
                found.standing = None;
                found.read_since = None;
                found.another_box = true;
                // Positions of the other dial: nothing typed there can be confirmed here.
                if let Some(open) = &mut found.check {
                    (open.asked_again, open.asked_before) = (None, None);
                }
                due(found, *why, at);
            }
        }
        What::OwedAskedAgain { bed, wire, dials } => {
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.asked_again = Some(*dials);
            }
        }
        What::ReadingAskedAgain { bed, wire, dials } => {
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.asked_before = found.asked_again.replace(*dials);
            }
        }
        What::OwedRead { bed, wire, standing, due: why } => {
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.owed = None;
                found.forget_asked();
                // Where they were read to stand outside a check stays known, also when they still stand there.
                let outside = why.is_some() || found.standing.is_some();
                found.standing = outside.then(|| standing.clone());
                found.read_since = (!outside).then_some(at);
                due(found, *why, at);
            }
        }
        _ => {}
    }
}

/// The first reason stands: it is the oldest.
pub fn due(wire: &mut Wire, why: Option<DueNow>, at: Moment) {
    if why.is_some() && wire.due_now.is_none_or(|known| known == DueNow::NotFinished) {
        wire.due_now = why;
        wire.due_since = Some(at);
    }
}
