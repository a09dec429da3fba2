//! A file that is no scenario gets a sentence: what is wrong, where, what is allowed.

use serde_json::{Value, json};
use terminal::rehearsal::rehearse;
use terminal::scenario::read;

use super::folder;

fn plain() -> Value {
    let text = std::fs::read_to_string(folder().join("plain-v.json")).unwrap();
    serde_json::from_str(&text).unwrap()
}

/// What is said about the plain scenario with one thing changed.
fn said(change: impl FnOnce(&mut Value)) -> String {
    let mut scenario = plain();
    change(&mut scenario);
    match read(&scenario.to_string()) {
        Err(fault) => fault.to_string(),
        Ok(ready) => match rehearse(&ready, &mut |_| {}) {
            Err(fault) => fault.to_string(),
            Ok(_) => panic!("played"),
        },
    }
}

#[test]
fn not_json() {
    let sentence = read("{").unwrap_err().to_string();
    assert!(sentence.contains("line 1"), "{sentence}");
}

#[test]
fn a_field_that_does_not_exist() {
    let sentence = said(|scenario| scenario["hart"] = json!({}));
    assert!(sentence.contains("hart") && sentence.contains("heart"), "{sentence}");
}

#[test]
fn a_real_patient() {
    let sentence = said(|scenario| scenario["invented"] = json!(false));
    assert!(sentence.contains("invented"), "{sentence}");
}

#[test]
fn a_generator_that_nobody_has() {
    let sentence = said(|scenario| scenario["generator"] = json!("mine"));
    assert!(sentence.contains("mine") && sentence.contains("example-volts"), "{sentence}");
}

#[test]
fn a_generator_file_with_a_fault() {
    let sentence = said(|scenario| scenario["generator"] = json!({ "id": "mine" }));
    assert!(sentence.starts_with("generator:"), "{sentence}");
}

#[test]
fn a_rule_outside_its_range() {
    let sentence = said(|scenario| scenario["rules_changed"] = json!({ "own_limit": 10 }));
    assert!(
        sentence.contains("own_limit") && sentence.contains("30") && sentence.contains("60"),
        "{sentence}"
    );
}

#[test]
fn a_rule_that_does_not_exist() {
    let sentence = said(|scenario| scenario["rules_changed"] = json!({ "sensing_rule": "a tenth" }));
    assert!(sentence.contains("sensing_rule") && sentence.contains("half"), "{sentence}");
}

#[test]
fn dials_found_where_there_is_no_position() {
    let sentence = said(|scenario| scenario["found"]["output"] = json!("6.05"));
    assert!(sentence.contains("OUTPUT") && sentence.contains("6.05"), "{sentence}");
}

#[test]
fn a_heart_that_cannot_exist() {
    let sentence = said(|scenario| scenario["heart"]["atrium"]["rate_per_min"] = json!(500));
    assert!(sentence.contains("interval_us"), "{sentence}");
}

#[test]
fn a_script_that_taps_what_is_not_there() {
    let sentence = said(|scenario| {
        scenario["script"] = json!([{ "on": { "asks": "ask-first-look" }, "do": { "tap": "fly" } }]);
    });
    assert!(sentence.contains("fly") && sentence.contains("every-beat-paced"), "{sentence}");
}
