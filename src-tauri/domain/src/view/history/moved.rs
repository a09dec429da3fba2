//! What has befallen a wire between its checks: another box, another battery, a patient on the way.

use super::Dated;
use crate::handover::compare::Compared;
use crate::moment::{Moment, date_text};
use crate::record::Printed;
use crate::say::{Say, figure, isolated};
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::swap::{Outcome, SwapRecord};
use crate::state::transport::{Hands, Reading, TransportRecord};
use crate::transport::answer::Target;
use crate::transport::facts::Leg;
use crate::view::handed::in_unit;
use crate::view::pieces::{boxed, clock_of, row};
use crate::view::transport::differs;

/// Each with its wall clock, ms.
pub fn rows(state: &State, bed: &Bed, wire: &Wire, now: Moment) -> Vec<Dated> {
    let swaps =
        wire.swaps.iter().map(|one| dated(one.ended, now, swapped(state, one), swap_notes(state, one)));
    let ways = bed.transports.iter().flat_map(|one| way(one, wire, now));
    swaps.chain(ways).collect()
}

fn dated(at: Moment, now: Moment, value: Say, notes: Vec<Say>) -> Dated {
    let date = date_text(at.wall_ms, now.offset_min);
    let when = Say::HistoryWhen { date, time: clock_of(at.wall_ms, now) };
    let note = notes
        .into_iter()
        .reduce(|first, second| Say::HistoryAnd { first: boxed(first), second: boxed(second) });
    (at.wall_ms, row(when, value, note))
}

fn swapped(state: &State, record: &SwapRecord) -> Say {
    let name = |id: &str| state.generator(id).map_or_else(|| isolated(id), |profile| isolated(&profile.name));
    let (from, to) = (name(&record.from), name(&record.to));
    match record.outcome {
        Outcome::Moved => Say::HistorySwapBox { from, to },
        Outcome::BatteryChanged => Say::HistorySwapBattery { name: to },
        Outcome::BackInTheOld => Say::HistorySwapBack { name: to },
        Outcome::NothingChanged => Say::HistorySwapNothing,
    }
}

fn swap_notes(state: &State, record: &SwapRecord) -> Vec<Say> {
    let output = |id: &str, printed: &Printed| {
        let unit = state.generator(id).map(|profile| profile.output_unit());
        boxed(unit.map_or_else(|| figure(&printed.output), |unit| in_unit(&printed.output, unit)))
    };
    let dials = match (&record.old, &record.left) {
        (Some(old), Some(left)) => {
            let (old, left) = (output(&record.from, old), output(&record.to, left));
            Some(Say::HistorySwapOutput { old, left })
        }
        (_, None) if record.outcome != Outcome::NothingChanged => Some(Say::HistoryNotRead),
        (None, Some(_)) | (_, None) => None,
    };
    let clinician = record.names.clinician.as_deref();
    let mut notes = trouble(record.no_beats, record.shock);
    notes.extend(dials);
    notes.extend(record.shared.then_some(Say::HistorySwapShared));
    notes.extend(clinician.map(|name| Say::HistoryClinician { name: isolated(name) }));
    notes
}

fn trouble(no_beats: bool, shock: bool) -> Vec<Say> {
    let said = [(no_beats, Say::HistoryNoBeats), (shock, Say::HistoryShock)];
    said.into_iter().filter_map(|(is_so, say)| is_so.then_some(say)).collect()
}

/// The journey, each change of hands, and each reading of this wire unlike what was known.
fn way(record: &TransportRecord, wire: &Wire, now: Moment) -> Vec<Dated> {
    let hands = record.told.hands.iter().map(|one| handed(one, now));
    let unlike =
        |one: &&Reading| one.wire == wire.id && one.seen && one.by.is_some() && !one.compared.is_same();
    let readings = record.told.readings.iter().filter(unlike).map(|one| read(one, now));
    let journey = dated(record.ended, now, journey(record), journey_notes(record, now));
    hands.chain(readings).chain([journey]).collect()
}

fn journey(record: &TransportRecord) -> Say {
    let told = &record.told;
    match (&told.destination, told.target) {
        (_, Some(Target::Mri)) => Say::HistoryMri,
        (None, _) => Say::HistoryWayBegun,
        (Some(place), _) if told.left.is_none() => Say::HistoryWayNotLeft { place: isolated(place) },
        (Some(place), _) => Say::HistoryWay { place: isolated(place) },
    }
}

fn journey_notes(record: &TransportRecord, now: Moment) -> Vec<Say> {
    let clock = |at: Moment| clock_of(at.wall_ms, now);
    let left = record.told.left.map(|at| Say::HistoryLeft { time: clock(at) });
    let arrived = record.told.arrived.map(|at| Say::HistoryArrived { time: clock(at) });
    left.into_iter().chain(arrived).chain(trouble(record.no_beats, record.shock)).collect()
}

fn handed(hands: &Hands, now: Moment) -> Dated {
    let (from, to) = (isolated(&hands.from), isolated(&hands.to));
    dated(hands.at, now, Say::HistoryHands { from, to }, Vec::new())
}

fn read(reading: &Reading, now: Moment) -> Dated {
    let compared = &reading.compared;
    let dials = boxed(dials(compared));
    let value = match reading.leg {
        Leg::Leaving => Say::HistoryReadLeaving { dials },
        Leg::OnTheWay => Say::HistoryReadOnTheWay { dials },
        Leg::Arriving => Say::HistoryReadArriving { dials },
    };
    dated(compared.at, now, value, differs(compared))
}

fn dials(compared: &Compared) -> Say {
    let printed = &compared.printed;
    Say::HandedDials {
        output: boxed(in_unit(&printed.output, compared.unit)),
        rate: printed.rate.clone(),
        mv: boxed(printed.mv.as_deref().map_or(Say::Asynchronous, figure)),
    }
}
