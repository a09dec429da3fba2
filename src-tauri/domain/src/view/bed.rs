//! One bed: its wires, and what can be done with each.

use super::pieces::{bed_head, boxed, go, plain, wire_name};
use super::{Screenful, act, beds, charts, summary};
use crate::attention::of_wire;
use crate::command::Command;
use crate::contract::{Act, BedRow, Beds, Shape, Tone};
use crate::decide::may_compare;
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;

/// With more wires, history and handover are reached by each wire's last result.
const PAPER_MOST: usize = 1;

pub fn bed(state: &State, bed: u32, now: Moment) -> Screenful {
    match state.bed(bed) {
        Some(found) => screen(found, now),
        None => beds::beds(state, now),
    }
}

fn screen(bed: &Bed, now: Moment) -> Screenful {
    let wires = beds::by_need(bed, now);
    let rows: Vec<_> = wires.iter().map(|wire| row(bed, wire, now)).collect();
    let spoken = if rows.is_empty() { Say::BedNoWire } else { Say::BedTitle };
    let shape = Shape::Beds(Beds { rows, empty: Say::BedNoWire });
    Screenful {
        answers: answers(bed, &wires),
        aside: aside(bed, &wires),
        ..plain(bed_head(bed, now), shape, spoken)
    }
}

/// The row opens the reading that is owed, else the last result; before there is one, the check itself.
fn row(bed: &Bed, wire: &Wire, now: Moment) -> BedRow<Say> {
    let attention = of_wire(wire, now);
    let key = format!("wire-{}", wire.id);
    let open = if wire.swap.is_some() {
        go(key, Say::SwapResume, Tone::Plain, Screen::Swap { bed: bed.id, wire: wire.id })
    } else if wire.owed.is_some() && wire.check.is_none() {
        let screen = Screen::ReadOwed { bed: bed.id, wire: wire.id };
        go(format!("read-{}", wire.id), Say::ReadNow, Tone::Plain, screen)
    } else if awaits_compare(wire) {
        let screen = Screen::Compare { bed: bed.id, wire: wire.id };
        go(format!("compare-{}", wire.id), Say::CompareDials, Tone::Plain, screen)
    } else if wire.records.is_empty() {
        Act { key: key.into(), ..start(bed, wire, Say::StartCheck, Say::ResumeCheck) }
    } else {
        go(key, Say::LastResult, Tone::Plain, Screen::Result { bed: bed.id, wire: wire.id, back: 0 })
    };
    BedRow {
        title: wire_name(wire),
        due: Some(beds::due(attention, now)),
        urgent: attention.is_urgent(),
        lines: summary::of_wire(wire),
        chart: charts::small_capture(wire),
        open,
    }
}

/// Handed over, and not yet set beside the dials.
fn awaits_compare(wire: &Wire) -> bool {
    may_compare(wire) && wire.arrival.as_ref().is_some_and(|arrival| arrival.compared.is_none())
}

fn start(bed: &Bed, wire: &Wire, begin: Say, resume: Say) -> Act<Say> {
    let (bed, id) = (bed.id, wire.id);
    if wire.swap.is_some() {
        return go(format!("swap-{id}"), Say::SwapResume, Tone::Good, Screen::Swap { bed, wire: id });
    }
    let key = format!("start-{id}");
    if wire.check.is_some() {
        return act(key, resume, Tone::Good, Command::Resume { bed, wire: id });
    }
    act(key, begin, Tone::Good, Command::Begin { bed, wire: id })
}

/// While a check is open on one wire of the patient, none is begun on another.
fn answers(bed: &Bed, wires: &[&Wire]) -> Vec<Act<Say>> {
    let open: Vec<&Wire> = wires.iter().copied().filter(|wire| !wire.is_free()).collect();
    let offered = if open.is_empty() { wires } else { &open };
    let mut acts = vec![go("beds", Say::AllBeds, Tone::Strong, Screen::Beds)];
    if bed.transport.is_some() {
        acts.push(go("transport", Say::TransportResume, Tone::Good, Screen::Transport { bed: bed.id }));
        acts.extend(
            wires.iter().filter(|wire| wire.swap.is_some()).map(|wire| start_of(bed, wire, wires.len() > 1)),
        );
        return acts;
    }
    acts.extend(offered.iter().map(|wire| start_of(bed, wire, wires.len() > 1)));
    if wires.is_empty() {
        acts.push(go("new-wire", Say::NewWire, Tone::Good, Screen::NewWire { bed: bed.id }));
    }
    acts
}

/// Named by its wire where there is another.
fn start_of(bed: &Bed, wire: &Wire, named: bool) -> Act<Say> {
    if !named {
        return start(bed, wire, Say::StartCheck, Say::ResumeCheck);
    }
    let name = boxed(wire_name(wire));
    start(bed, wire, Say::StartCheckOf { wire: name.clone() }, Say::ResumeCheckOf { wire: name })
}

fn aside(bed: &Bed, wires: &[&Wire]) -> Vec<Act<Say>> {
    let id = bed.id;
    let mut acts = Vec::new();
    let few = wires.len() <= PAPER_MOST;
    for wire in wires.iter().filter(|wire| few && !wire.records.is_empty()) {
        acts.extend(paper(id, wire));
    }
    if wires.is_empty() {
        acts.push(go("load", Say::LoadHandover, Tone::Plain, Screen::Load { bed: Some(id) }));
    }
    acts.push(go("new-patient", Say::NewPatient, Tone::Plain, Screen::NewPatient { bed: id }));
    acts.push(go("more", Say::BedMore, Tone::Plain, Screen::BedMore { bed: id }));
    acts
}

/// History and handover of the one wire.
fn paper(bed: u32, wire: &Wire) -> [Act<Say>; 2] {
    let wire = wire.id;
    [
        go("history", Say::HistoryName, Tone::Plain, Screen::History { bed, wire }),
        go("code", Say::HandOver, Tone::Plain, Screen::Code { bed, wire }),
    ]
}
