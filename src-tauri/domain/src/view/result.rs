//! What a check found and left: rows, scales, flags.

mod rows;
mod scales;

use super::pieces::{go, plain, wire_head};
use super::{Screenful, beds};
use crate::check::facts::Found;
use crate::contract::{Act, Outcome, Shape, Tone};
use crate::moment::Moment;
use crate::record::Record;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;

pub use rows::{capture_value, sensing_value};

/// The record `back` from the newest.
pub fn result(state: &State, bed: u32, wire: u32, back: u32, now: Moment) -> Screenful {
    let found = state.bed(bed).zip(state.wire(bed, wire));
    let record = found.and_then(|(_, wire)| wire.records.iter().rev().nth(back as usize));
    match (found, record) {
        (Some((bed, wire)), Some(record)) => screen(state, bed, wire, record, back, now),
        _ => beds::beds(state, now),
    }
}

fn screen(state: &State, bed: &Bed, wire: &Wire, record: &Record, back: u32, now: Moment) -> Screenful {
    let headline = headline(record);
    let outcome = Outcome {
        headline: headline.clone(),
        rows: rows::rows(record, now),
        scales: state.generator(&record.generator).map(|p| scales::scales(p, record)).unwrap_or_default(),
        flags: record.flags.iter().map(|flag| flag.say()).collect(),
        note: None,
    };
    Screenful {
        answers: answers(bed.id, wire.id, back),
        aside: aside(bed.id, wire, back),
        ..plain(wire_head(bed, wire, Say::ScreenResult, now), Shape::Result(outcome), headline)
    }
}

fn headline(record: &Record) -> Say {
    let sensed = record.sensing != Found::Nothing;
    let captured = record.capture != Found::Nothing;
    match (record.read, sensed, captured) {
        (false, ..) => Say::ResultNotRead,
        (true, false, false) => Say::ResultNotTested,
        (true, true, true) => Say::ResultChecked,
        (true, ..) => Say::ResultPartly,
    }
}

/// Only the newest record is handed over: it says where the dials stand.
fn answers(bed: u32, wire: u32, back: u32) -> Vec<Act<Say>> {
    let mut acts = vec![go("bed", Say::Back, Tone::Strong, Screen::Bed { bed })];
    if back == 0 {
        acts.push(go("code", Say::HandOver, Tone::Good, Screen::Code { bed, wire }));
    }
    acts
}

fn aside(bed: u32, wire: &Wire, back: u32) -> Vec<Act<Say>> {
    let id = wire.id;
    let other = |back| Screen::Result { bed, wire: id, back };
    let mut acts = vec![
        go("history", Say::HistoryName, Tone::Plain, Screen::History { bed, wire: id }),
        go("export", Say::ExportName, Tone::Plain, Screen::Export { bed, wire: id }),
    ];
    if (back as usize) + 1 < wire.records.len() {
        acts.push(go("earlier", Say::EarlierResult, Tone::Plain, other(back + 1)));
    }
    if back > 0 {
        acts.push(go("later", Say::LaterResult, Tone::Plain, other(back - 1)));
    }
    acts
}
