//! A FHIR R4 Bundle: one Observation a check, for a hospital's record system.
//!
//! A transaction of conditional creates: sent twice, it makes nothing twice. The patient is whoever the receiving
//! system puts in: Holdfast knows no name and no number. A Procedure is not made, since R4 demands its patient.

mod codes;
mod components;
mod narrative;

use serde_json::{Value, json};

use crate::care::Care;
use crate::time::stamp;

/// Why there is no bundle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BundleFault {
    /// A time outside the range of calendar dates.
    Time,
}

/// The bundle as a JSON value.
///
/// # Errors
/// See `BundleFault`.
pub fn bundle(checks: &[Care<'_>]) -> Result<Value, BundleFault> {
    let entries: Option<Vec<Value>> = checks.iter().map(entry).collect();
    let entries = entries.ok_or(BundleFault::Time)?;
    Ok(json!({ "resourceType": "Bundle", "type": "transaction", "entry": entries }))
}

fn entry(check: &Care<'_>) -> Option<Value> {
    let id = format!("urn:uuid:{}", check.record().id);
    let search = format!("identifier={}|{id}", codes::URI);
    Some(json!({
        "fullUrl": id,
        "resource": observation(check, &id)?,
        "request": { "method": "POST", "url": "Observation", "ifNoneExist": search },
    }))
}

fn observation(check: &Care<'_>, id: &str) -> Option<Value> {
    let record = check.record();
    let mut made = json!({
        "resourceType": "Observation",
        "text": narrative::of(check),
        "contained": [device(check)],
        "identifier": [{ "system": codes::URI, "value": id }],
        "status": "final",
        "category": [codes::PROCEDURE_CATEGORY.concept()],
        "code": { "text": codes::CHECK },
        "effectiveDateTime": stamp(record.ended)?,
        "device": { "reference": "#generator" },
        "component": components::of(check),
    });
    let notes: Vec<Value> = narrative::notes(check).into_iter().map(|text| json!({ "text": text })).collect();
    if !notes.is_empty() {
        made["note"] = json!(notes);
    }
    Some(made)
}

/// No make and no model: the unit's own name for its box.
fn device(check: &Care<'_>) -> Value {
    json!({
        "resourceType": "Device",
        "id": "generator",
        "type": { "text": codes::GENERATOR },
        "deviceName": [{ "name": check.record().generator, "type": "user-friendly-name" }],
    })
}
