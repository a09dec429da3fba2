//! The last object of `rehearse --json`: the same keys for every scenario, each explained, no null without a why.

use std::collections::BTreeSet;

use domain::check::facts::Found;
use serde_json::{Map, Value};

use super::{all, ending, folder};

/// Of the last object, and of the objects in it that every ending has.
const KEYS: &[&str] = &["code", "flags", "outcome", "plan", "readback", "refusals", "stays", "thresholds"];
const DIALS: &[&str] = &["asynchronous", "output_mA", "rate_per_min", "sensitivity_mV"];
const THRESHOLDS: &[&str] = &[
    "capture_at_most",
    "capture_going_down_mA",
    "capture_lost_at_mA",
    "capture_mA",
    "own_fastest_per_min",
    "own_slowest_per_min",
    "sensing_at_least",
    "sensing_mV",
    "sensing_not_raised",
    "why",
];

/// A threshold, and under which name `why` holds the reason where it is null.
const FOUND: &[(&str, &str)] = &[
    ("own_slowest_per_min", "own"),
    ("own_fastest_per_min", "own"),
    ("sensing_mV", "sensing"),
    ("capture_mA", "capture"),
];

fn object(value: &Value) -> &Map<String, Value> {
    value.as_object().unwrap()
}

/// With volts read as mA, so that there is one list of keys.
fn keys(object: &Map<String, Value>) -> Vec<String> {
    let keys: BTreeSet<String> = object.keys().map(|key| in_ma(key)).collect();
    keys.into_iter().collect()
}

fn in_ma(key: &str) -> String {
    key.strip_suffix("_V").map_or_else(|| key.to_owned(), |stem| format!("{stem}_mA"))
}

#[test]
fn every_scenario_has_exactly_the_keys_that_are_told() {
    let mut volts = 0;
    for (name, ready) in all() {
        let last = ending(&name, &ready).json();
        assert_eq!(keys(object(&last)), KEYS, "{name}");
        assert_eq!(keys(object(&last["thresholds"])), THRESHOLDS, "{name}");
        for dials in ["plan", "readback", "stays"] {
            assert!(last[dials].is_null() || keys(object(&last[dials])) == DIALS, "{name}: {dials}");
        }
        assert!(last["stays"].is_object(), "{name}");
        volts += u32::from(last["stays"].get("output_V").is_some());
    }
    assert!(volts > 0, "no scenario in volts");
}

/// Of an exact one the position below it, which may have held on the way down, is no loss to tell.
#[test]
fn only_a_threshold_told_as_a_range_has_an_output_that_did_not_hold() {
    let (mut ranges, mut exact) = (0, 0);
    for (name, ready) in all() {
        let ended = ending(&name, &ready);
        let last = ended.json();
        let unit = if last["stays"].get("output_V").is_some() { "V" } else { "mA" };
        let is_range = ended.record.as_ref().is_some_and(|record| record.capture == Found::Bracket);
        let lost = &last["thresholds"][format!("capture_lost_at_{unit}")];
        assert_eq!(lost.is_number(), is_range, "{name}: {lost}");
        ranges += u32::from(is_range);
        exact += u32::from(!is_range);
    }
    assert!(ranges > 0 && exact > 0);
}

#[test]
fn a_threshold_that_is_null_always_says_why() {
    let mut seen = BTreeSet::new();
    for (name, ready) in all() {
        let last = ending(&name, &ready).json();
        let found: Map<String, Value> =
            object(&last["thresholds"]).iter().map(|(key, value)| (in_ma(key), value.clone())).collect();
        let why = object(&last["thresholds"]["why"]);
        for (threshold, reason) in FOUND {
            let said = why.get(*reason).and_then(Value::as_str);
            let is_null = found[*threshold].is_null();
            assert_eq!(said.is_some_and(|why| why.len() > 3), is_null, "{name}: {threshold}, {why:?}");
            seen.extend(said.map(str::to_owned));
        }
    }
    for why in ["blocked", "new-patient", "not-seen", "stopped", "own-too-fast"] {
        assert!(seen.contains(why), "{why} is not among {seen:?}");
    }
}

#[test]
fn each_key_is_explained_to_whoever_reads_them() {
    let readme = std::fs::read_to_string(folder().join("README.md")).unwrap();
    for key in KEYS.iter().chain(DIALS).chain(THRESHOLDS) {
        let stem = key.strip_suffix("_mA").map(|stem| format!("`{stem}_…`"));
        let is_told = readme.contains(&format!("`{key}`")) || stem.is_some_and(|stem| readme.contains(&stem));
        assert!(is_told, "scenarios/README.md does not explain {key}");
    }
}
