//! Beds, patients and wires come and go.

#![allow(clippy::wildcard_enum_match_arm, reason = "the fold above sends only what belongs here")]

use uuid::Uuid;

use crate::event::What;
use crate::leaving::Closed;
use crate::moment::Moment;
use crate::state::State;
use crate::state::bed::{Bed, Wire};

pub fn happen(state: &mut State, what: &What, at: Moment) {
    match what {
        What::BedAdded { bed, label, patient } => {
            state.next_bed = bed + 1;
            state.beds.push(Bed {
                id: *bed,
                label: label.clone(),
                patient: *patient,
                patient_since: at,
                wires: Vec::new(),
                next_wire: 1,
                left: Vec::new(),
                transport: None,
                transports: Vec::new(),
            });
        }
        What::PatientArrived { bed, patient } | What::BedEmptied { bed, patient } => {
            if let Some(found) = state.beds.iter_mut().find(|b| b.id == *bed) {
                // A bed in which no wire ever was holds nothing of anybody.
                let gone = (found.next_wire > 1).then(|| closed(found, at));
                close(found, *patient, at);
                state.closed.extend(gone);
            }
        }
        What::BedRemoved { bed } => {
            state.closed.extend(state.bed(*bed).map(|found| closed(found, at)));
            state.beds.retain(|b| b.id != *bed);
        }
        What::WireAdded { bed, .. } => {
            if let Some(found) = state.beds.iter_mut().find(|b| b.id == *bed) {
                found.wires.extend(added(what, at));
                found.next_wire += 1;
            }
        }
        What::WireRemoved { bed, wire } => {
            if let Some(found) = state.beds.iter_mut().find(|b| b.id == *bed) {
                found.wires.retain(|w| w.id != *wire);
            }
        }
        _ => {}
    }
}

/// What is still kept of whoever leaves.
fn closed(bed: &Bed, at: Moment) -> Closed {
    Closed { patient: bed.patient, label: bed.label.clone(), at, left: bed.left.clone() }
}

fn close(bed: &mut Bed, patient: Uuid, at: Moment) {
    bed.patient = patient;
    bed.patient_since = at;
    bed.wires.clear();
    bed.transport = None;
    bed.transports.clear();
    bed.next_wire = 1;
    bed.left.clear();
}

fn added(what: &What, at: Moment) -> Option<Wire> {
    let What::WireAdded { wire, chamber, kind, polarity, generator, .. } = what else { return None };
    Some(Wire::new(*wire, *chamber, *kind, *polarity, generator.clone(), at))
}
