//! Transports open, go on, end.

#![allow(clippy::wildcard_enum_match_arm, reason = "the fold above sends only what belongs here")]

use super::wires::due as due_now;
use crate::event::{TransportAnswered, What};
use crate::handover::known::Source;
use crate::moment::Moment;
use crate::state::State;
use crate::state::bed::{Standing, Wire};
use crate::state::screen::Screen;
use crate::state::transport::{OpenTransport, Reading, Told};
use crate::transport::answer::Answer;
use crate::transport::facts::Facts;

pub fn happen(state: &mut State, what: &What, at: Moment) {
    match what {
        What::TransportOpened { bed, transport, facts, readings } => {
            if let Some(found) = state.bed_mut(*bed) {
                found.wires.iter_mut().for_each(Wire::forget_asked);
                found.transport = Some(OpenTransport {
                    id: *transport,
                    began: at,
                    facts: *facts,
                    before: None,
                    last: at,
                    away_ms: 0,
                    told: Told { readings: readings.clone(), ..Told::default() },
                });
            }
            state.screen = Screen::Transport { bed: *bed };
        }
        What::TransportAnswered(answered) => answer(state, answered, at),
        What::TransportEnded { bed, record, due } => {
            if let Some(found) = state.bed_mut(*bed) {
                found.transport = None;
                found.transports.push((**record).clone());
                found.wires.iter_mut().for_each(|wire| due_now(wire, *due, at));
            }
            state.screen = Screen::Bed { bed: *bed };
        }
        _ => {}
    }
}

fn answer(state: &mut State, answered: &TransportAnswered, at: Moment) {
    let Some(bed) = state.bed_mut(answered.bed) else { return };
    if let Some(open) = bed.transport.as_mut() {
        // A card over the reading, as after a death, leaves what was read.
        let of = |facts: &Facts| (facts.from, facts.wire);
        if of(&open.facts) != of(&answered.facts) {
            bed.wires.iter_mut().for_each(Wire::forget_asked);
        }
        open.facts = answered.facts;
        open.before = answered.before;
        open.told = answered.told.clone();
        open.away_ms = answered.away_ms;
        if !matches!(answered.answer, Answer::Woke(_)) {
            open.last = at;
        }
    }
    let Some(reading) = &answered.reading else { return };
    if let Some(wire) = bed.wires.iter_mut().find(|wire| wire.id == reading.wire) {
        read(wire, reading);
    }
}

fn read(wire: &mut Wire, reading: &Reading) {
    let compared = &reading.compared;
    let as_left = wire.owed.is_some() && compared.is_same() && reading.by == Some(Source::Check);
    wire.read_since =
        if as_left { Some(compared.at) } else { wire.read_since.filter(|_| compared.is_same()) };
    wire.owed = None;
    wire.forget_asked();
    if !compared.is_same() {
        let (dials, printed) = (compared.dials, compared.printed.clone());
        wire.standing = Some(Standing { dials, printed, at: compared.at });
    }
    if let Some(arrival) = wire.arrival.as_mut().filter(|_| reading.by == Some(Source::Code)) {
        arrival.compared = Some(compared.clone());
    }
}
