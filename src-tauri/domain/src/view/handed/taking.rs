//! Whose is it? A person says the name, the bed, and whether it is the same patient.

use super::arrived::wire;
use crate::command::Command;
use crate::contract::{FieldKind, Form, Shape, Tone};
use crate::decide::{self, LABEL_MOST};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::view::pieces::{field, go, head, plain};
use crate::view::wire_form::{generator_field, pick};
use crate::view::{Screenful, act_with_fields, beds};

pub fn take_in(state: &State, at: u32, now: Moment) -> Screenful {
    let Some(arrived) = decide::arrived(state, at) else { return beds::beds(state, now) };
    let bed = state.loading.as_ref().and_then(|loading| state.bed(loading.bed?));
    let label = (bed.is_none()).then(|| field("label", Say::BedLabelField, FieldKind::Text, LABEL_MOST));
    let asks = bed.map_or(!state.beds.is_empty(), |bed| !bed.wires.is_empty());
    let patient = asks.then(|| {
        pick("patient", Say::PatientField, vec![("same", Say::PatientSame), ("new", Say::PatientNew)])
    });
    let fields = label.into_iter().chain(patient).chain([generator_field(state, None)]).collect();
    let form = Form { question: Say::SayTheName, lines: vec![Say::TakeInLine], fields };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, Screen::Arrived { at }),
            act_with_fields("take-in", Say::TakeInDone, Tone::Good, Command::TakeIn { at }),
        ],
        ..plain(head(wire(arrived.summary.wire), now), Shape::Form(form), Say::SayTheName)
    }
}
