//! More about one bed: what has happened, a wire that is out, another generator, a bed that empties.

use super::pieces::{bed_head, go, isolated, plain, wire_head, wire_name};
use super::wire_form::{generator_field, pick};
use super::{Screenful, act, act_with_fields, beds};
use crate::command::Command;
use crate::contract::{Act, Ask, BedRow, Beds, Form, Shape, Tone};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, DueNow, Wire};
use crate::state::screen::Screen;

pub fn more(state: &State, bed: u32, now: Moment) -> Screenful {
    let Some(found) = state.bed(bed) else { return beds::beds(state, now) };
    let rows = found.wires.iter().map(|wire| plugged(state, found, wire)).collect();
    let mut answers = vec![go("back", Say::Back, Tone::Strong, Screen::Bed { bed })];
    if !found.wires.is_empty() {
        answers.push(go("happened", Say::Happened, Tone::Strong, Screen::Happened { bed }));
        answers.push(act("move", Say::TransportNow, Tone::Strong, Command::BeginTransport { bed }));
        answers.push(go("wire-out", Say::WireOut, Tone::Strong, Screen::WireOut { bed }));
    }
    let shape = Shape::Beds(Beds { rows, empty: Say::BedNoWire });
    Screenful {
        answers,
        aside: vec![
            go("new-wire", Say::NewWire, Tone::Plain, Screen::NewWire { bed }),
            go("load", Say::LoadHandover, Tone::Plain, Screen::Load { bed: Some(bed) }),
            go("empty-bed", Say::EmptyBed, Tone::Plain, Screen::EmptyBed { bed }),
        ],
        ..plain(bed_head(found, now), shape, Say::BedMoreTitle)
    }
}

/// A wire and the generator it hangs on.
fn plugged(state: &State, bed: &Bed, wire: &Wire) -> BedRow<Say> {
    let name = state.generator(&wire.generator).map(|profile| isolated(&profile.name)).unwrap_or_default();
    let screen = Screen::Plug { bed: bed.id, wire: wire.id };
    BedRow {
        title: wire_name(wire),
        due: None,
        urgent: false,
        lines: vec![Say::GeneratorIs { name }],
        chart: None,
        open: go(format!("plug-{}", wire.id), Say::PlugElsewhere, Tone::Plain, screen),
    }
}

pub fn happened(state: &State, bed: u32, now: Moment) -> Screenful {
    let Some(found) = state.bed(bed) else { return beds::beds(state, now) };
    let event = |key: &'static str, label, why| act(key, label, Tone::Strong, Command::Happened { bed, why });
    let answers = vec![
        go("back", Say::HappenedNothing, Tone::Plain, Screen::Bed { bed }),
        event("shock", Say::HappenedShock, DueNow::Shock),
        event("lead", Say::HappenedLead, DueNow::LeadMoved),
        event("polarity", Say::HappenedPolarity, DueNow::Polarity),
        event("potassium", Say::HappenedPotassium, DueNow::Potassium),
        event("drug", Say::HappenedDrug, DueNow::RhythmDrug),
    ];
    asking(found, Say::HappenedTitle, vec![Say::HappenedLine], answers, now)
}

/// The question comes before anything closes.
pub fn empty(state: &State, bed: u32, now: Moment) -> Screenful {
    let Some(found) = state.bed(bed) else { return beds::beds(state, now) };
    let question = Say::EmptyBedTitle { bed: isolated(&found.label) };
    let answers = vec![
        go("keep", Say::EmptyBedKeep, Tone::Strong, Screen::Bed { bed }),
        act("empty", Say::EmptyBedYes, Tone::Bad, Command::EmptyBed { bed }),
        act("remove", Say::RemoveBedYes, Tone::Bad, Command::RemoveBed { bed }),
    ];
    asking(found, question, vec![Say::EmptyBedLine], answers, now)
}

fn asking(bed: &Bed, question: Say, lines: Vec<Say>, answers: Vec<Act<Say>>, now: Moment) -> Screenful {
    let ask =
        Ask { question: question.clone(), lines, reason: None, watch: None, scale: None, others: Vec::new() };
    Screenful { answers, ..plain(bed_head(bed, now), Shape::Ask(ask), question) }
}

pub fn wire_out(state: &State, bed: u32, now: Moment) -> Screenful {
    let Some(found) = state.bed(bed) else { return beds::beds(state, now) };
    let ids: Vec<String> = found.wires.iter().map(|wire| wire.id.to_string()).collect();
    let choices = ids.iter().zip(&found.wires).map(|(id, wire)| (id.as_str(), wire_name(wire))).collect();
    let form = Form {
        question: Say::WireOutTitle,
        lines: vec![Say::WireOutLine],
        fields: vec![pick("wire", Say::WireField, choices)],
    };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, Screen::Bed { bed }),
            act_with_fields("out", Say::WireOutDone, Tone::Bad, Command::RemoveWire { bed }),
        ],
        ..plain(bed_head(found, now), Shape::Form(form), Say::WireOutTitle)
    }
}

/// Also from the first stage of a check, before its dials are read.
pub fn plug(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    let Some((found, this)) = state.bed(bed).zip(state.wire(bed, wire)) else {
        return beds::beds(state, now);
    };
    let back = if this.check.is_some() { Screen::Check { bed, wire } } else { Screen::Bed { bed } };
    let form = Form {
        question: Say::PlugTitle,
        lines: vec![Say::PlugLine],
        fields: vec![generator_field(state, Some(&this.generator))],
    };
    let swap = go("swap", Say::SwapNow, Tone::Plain, Screen::NewSwap { bed, wire });
    Screenful {
        aside: this.check.is_none().then_some(swap).into_iter().collect(),
        answers: vec![
            go("back", Say::Back, Tone::Plain, back),
            act_with_fields("plug", Say::PlugDone, Tone::Good, Command::PlugInto { bed, wire }),
        ],
        ..plain(wire_head(found, this, Say::GeneratorField, now), Shape::Form(form), Say::PlugTitle)
    }
}
