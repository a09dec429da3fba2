//! A FHIR R4 Bundle: one Procedure and one Observation a check, and one Procedure for each change of box or battery
//! and each transport between them, for a hospital's record system.
//!
//! A transaction of conditional creates: sent twice, it makes nothing twice. The patient is whoever the receiving
//! system puts in: Holdfast knows no name and no number.

mod between;
mod codes;
mod components;
mod narrative;
mod procedure;

use serde_json::{Value, json};

use crate::between::Between;
use crate::care::Care;
use crate::time::stamp;

/// Why there is no bundle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BundleFault {
    /// A time outside the range of calendar dates.
    Time,
    /// A flag has no sentence.
    Words,
}

/// The bundle as a JSON value.
///
/// # Errors
/// See `BundleFault`.
pub fn bundle(checks: &[Care<'_>], between: &[Between<'_>]) -> Result<Value, BundleFault> {
    let checks: Vec<[Value; 2]> = checks.iter().map(entries).collect::<Result<_, _>>()?;
    let between: Option<Vec<Value>> = between.iter().map(between::of).collect();
    let between = between.ok_or(BundleFault::Time)?;
    let entries = [checks.concat(), between].concat();
    Ok(json!({ "resourceType": "Bundle", "type": "transaction", "entry": entries }))
}

fn entries(check: &Care<'_>) -> Result<[Value; 2], BundleFault> {
    let done = procedure::urn(check);
    let seen = format!("urn:uuid:{}", check.record().id);
    let observation = observation(check, &seen, &done)?;
    let procedure = procedure::of(check).ok_or(BundleFault::Time)?;
    Ok([entry(&done, procedure), entry(&seen, observation)])
}

fn entry(urn: &str, resource: Value) -> Value {
    let search = format!("identifier={}|{urn}", codes::URI);
    let request = json!({ "method": "POST", "url": resource["resourceType"], "ifNoneExist": search });
    json!({ "fullUrl": urn, "resource": resource, "request": request })
}

fn observation(check: &Care<'_>, id: &str, part_of: &str) -> Result<Value, BundleFault> {
    let record = check.record();
    let notes = narrative::notes(check).ok_or(BundleFault::Words)?;
    let mut made = json!({
        "resourceType": "Observation",
        "text": narrative::of(check, &notes),
        "contained": [device(check)],
        "identifier": [{ "system": codes::URI, "value": id }],
        "partOf": [{ "reference": part_of }],
        "status": "final",
        "category": [codes::PROCEDURE_CATEGORY.concept()],
        "code": { "text": codes::CHECK },
        "effectiveDateTime": stamp(record.ended).ok_or(BundleFault::Time)?,
        "device": { "reference": "#generator" },
        "component": components::of(check),
    });
    let notes: Vec<Value> = notes.into_iter().map(|text| json!({ "text": text })).collect();
    if !notes.is_empty() {
        made["note"] = json!(notes);
    }
    Ok(made)
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
