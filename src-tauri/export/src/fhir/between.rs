//! What befell a wire between its checks, as Procedures: no code for any of it was read in a directory, so they stand
//! in words alone.

use domain::moment::Moment;
use domain::record::Printed;
use domain::state::bed::{Bed, Wire};
use domain::state::swap::{Outcome, SwapRecord};
use domain::state::transport::TransportRecord;
use domain::swap::facts::Work;
use domain::units::OutputUnit;
use serde_json::{Value, json};
use uuid::Uuid;

use super::{codes, entry, narrative, procedure};
use crate::between::{Between, differed};
use crate::care::{chamber_word, kind_word, polarity_word};
use crate::time::stamp;

/// `None`: a time outside the range of calendar dates.
pub fn of(one: &Between<'_>) -> Option<Value> {
    match one {
        Between::Change { wire, record, units } => {
            let lines = change_lines(wire, record, *units);
            made(
                (record.id, record.opened, record.ended),
                change_code(record.work),
                change_status(record.outcome),
                &lines,
            )
        }
        Between::Way { bed, record } => {
            let status = if record.told.left.is_some() { "completed" } else { "not-done" };
            let lines = way_lines(bed, record)?;
            made((record.id, record.began, record.ended), codes::TRANSPORT, status, &lines)
        }
    }
}

fn made((id, from, to): (Uuid, Moment, Moment), code: &str, status: &str, lines: &[String]) -> Option<Value> {
    let urn = format!("urn:uuid:{id}");
    let said: Vec<String> = std::iter::once(code.to_owned()).chain(lines.iter().cloned()).collect();
    let resource = json!({
        "resourceType": "Procedure",
        "text": narrative::div(&said),
        "identifier": [{ "system": codes::URI, "value": urn }],
        "status": status,
        "code": { "text": code },
        "subject": { "display": codes::SUBJECT },
        "performedPeriod": procedure::period(from, to)?,
        "note": lines.iter().map(|text| json!({ "text": text })).collect::<Vec<Value>>(),
    });
    Some(entry(&urn, resource))
}

fn change_code(work: Work) -> &'static str {
    match work {
        Work::Box => codes::CHANGE_OF_BOX,
        Work::Battery => codes::CHANGE_OF_BATTERY,
    }
}

fn change_status(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Moved | Outcome::BatteryChanged => "completed",
        Outcome::BackInTheOld => "stopped",
        Outcome::NothingChanged => "not-done",
    }
}

fn change_lines(
    wire: &Wire,
    record: &SwapRecord,
    (before, after): (Option<OutputUnit>, Option<OutputUnit>),
) -> Vec<String> {
    let what = match record.outcome {
        Outcome::Moved => format!("From {} to {}", record.from, record.to),
        Outcome::BatteryChanged => format!("Another battery in {}", record.to),
        Outcome::BackInTheOld => format!("Unplugged, and back in {}", record.to),
        Outcome::NothingChanged => "Nothing was unplugged".to_owned(),
    };
    let dials = |name: &str, printed: Option<&Printed>, unit: Option<OutputUnit>| {
        let unit = unit.map(OutputUnit::symbol).unwrap_or_default();
        printed.map(|dials| {
            let mv = dials.mv.as_deref().unwrap_or("asynchronous");
            format!("Dials {name}: OUTPUT {} {unit}, RATE {} /min, mV {mv}", dials.output, dials.rate)
        })
    };
    let not_read = record.left.is_none() && record.outcome != Outcome::NothingChanged;
    let said = [
        (not_read, "The dials were not read at the end."),
        (record.shared, "The old generator paced another wire of this patient too."),
        (record.no_beats, NO_BEATS),
        (record.shock, SHOCK),
    ];
    let wire = format!("Wire: {}, {}, {}", chamber_word(wire), kind_word(wire), polarity_word(wire));
    [
        Some(wire),
        Some(what),
        dials("before", record.old.as_ref(), before),
        dials("after", record.left.as_ref(), after),
    ]
    .into_iter()
    .flatten()
    .chain(so(said))
    .collect()
}

const NO_BEATS: &str = "A time without beats was reported.";
const SHOCK: &str = "A shock was given.";

fn so<const N: usize>(said: [(bool, &str); N]) -> impl Iterator<Item = String> {
    said.into_iter().filter(|(is_so, _)| *is_so).map(|(_, text)| text.to_owned())
}

fn way_lines(bed: &Bed, record: &TransportRecord) -> Option<Vec<String>> {
    let told = &record.told;
    let mut lines = Vec::new();
    match told.left {
        Some(left) => lines.push(format!("Left: {}", stamp(left)?)),
        None => lines.push("Nobody was moved".to_owned()),
    }
    if let Some(arrived) = told.arrived {
        lines.push(format!("Arrived: {}", stamp(arrived)?));
    }
    for hands in &told.hands {
        lines.push(format!("Handed from one team to another: {}", stamp(hands.at)?));
    }
    lines.extend(differed(bed, record).into_iter().map(|dial| format!("Read unlike what was known: {dial}")));
    lines.extend(so([(record.no_beats, NO_BEATS), (record.shock, SHOCK)]));
    Some(lines)
}
