//! The first screen: what needs a person first.

use super::pieces::{boxed, clock_of, go, head, plain};
use super::{Screenful, charts, summary};
use crate::attention::{Attention, beds_in_order, minutes_since, of_bed, of_wire};
use crate::contract::{BedRow, Beds, Shape, Tone};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;

/// One view stays below the size that crosses the bridge directly: further beds show their time only.
const FULL_ROWS: usize = 6;

pub fn beds(state: &State, now: Moment) -> Screenful {
    let ordered = beds_in_order(&state.beds, now);
    let rows: Vec<_> = ordered.iter().enumerate().map(|(at, bed)| bed_row(bed, at < FULL_ROWS, now)).collect();
    let first = rows.first();
    let spoken = match first.and_then(|row| row.due.clone().zip(Some(row.title.clone()))) {
        Some((due, title)) => Say::SpokenBed { title: boxed(title), due: boxed(due) },
        None if first.is_none() => Say::BedsEmpty,
        None => Say::PacingChecks,
    };
    let shape = Shape::Beds(Beds { rows, empty: Say::BedsEmpty });
    Screenful {
        answers: vec![go("add-bed", Say::AddBed, Tone::Good, Screen::NewBed)],
        aside: vec![go("settings", Say::Settings, Tone::Plain, Screen::Settings)],
        ..plain(head(Say::PacingChecks, now), shape, spoken)
    }
}

fn bed_row(bed: &Bed, full: bool, now: Moment) -> BedRow<Say> {
    let attention = of_bed(bed, now);
    let wires = by_need(bed, now);
    let lines = if full { wires.iter().flat_map(|wire| summary::lines(wire)).collect() } else { Vec::new() };
    let chart = wires.iter().filter(|_| full).find_map(|wire| charts::small_capture(wire));
    BedRow {
        title: Say::Local { text: bed.label.clone() },
        due: Some(due(attention, now)),
        urgent: attention.is_urgent(),
        lines,
        chart,
        open: go(&format!("bed-{}", bed.id), Say::OpenBed, Tone::Plain, Screen::Bed { bed: bed.id }),
    }
}

pub fn by_need(bed: &Bed, now: Moment) -> Vec<&Wire> {
    let mut wires: Vec<&Wire> = bed.wires.iter().collect();
    wires.sort_by_key(|wire| (of_wire(wire, now), wire.id));
    wires
}

pub fn due(attention: Attention, now: Moment) -> Say {
    match attention {
        Attention::DialsNotRead { since_ms } => Say::DialsNotReadSince { time: clock_of(since_ms, now) },
        Attention::CheckLeftOpen { since_ms } => Say::CheckLeftOpen { time: clock_of(since_ms, now) },
        Attention::Overdue { since_ms } => late(minutes_since(since_ms, now)),
        Attention::DueAt { at_ms } => Say::DueAt { time: clock_of(at_ms, now) },
        Attention::NotYetChecked { .. } => Say::NoCheckYet,
        Attention::NoWire => Say::NoWireYet,
    }
}

fn late(minutes: u32) -> Say {
    match minutes {
        0 => Say::DueNow,
        1..=119 => Say::LateMinutes { minutes },
        _ => Say::LateHours { hours: minutes / 60 },
    }
}
