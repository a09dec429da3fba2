//! The check as something that was done: its Observation is a part of it.

use domain::check::facts::Why;
use domain::moment::Moment;
use domain::record::Record;
use serde_json::{Value, json};
use uuid::Uuid;

use super::{codes, narrative};
use crate::care::Care;
use crate::time::stamp;

/// Turns the check's random number into another one: the same for the same check, and no other check's.
const OTHER: u128 = 0x5052_4F43;

/// A name of its own, since a bundle may hold each only once.
pub fn urn(check: &Care<'_>) -> String {
    format!("urn:uuid:{}", Uuid::from_u128(check.record().id.as_u128() ^ OTHER))
}

/// R4 demands a subject: it is there in words, for the receiving system to put its patient in.
pub fn of(check: &Care<'_>) -> Option<Value> {
    let record = check.record();
    Some(json!({
        "resourceType": "Procedure",
        "text": narrative::of_act(check),
        "identifier": [{ "system": codes::URI, "value": urn(check) }],
        "status": status(record),
        "code": { "text": codes::CHECK },
        "subject": { "display": codes::SUBJECT },
        "performedPeriod": period(record.opened, record.ended)?,
    }))
}

fn status(record: &Record) -> &'static str {
    let left =
        [record.why_sensing, record.why_capture].iter().any(|why| matches!(why, Why::Stopped | Why::Away));
    if left { "stopped" } else { "completed" }
}

/// Without a beginning where the clock was set back meanwhile: a period does not end before it begins.
pub fn period(from: Moment, to: Moment) -> Option<Value> {
    let end = stamp(to)?;
    if from.wall_ms > to.wall_ms {
        return Some(json!({ "end": end }));
    }
    Some(json!({ "start": stamp(from)?, "end": end }))
}
