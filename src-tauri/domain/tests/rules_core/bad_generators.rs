//! Generator files that are refused: where, what was found, what is allowed.

use domain::document::{Kind, Why};
use domain::nbg::NotACode;
use domain::profile::{FASTEST_RATE, MOST_OUTPUT, MOST_RATE, MOST_SENSITIVITY, Profile};
use domain::rules::Chamber;
use serde_json::{Value, json};

use crate::made::{every_shipped, generator};

fn good() -> Value {
    generator(&json!(["60", "70"]), "mA", &json!(["0.5", "1.0"]), &json!(["1.0", "2.0"]))
}

fn refused(pointer: &str, value: Value) -> (String, Why) {
    let mut file = good();
    *file.pointer_mut(pointer).unwrap() = value;
    let fault = Profile::from_json(&file.to_string()).unwrap_err();
    (fault.place, *fault.why)
}

fn outputs(positions: Value) -> (String, Why) {
    refused("/output/positions", positions)
}

fn at(place: &str, why: Why) -> (String, Why) {
    (place.to_owned(), why)
}

#[test]
fn the_file_the_faults_are_put_into_is_good() {
    assert!(Profile::from_json(&good().to_string()).is_ok());
}

#[test]
fn every_shipped_generator_is_read_written_and_marked_as_invented() {
    for profile in every_shipped() {
        assert_eq!(Profile::from_json(&profile.to_json()), Ok(profile.clone()));
        assert!(profile.example && profile.name.contains("invented"), "{}", profile.id);
    }
}

#[test]
fn positions_out_of_order_or_twice() {
    let unsorted = Why::Unsorted { found: "0.5".to_owned(), after: "1.0".to_owned() };
    assert_eq!(outputs(json!(["1.0", "0.5"])), at("output.positions[1]", unsorted));
    let duplicate = Why::Duplicate { found: "1.00".to_owned() };
    assert_eq!(outputs(json!(["0.5", "1.0", "1.00"])), at("output.positions[2]", duplicate));
    let overlap =
        json!([{ "from": "0.5", "to": "1.0", "step": "0.1" }, { "from": "1.0", "to": "2.0", "step": "0.5" }]);
    let duplicate = Why::Duplicate { found: "1.0".to_owned() };
    assert_eq!(outputs(overlap), at("output.positions[1]", duplicate));
}

#[test]
fn zero_and_negative_positions() {
    for found in ["0", "0.0", "-1.0", "-0"] {
        let why = Why::NotPositive { found: found.to_owned() };
        assert_eq!(outputs(json!(["0.5", found])), at("output.positions[1]", why));
    }
    let step = json!([{ "from": "0.5", "to": "1.0", "step": "0" }]);
    let why = Why::NotPositive { found: "0".to_owned() };
    assert_eq!(outputs(step), at("output.positions[0].step", why));
}

#[test]
fn figures_no_dial_prints() {
    for found in [".5", "08", "00.5", "1.", "1,0", "1e3", " 1.0", "1.0 mA", "0.0001", "٣"] {
        let why = Why::NotAsPrinted { found: found.to_owned() };
        assert_eq!(outputs(json!([found])), at("output.positions[0]", why), "{found}");
    }
    let why = Why::WrongKind { found: "0.5".to_owned(), wanted: Kind::Printed };
    assert_eq!(outputs(json!([0.5])), at("output.positions[0]", why.clone()));
    let span = json!([{ "from": 0.5, "to": "1.0", "step": "0.1" }]);
    assert_eq!(outputs(span), at("output.positions[0].from", why));
    let range = |least: &str| Why::OutOfRange {
        found: "1000".to_owned(),
        least: least.to_owned(),
        greatest: "999".to_owned(),
        unit: String::new(),
        source: String::new(),
    };
    assert_eq!(outputs(json!(["1000"])), at("output.positions[0]", range("0.001")));
    assert_eq!(refused("/rate_per_min", json!(["1000"])), at("rate_per_min[0]", range("1")));
    assert!(matches!(refused("/rate_per_min", json!(["60.5"])).1, Why::NotAsPrinted { .. }));
}

#[test]
fn spans_that_miss_their_end() {
    let spans = [("0.5", "1.0", "0.2"), ("1.0", "0.5", "0.1"), ("1.0", "1.0", "0.1"), ("1", "2", "0.5")];
    for (from, to, step) in spans {
        let why = Why::SpanMissesEnd { from: from.to_owned(), to: to.to_owned(), step: step.to_owned() };
        let span = json!([{ "from": from, "to": to, "step": step }]);
        assert_eq!(outputs(span), at("output.positions[0]", why));
    }
}

#[test]
fn too_many_positions_or_none() {
    let steps = |n: usize| json!([{ "from": "1", "to": n.to_string(), "step": "1" }]);
    let dials = [
        ("/rate_per_min", MOST_RATE),
        ("/output/positions", MOST_OUTPUT),
        ("/sensitivity_mV/positions", MOST_SENSITIVITY),
    ];
    for (pointer, most) in dials {
        let place = pointer.trim_start_matches('/').replace('/', ".");
        let count = |found| at(&place, Why::Count { found, least: 1, most });
        assert_eq!(refused(pointer, steps(most + 1)), count(most + 1));
        assert_eq!(refused(pointer, json!([])), count(0));
        let mut file = good();
        *file.pointer_mut(pointer).unwrap() = steps(most);
        assert!(Profile::from_json(&file.to_string()).is_ok(), "{pointer} {most}");
    }
    let endless = json!([{ "from": "0.001", "to": "999", "step": "0.001" }]);
    assert!(matches!(outputs(endless).1, Why::Count { .. } | Why::SpanMissesEnd { .. }));
    let fine = json!([{ "from": "0.001", "to": "999.000", "step": "0.001" }]);
    assert_eq!(outputs(fine), at("output.positions", Why::Count { found: 129, least: 1, most: 128 }));
}

#[test]
fn modes_that_are_no_code_or_contradict_the_dial() {
    let why = Why::NotAMode { found: "V0O".to_owned(), why: NotACode::DigitZero { place: 2 } };
    assert_eq!(refused("/modes", json!(["VVI", "V0O"])), at("modes[1]", why));
    let contradiction = Why::Contradicts { other: "sensitivity_mV.asynchronous".to_owned() };
    assert_eq!(refused("/modes", json!(["VVI"])), at("modes", contradiction.clone()));
    assert_eq!(refused("/sensitivity_mV/asynchronous", json!("none")), at("modes", contradiction));
    assert_eq!(refused("/modes", json!([])).1, Why::Count { found: 0, least: 1, most: 16 });
}

/// A check is led in AAI or VVI: a box with neither is not taken in, but what once was can be read for ever.
#[test]
fn no_mode_for_a_check_and_rates_that_no_patient_is_paced_at() {
    for modes in [json!(["VOO"]), json!(["VOO", "VVT"]), json!(["DOO", "VOO", "VAT"])] {
        assert_eq!(refused("/modes", modes), at("modes", Why::NoDemandMode));
    }
    let why = Why::OutOfRange {
        found: "600".to_owned(),
        least: "1".to_owned(),
        greatest: FASTEST_RATE.to_string(),
        unit: "/min".to_owned(),
        source: String::new(),
    };
    assert_eq!(refused("/rate_per_min", json!(["60", "600"])), at("rate_per_min", why));
    let mut file = good();
    file["rate_per_min"] = json!(["60", "250"]);
    let taken = Profile::from_json(&file.to_string()).unwrap();
    assert!(taken.is_for(Chamber::Ventricle) && !taken.is_for(Chamber::Atrium));
    file["rate_per_min"] = json!(["60", "600"]);
    file["modes"] = json!(["VOO"]);
    assert!(serde_json::from_value::<Profile>(file).is_ok(), "in a record of before");
}

#[test]
fn other_fields() {
    let not_one_of = |found: &str, allowed: &[&str]| Why::NotOneOf {
        found: found.to_owned(),
        allowed: allowed.iter().map(|name| (*name).to_owned()).collect(),
    };
    assert_eq!(refused("/output/unit", json!("A")), at("output.unit", not_one_of("A", &["mA", "V"])));
    assert_eq!(refused("/control", json!("knob")).1, not_one_of("knob", &["dial", "keys"]));
    assert_eq!(refused("/pulse_width_us", json!(0)).1, Why::NotPositive { found: "0".to_owned() });
    assert!(matches!(refused("/auto_lock_s", json!(3_601)).1, Why::OutOfRange { .. }));
    assert_eq!(refused("/name", json!("")), at("name", Why::TextLength { most: 60 }));
    assert_eq!(refused("/name", json!("x".repeat(61))).1, Why::TextLength { most: 60 });
    assert_eq!(refused("/rate_per_min", Value::Null), at("rate_per_min", Why::Missing));
}
