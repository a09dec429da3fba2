//! FHIR R4. Validators of other origin run on the kept bundle by hand: `tests/outside/fhir_bundle.py`.

use std::collections::BTreeSet;

use domain::check::facts::Why;
use domain::flags::Flag;
use domain::record::Record;
use domain::rules::Chamber;
use domain::units::OutputUnit;
use export::{Care, bundle};
use serde_json::{Value, json};
use words::Language;

use crate::made::{atrium, every_flag, record, ventricle, wire};

fn observations(wire: &domain::state::bed::Wire) -> Vec<Value> {
    resources(wire, "Observation")
}

fn resources(wire: &domain::state::bed::Wire, kind: &str) -> Vec<Value> {
    let made = bundle(&Care::of_wire(wire), &[]).unwrap();
    let all = made["entry"].as_array().unwrap().iter().map(|entry| entry["resource"].clone());
    all.filter(|resource| resource["resourceType"] == kind).collect()
}

/// The value under this text.
fn component(observation: &Value, text: &str) -> Value {
    let all = observation["component"].as_array().unwrap();
    let found: Vec<&Value> = all.iter().filter(|part| part["code"]["text"] == text).collect();
    assert_eq!(found.len(), 1, "{text}");
    found[0].clone()
}

fn codes(value: &Value, found: &mut BTreeSet<(String, String)>) {
    match value {
        Value::Object(fields) => {
            if let (Some(system), Some(code)) = (value["system"].as_str(), value["code"].as_str()) {
                found.insert((system.to_owned(), code.to_owned()));
            }
            fields.values().for_each(|field| codes(field, found));
        }
        Value::Array(items) => items.iter().for_each(|item| codes(item, found)),
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}

#[test]
fn sent_twice_it_makes_nothing_twice() {
    let made = bundle(&Care::of_wire(&ventricle()), &[]).unwrap();
    assert_eq!(made["type"], "transaction");
    let mut ids = BTreeSet::new();
    for entry in made["entry"].as_array().unwrap() {
        let identifier = &entry["resource"]["identifier"][0];
        let search = format!(
            "identifier={}|{}",
            identifier["system"].as_str().unwrap(),
            identifier["value"].as_str().unwrap()
        );
        let kind = &entry["resource"]["resourceType"];
        assert_eq!(entry["request"], json!({ "method": "POST", "url": kind, "ifNoneExist": search }));
        assert_eq!(entry["fullUrl"], identifier["value"]);
        ids.insert(search);
    }
    assert_eq!(ids.len(), 10, "five checks, each done and seen");
}

/// R4: a Procedure has a status, a code and a subject (1..1); a period does not end before it begins.
#[test]
fn each_check_is_a_procedure_of_which_its_observation_is_a_part() {
    let (ventricle, atrium) = (ventricle(), atrium());
    for wire in [&ventricle, &atrium] {
        let (done, seen) = (resources(wire, "Procedure"), observations(wire));
        assert_eq!(done.len(), seen.len());
        for (procedure, observation) in done.iter().zip(&seen) {
            assert_eq!(observation["partOf"][0]["reference"], procedure["identifier"][0]["value"]);
            assert!(
                procedure["subject"]["reference"].is_null() && procedure["subject"]["display"].is_string()
            );
            assert_eq!(procedure["performedPeriod"]["end"], observation["effectiveDateTime"]);
            assert!(procedure["text"]["div"].as_str().unwrap().contains("Pacing check"));
        }
    }
    let made = |change: fn(&mut Record)| {
        let mut one = record(1, 0);
        change(&mut one);
        resources(&wire(Chamber::Ventricle, vec![one]), "Procedure").remove(0)
    };
    assert_eq!(made(|_| {})["status"], "completed");
    assert_eq!(made(|record| record.why_capture = Why::Stopped)["status"], "stopped");
    let back = made(|record| record.opened.wall_ms = record.ended.wall_ms + 1);
    assert!(back["performedPeriod"]["start"].is_null() && back["performedPeriod"]["end"].is_string());
}

/// UCUM is case sensitive: MA is megaampere, MV megavolt, and bpm is no unit (read).
#[test]
fn units_are_ucum_in_their_case() {
    let mut found = BTreeSet::new();
    for wire in [ventricle(), atrium()] {
        observations(&wire).iter().for_each(|observation| codes(observation, &mut found));
    }
    let units: Vec<&str> = found
        .iter()
        .filter(|(system, _)| system == "http://unitsofmeasure.org")
        .map(|(_, c)| c.as_str())
        .collect();
    assert_eq!(units, ["1", "V", "mA", "mV", "ms", "{beats}/min"]);
}

/// The verified codes and no other (LOINC 2.82 directory and ISO/IEEE 11073-10103, read).
#[test]
fn only_verified_codes_are_used() {
    let mut found = BTreeSet::new();
    for wire in [ventricle(), atrium()] {
        observations(&wire).iter().for_each(|observation| codes(observation, &mut found));
    }
    let of = |system: &str| -> Vec<&str> {
        found.iter().filter(|(s, _)| s == system).map(|(_, code)| code.as_str()).collect()
    };
    assert_eq!(of("http://loinc.org"), ["99679-3", "99680-1", "99684-3", "99691-8"]);
    assert_eq!(of("urn:iso:std:iso:11073:10101"), ["754753", "754773"]);
}

/// LOINC's own check digit: Luhn's over the number (arithmetic).
#[test]
fn loinc_numbers_end_in_their_check_digit() {
    for code in ["99679-3", "99680-1", "99684-3", "99691-8"] {
        let (digits, check) = code.split_once('-').unwrap();
        let sum: u32 = digits
            .bytes()
            .rev()
            .map(|byte| u32::from(byte - b'0'))
            .enumerate()
            .map(|(at, digit)| if at % 2 == 0 { digit * 2 / 10 + digit * 2 % 10 } else { digit })
            .sum();
        assert_eq!(((10 - sum % 10) % 10).to_string(), check, "{code}");
    }
}

/// The temporary terms are in mA; volts and the ventricle go without a code rather than under a wrong one.
#[test]
fn volts_never_stand_under_a_code_for_milliamperes() {
    let volts = wire(Chamber::Atrium, vec![Record { unit: OutputUnit::Volt, ..record(1, 0) }]);
    let observation = &observations(&volts)[0];
    for text in ["Atrial stimulation setting", "Atrial stimulation threshold"] {
        let part = component(observation, text);
        assert_eq!(part["code"], json!({ "text": text }));
        assert_eq!(part["valueQuantity"]["code"], "V");
    }
    let part = component(&observations(&atrium())[0], "Atrial stimulation threshold");
    assert_eq!(part["code"]["coding"], json!([{ "system": "http://loinc.org", "code": "99680-1" }]));
}

#[test]
fn bounds_are_bounds_and_what_was_not_tested_is_absent() {
    let [whole, bracket, bounds, nothing, _] = observations(&ventricle()).try_into().unwrap();
    let threshold = "Ventricular stimulation threshold";
    assert_eq!(
        component(&whole, threshold)["valueQuantity"],
        json!({ "value": 1.2, "unit": "mA", "system": "http://unitsofmeasure.org", "code": "mA" })
    );
    assert_eq!(component(&bracket, threshold)["valueQuantity"]["comparator"], "<=");
    assert_eq!(
        component(&bracket, "Highest output at which a spike made no beat")["valueQuantity"]["value"],
        1.1
    );
    assert_eq!(component(&bracket, "Sensing threshold")["valueQuantity"]["comparator"], ">=");
    assert_eq!(component(&bounds, threshold)["valueQuantity"]["comparator"], "<=");
    let margin = component(&bounds, "Set output divided by capture threshold");
    assert_eq!(margin["valueQuantity"]["comparator"], ">=");
    let absent = component(&nothing, threshold);
    assert_eq!(absent["dataAbsentReason"]["coding"][0]["code"], "not-performed");
    assert!(absent.get("valueQuantity").is_none());
    let mode = component(&nothing, "Pacemaker mode");
    assert_eq!(mode["valueCodeableConcept"], json!({ "text": "VOO" }), "asynchronous has no verified code");
    assert_eq!(nothing["note"].as_array().unwrap().len(), 2, "example rules, dials not read");
}

/// As the result screen says them, in `note` and for the reader alike.
#[test]
fn what_somebody_must_act_on_is_a_note() {
    let flags = every_flag();
    let sentences: Vec<String> =
        flags.iter().map(|flag| words::say(&flag.say(), Language::English).unwrap()).collect();
    let flagged = wire(Chamber::Ventricle, vec![Record { flags, example_rules: false, ..record(1, 0) }]);
    let observation = observations(&flagged).remove(0);
    let notes = observation["note"].as_array().unwrap();
    assert_eq!(notes.iter().map(|note| note["text"].as_str().unwrap()).collect::<Vec<_>>(), sentences);
    let div = observation["text"]["div"].as_str().unwrap();
    assert!(sentences.iter().all(|said| div.contains(&format!("<p>{said}</p>"))), "{div}");

    let unread = Record { read: false, example_rules: false, flags: vec![Flag::NotRead], ..record(1, 0) };
    let observation = observations(&wire(Chamber::Ventricle, vec![unread])).remove(0);
    assert_eq!(observation["note"].as_array().unwrap().len(), 1, "said once: {}", observation["note"]);
}

#[test]
fn every_observation_stands_in_words_too_and_names_nobody() {
    for observation in observations(&ventricle()) {
        let div = observation["text"]["div"].as_str().unwrap();
        assert!(
            div.starts_with("<div xmlns=\"http://www.w3.org/1999/xhtml\"><p>") && div.ends_with("</p></div>")
        );
        assert!(
            div.contains("ventricle, epicardial, bipolar")
                && div.contains("Ventricular stimulation threshold: ")
        );
        let whole = observation.to_string();
        assert!(!whole.contains("Clinician") && !whole.contains("subject"));
        for part in observation["component"].as_array().unwrap() {
            assert!(part["code"]["text"].is_string());
        }
    }
}
