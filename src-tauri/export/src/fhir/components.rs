//! The figures of a check as components of its Observation.

use domain::check::facts::Found;
use domain::record::{Printed, Record};
use domain::units::{MICRO_PER_MILLI, shortest};
use serde_json::{Value, json};

use super::codes::{self, Term};
use crate::care::Care;

/// Whether a figure is the value itself or a bound on it.
#[derive(Clone, Copy)]
enum Is {
    Exactly,
    AtLeast,
    AtMost,
}

pub fn of(check: &Care<'_>) -> Vec<Value> {
    let record = check.record();
    let mut made = record.stays.as_ref().map(|stays| dials(check, stays)).unwrap_or_default();
    made.extend(own(record));
    made.push(sensing(record));
    made.extend(capture(check));
    let margin_is = if record.capture == Found::AtMost { Is::AtLeast } else { Is::Exactly };
    made.extend(
        record.multiple.as_deref().map(|text| quantity(codes::MARGIN, text, codes::RATIO, margin_is)),
    );
    let width = shortest(record.pulse_width_us, MICRO_PER_MILLI);
    made.push(quantity(codes::PULSE_WIDTH, &width, codes::MILLISECOND, Is::Exactly));
    made
}

fn dials(check: &Care<'_>, stays: &Printed) -> Vec<Value> {
    let (chamber, unit) = (check.chamber(), check.record().unit);
    let mode = codes::mode(chamber, stays.mv.is_none()).concept();
    let mut made = vec![
        json!({ "code": codes::MODE.concept(), "valueCodeableConcept": mode }),
        quantity(codes::RATE, &stays.rate, codes::PER_MINUTE, Is::Exactly),
        quantity(codes::output(chamber, unit), &stays.output, codes::output_unit(unit), Is::Exactly),
    ];
    let number = |text: &String| quantity(codes::sensitivity(chamber), text, codes::MILLIVOLT, Is::Exactly);
    made.extend(stays.mv.as_ref().map(number));
    made
}

fn own(record: &Record) -> Vec<Value> {
    let Some((slowest, fastest)) = record.own else { return Vec::new() };
    [(codes::OWN_SLOWEST, slowest), (codes::OWN_FASTEST, fastest)]
        .map(|(term, rate)| quantity(term, &rate.to_string(), codes::PER_MINUTE, Is::Exactly))
        .to_vec()
}

fn sensing(record: &Record) -> Value {
    let is = match record.sensing {
        Found::Exact => Is::Exactly,
        Found::AtLeast | Found::SeenWhereItStood => Is::AtLeast,
        Found::SeenAtNone => return absent(codes::SENSING, "unknown"),
        Found::Nothing | Found::AtMost | Found::Bracket => return absent(codes::SENSING, "not-performed"),
    };
    match record.sensing_text.as_deref() {
        Some(text) => quantity(codes::SENSING, text, codes::MILLIVOLT, is),
        None => absent(codes::SENSING, "unknown"),
    }
}

/// Of a bracket the upper end bounds the threshold; the lower end stands beside it.
fn capture(check: &Care<'_>) -> Vec<Value> {
    let record = check.record();
    let term = codes::capture(check.chamber(), record.unit);
    let unit = codes::output_unit(record.unit);
    let (is, low) = match record.capture {
        Found::Exact => (Is::Exactly, None),
        Found::Bracket => (Is::AtMost, record.capture_low_text.as_deref()),
        Found::AtMost => (Is::AtMost, None),
        Found::Nothing | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone => {
            return vec![absent(term, "not-performed")];
        }
    };
    let Some(high) = record.capture_text.as_deref() else { return vec![absent(term, "unknown")] };
    let mut made = vec![quantity(term, high, unit, is)];
    made.extend(low.map(|low| quantity(codes::CAPTURE_LOW, low, unit, Is::Exactly)));
    made
}

fn quantity(term: Term, text: &str, unit: &str, is: Is) -> Value {
    let Some(value) = number(text) else { return absent(term, "error") };
    let mut made = json!({ "value": value, "unit": unit, "system": codes::UCUM, "code": unit });
    match is {
        Is::Exactly => {}
        Is::AtLeast => made["comparator"] = json!(">="),
        Is::AtMost => made["comparator"] = json!("<="),
    }
    json!({ "code": term.concept(), "valueQuantity": made })
}

/// A whole figure stays whole; trailing zeros of a dial are in the narrative, not in a JSON number.
fn number(text: &str) -> Option<Value> {
    if let Ok(whole) = text.parse::<u64>() {
        return Some(json!(whole));
    }
    text.parse::<f64>().ok().filter(|value| value.is_finite()).map(|value| json!(value))
}

fn absent(term: Term, reason: &str) -> Value {
    const SYSTEM: &str = "http://terminology.hl7.org/CodeSystem/data-absent-reason";
    json!({ "code": term.concept(), "dataAbsentReason": { "coding": [{ "system": SYSTEM, "code": reason }] } })
}
