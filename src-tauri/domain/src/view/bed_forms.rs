//! A new bed; a new patient in one.

use super::pieces::{bed_head, field, go, head, isolated, plain};
use super::{Screenful, act, act_with_fields, beds};
use crate::command::Command;
use crate::contract::{Ask, FieldKind, Form, Shape, Tone};
use crate::decide::LABEL_MOST;
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

pub fn new_bed(now: Moment) -> Screenful {
    let label = field("label", Say::BedLabelField, FieldKind::Text, LABEL_MOST);
    let form = Form { question: Say::NewBedTitle, lines: vec![Say::NewBedLine], fields: vec![label] };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, Screen::Beds),
            act_with_fields("add", Say::NewBedDone, Tone::Good, Command::AddBed),
        ],
        ..plain(head(Say::PacingChecks, now), Shape::Form(form), Say::NewBedTitle)
    }
}

/// A bed is no identity: the question comes before its wires and history close.
pub fn new_patient(state: &State, bed: u32, now: Moment) -> Screenful {
    let Some(found) = state.bed(bed) else { return beds::beds(state, now) };
    let question = Say::NewPatientTitle { bed: isolated(&found.label) };
    let ask = Ask {
        question: question.clone(),
        lines: vec![Say::NewPatientLine, Say::NewPatientAlso],
        reason: None,
        watch: None,
        scale: None,
        others: Vec::new(),
    };
    Screenful {
        answers: vec![
            go("same", Say::NewPatientNo, Tone::Strong, Screen::Bed { bed }),
            act("new", Say::NewPatientYes, Tone::Bad, Command::NewPatient { bed }),
        ],
        ..plain(bed_head(found, now), Shape::Ask(ask), question)
    }
}
