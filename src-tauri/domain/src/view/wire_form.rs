//! A new wire: chamber, kind, polarity, and the generator it is plugged into.

use super::pieces::{bed_head, field, go, plain};
use super::{Screenful, act_with_fields, beds};
use crate::command::Command;
use crate::contract::{Choice, Field, FieldKind, Form, Shape, Tone};
use crate::moment::Moment;
use crate::profile::Profile;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

pub fn new_wire(state: &State, bed: u32, now: Moment) -> Screenful {
    let Some(found) = state.bed(bed) else { return beds::beds(state, now) };
    let form = Form { question: Say::NewWireTitle, lines: vec![Say::NewWireLine], fields: fields(state) };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, Screen::Bed { bed }),
            act_with_fields("add", Say::NewWireDone, Tone::Good, Command::AddWire { bed }),
        ],
        ..plain(bed_head(found, now), Shape::Form(form), Say::NewWireTitle)
    }
}

fn fields(state: &State) -> Vec<Field<Say>> {
    vec![
        pick(
            "chamber",
            Say::ChamberField,
            vec![("ventricle", Say::ChamberVentricle), ("atrium", Say::ChamberAtrium)],
        ),
        pick(
            "kind",
            Say::KindField,
            vec![("epicardial", Say::KindEpicardial), ("transvenous", Say::KindTransvenous)],
        ),
        pick(
            "polarity",
            Say::PolarityField,
            vec![("bipolar", Say::PolarityBipolar), ("unipolar", Say::PolarityUnipolar)],
        ),
        generator_field(state, None),
    ]
}

/// The unit's own generators, and the examples while it has none; the one plugged in now is among them.
pub fn generator_field(state: &State, plugged: Option<&str>) -> Field<Say> {
    let own = state.generators.iter().any(|profile| !profile.example);
    let offered = |profile: &&Profile| !own || !profile.example || plugged == Some(profile.id.as_str());
    let choices = state
        .generators
        .iter()
        .filter(offered)
        .map(|profile| (profile.id.as_str(), Say::Local { text: profile.name.clone() }))
        .collect();
    pick("generator", Say::GeneratorField, choices)
}

/// Nothing is chosen beforehand, so that nothing is true by default; where there is one choice, it is.
pub fn pick(id: &str, label: Say, choices: Vec<(&str, Say)>) -> Field<Say> {
    let only = choices.len() == 1;
    let value = choices.first().filter(|_| only).map(|(value, _)| (*value).to_owned());
    Field {
        value: value.unwrap_or_default(),
        choices: choices.into_iter().map(|(value, label)| choice(value, label, only)).collect(),
        ..field(id, label, FieldKind::Pick, 0)
    }
}

fn choice(value: &str, label: Say, chosen: bool) -> Choice<Say> {
    Choice { value: value.to_owned(), label, chosen, act: None }
}
