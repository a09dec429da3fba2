//! Codes made and codes that came.

#![allow(clippy::wildcard_enum_match_arm, reason = "the fold above sends only what belongs here")]

use super::leaving::code_shown;
use super::wires::due;
use crate::event::What;
use crate::handover::arrived::Loading;
use crate::handover::history::{merged, newest_handed};
use crate::handover::tablet::{KnownTablet, OwnKey};
use crate::moment::Moment;
use crate::state::State;

pub fn happen(state: &mut State, what: &What, at: Moment) {
    match what {
        What::KeyWanted => state.own_key.wanted = true,
        What::KeyKnown(tablet) => {
            state.own_key = OwnKey { tablet: Some(tablet.clone()), lost: None, wanted: false };
        }
        What::KeyLost(lost) => {
            state.own_key.lost = Some(*lost);
            state.own_key.wanted = false;
        }
        What::CodeMade { bed, wire, code } => {
            state.code_wanted = false;
            code_shown(state, *bed, code, at);
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.code = Some((**code).clone());
            }
        }
        What::LoadBegun { load, bed, source } => {
            state.next_load = load + 1;
            state.loading = Some(Loading { id: *load, bed: *bed, source: source.clone(), outcome: None });
        }
        What::LoadEnded { load, outcome } => {
            if let Some(loading) = state.loading.as_mut().filter(|loading| loading.id == *load) {
                loading.outcome = Some(outcome.clone());
            }
        }
        What::TabletNamed { tablet, name } => {
            state.known_tablets.push(KnownTablet { tablet: tablet.clone(), name: name.clone(), since: at });
        }
        What::TabletForgotten { tablet } => state.known_tablets.retain(|known| known.tablet != *tablet),
        _ => on_wire(state, what, at),
    }
}

fn on_wire(state: &mut State, what: &What, at: Moment) {
    match what {
        What::HandoverTaken { bed, wire, arrival, checks, due: why } => {
            state.loading = None;
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.handed = merged(std::mem::take(&mut found.handed), checks);
                found.arrival = Some((**arrival).clone());
                // Its thresholds were taken on the box that came with the patient.
                found.another_box &= newest_handed(found).is_none();
                due(found, Some(*why), at);
            }
        }
        What::DialsCompared { bed, wire, compared, standing } => {
            if let Some(found) = state.wire_mut(*bed, *wire) {
                found.standing.clone_from(standing);
                if let Some(arrival) = &mut found.arrival {
                    arrival.compared = Some((**compared).clone());
                }
            }
        }
        _ => {}
    }
}
