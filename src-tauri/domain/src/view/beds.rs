//! The first screen: what needs a person first.

use super::pieces::{boxed, clock_of, go, head, isolated, plain};
use super::{Screenful, charts, summary};
use crate::attention::{Attention, beds_in_order, minutes_since, of_bed, of_wire};
use crate::contract::{Act, BedRow, Beds, Shape, Tone};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, DueNow, Wire};
use crate::state::screen::Screen;
use crate::transport::facts::Leg;

/// Rows of one page.
const ROWS_MOST: usize = 10;

pub fn beds(state: &State, now: Moment) -> Screenful {
    beds_from(state, 0, now)
}

/// The list from this place in its order on.
pub fn beds_from(state: &State, from: u32, now: Moment) -> Screenful {
    let ordered = beds_in_order(&state.beds, now);
    let mut room = Room::FOR_ROWS;
    let page = ordered.iter().skip(from as usize).take(ROWS_MOST);
    let rows: Vec<_> = page.map(|bed| bed_row(bed, &mut room, now)).collect();
    let spoken = spoken(&rows);
    let shape = Shape::Beds(Beds { rows, empty: Say::BedsEmpty });
    Screenful {
        answers: answers(ordered.len(), from),
        aside: vec![
            go("load", Say::LoadHandover, Tone::Plain, Screen::Load { bed: None }),
            go("settings", Say::Settings, Tone::Plain, Screen::Settings),
            go("practice", Say::Practice, Tone::Plain, Screen::Practice),
        ],
        ..plain(head(Say::PacingChecks, now), shape, spoken)
    }
}

fn spoken(rows: &[BedRow<Say>]) -> Say {
    let Some(first) = rows.first() else { return Say::BedsEmpty };
    let due = first.due.clone().unwrap_or(Say::NoCheckYet);
    Say::SpokenBed { title: boxed(first.title.clone()), due: boxed(due) }
}

fn answers(beds: usize, from: u32) -> Vec<Act<Say>> {
    let tone = if beds == 0 { Tone::Good } else { Tone::Strong };
    let add = go("add-bed", Say::AddBed, tone, Screen::NewBed);
    let next = from.saturating_add(u32::try_from(ROWS_MOST).unwrap_or(u32::MAX));
    let more = (next as usize) < beds;
    let first = go("beds", Say::FirstBeds, Tone::Strong, Screen::Beds);
    let later = go("more", Say::MoreBeds, Tone::Strong, Screen::MoreBeds { from: next });
    [(from > 0).then_some(first), more.then_some(later), Some(add)].into_iter().flatten().collect()
}

fn bed_row(bed: &Bed, room: &mut Room, now: Moment) -> BedRow<Say> {
    let attention = of_bed(bed, now);
    let wires = by_need(bed, now);
    let lines =
        wires.iter().flat_map(|wire| summary::in_list(wire)).filter(|_| room.takes(Room::LINE)).collect();
    let chart = wires.iter().find_map(|wire| charts::small_capture(wire)).filter(|_| room.takes(Room::CHART));
    BedRow {
        title: Say::Local { text: bed.label.clone() },
        due: Some(on_the_way(bed, attention).unwrap_or_else(|| due(attention, now))),
        urgent: attention.is_urgent(),
        lines,
        chart,
        open: go(format!("bed-{}", bed.id), Say::OpenBed, Tone::Plain, Screen::Bed { bed: bed.id }),
    }
}

/// "On the way to CT, level 1".
fn on_the_way(bed: &Bed, attention: Attention) -> Option<Say> {
    let open = bed.transport.as_ref().filter(|_| matches!(attention, Attention::OnTheWay { .. }))?;
    let place = isolated(open.told.destination.as_deref()?);
    let left = open.facts.leg != Leg::Leaving;
    Some(if left { Say::OnTheWayTo { place } } else { Say::LeavingFor { place } })
}

/// Bytes left for lines and charts: a view is small enough to cross the bridge in one piece, so that
/// what needs a person least is shown with its time only.
struct Room(usize);

impl Room {
    const FOR_ROWS: Room = Room(3_800);
    /// At most, in a language a third longer.
    const LINE: usize = 220;
    const CHART: usize = 600;

    fn takes(&mut self, bytes: usize) -> bool {
        let left = self.0.checked_sub(bytes);
        self.0 = left.unwrap_or(self.0);
        left.is_some()
    }
}

pub fn by_need(bed: &Bed, now: Moment) -> Vec<&Wire> {
    let mut wires: Vec<&Wire> = bed.wires.iter().collect();
    wires.sort_by_key(|wire| (of_wire(wire, now), wire.id));
    wires
}

pub fn due(attention: Attention, now: Moment) -> Say {
    match attention {
        Attention::BoxChange { since_ms, .. } => Say::SwapOpenSince { time: clock_of(since_ms, now) },
        Attention::OnTheWay { since_ms } => Say::TransportSince { time: clock_of(since_ms, now) },
        Attention::DialsNotRead { since_ms } => Say::DialsNotReadSince { time: clock_of(since_ms, now) },
        Attention::CheckLeftOpen { since_ms } => Say::CheckLeftOpen { time: clock_of(since_ms, now) },
        Attention::DueNow { why, .. } => Say::DueBecause { why: boxed(due_now(why)) },
        Attention::Overdue { since_ms } => late(minutes_since(since_ms, now)),
        Attention::DueAt { at_ms } => Say::DueAt { time: clock_of(at_ms, now) },
        Attention::NotYetChecked { .. } => Say::NoCheckYet,
        Attention::NoWire => Say::NoWireYet,
    }
}

fn due_now(why: DueNow) -> Say {
    match why {
        DueNow::Shock => Say::DueShock,
        DueNow::NoBeats => Say::DueNoBeats,
        DueNow::NotFinished => Say::DueNotFinished,
        DueNow::LeadMoved => Say::DueLead,
        DueNow::Potassium => Say::DuePotassium,
        DueNow::RhythmDrug => Say::DueDrug,
        DueNow::Generator => Say::DueGenerator,
        DueNow::Dials => Say::DueDials,
        DueNow::Arrived => Say::DueArrived,
        DueNow::Battery => Say::DueBattery,
        DueNow::Reconnected => Say::DueReconnected,
        DueNow::SharedBox => Say::DueSharedBox,
        DueNow::Moved => Say::DueMoved,
        DueNow::Polarity => Say::DuePolarity,
    }
}

fn late(minutes: u32) -> Say {
    match minutes {
        0 => Say::DueNow,
        1..=119 => Say::LateMinutes { minutes },
        _ => Say::LateHours { hours: minutes / 60 },
    }
}
