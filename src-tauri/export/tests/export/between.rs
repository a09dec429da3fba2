//! What befell a wire between its checks, in each file that leaves.

use domain::State;
use export::{BETWEEN_COLUMNS, Between, Care, between_csv, bundle, pdf};
use serde_json::{Value, json};
use words::Language;

use crate::made::moved;

/// As typed on the tablet: of none of it a letter leaves.
const TYPED: [&str; 5] = ["Clinician", "Room behind", "QX", "ZK", "Bay 10"];

fn cells(column: &str) -> Vec<String> {
    let state = moved();
    let table = between_csv(&Between::of_bed(&state, &state.beds[0])).unwrap();
    let mut reader = ::csv::ReaderBuilder::new().from_reader(table.as_slice());
    let at = BETWEEN_COLUMNS.iter().position(|name| *name == column).unwrap();
    reader.records().map(|row| row.unwrap()[at].to_owned()).collect()
}

#[test]
fn each_change_and_each_journey_is_one_row() {
    assert_eq!(cells("kind"), ["box", "box", "battery", "box", "transport", "transport"]);
    let outcomes =
        ["moved", "back_in_the_old_box", "battery_changed", "nothing_changed", "moved", "nobody_moved"];
    assert_eq!(cells("outcome"), outcomes);
    assert_eq!(cells("dials_read"), ["yes", "no", "yes", "", "yes", "no"]);
    assert_eq!(cells("shared_box"), ["no", "no", "yes", "no", "", ""]);
    assert_eq!((cells("no_beats")[2].as_str(), cells("shock")[2].as_str()), ("yes", "yes"));
    assert_eq!(cells("to")[4..], ["imaging", "mri"]);
    assert_eq!(cells("handovers")[4..], ["2", "0"]);
    assert_eq!(cells("left")[4], "2026-11-25T01:10:00+01:00");
}

/// mA stand beside mA, volts beside volts; what stood elsewhere on the way is said with its wire.
#[test]
fn figures_keep_their_units() {
    assert_eq!((&cells("output_before")[0], &cells("output_before_unit")[0]), (&"3.6".into(), &"mA".into()));
    assert_eq!((&cells("output_after")[0], &cells("output_after_unit")[0]), (&"14.0".into(), &"V".into()));
    let unread = (cells("output_after")[1].clone(), cells("output_after_unit")[1].clone());
    assert_eq!(unread, (String::new(), String::new()));
    let differed = "ventricle OUTPUT 3.0 mA instead of 3.6 mA; ventricle mV asynchronous instead of 2.0";
    assert_eq!(cells("differed")[4], differed);
}

#[test]
fn each_is_a_procedure_in_words_without_a_code() {
    let state = moved();
    let bundle = bundle(&[], &Between::of_bed(&state, &state.beds[0])).unwrap();
    let all: Vec<&Value> =
        bundle["entry"].as_array().unwrap().iter().map(|entry| &entry["resource"]).collect();
    let status: Vec<&str> = all.iter().map(|one| one["status"].as_str().unwrap()).collect();
    assert_eq!(status, ["completed", "stopped", "completed", "not-done", "completed", "not-done"]);
    for (entry, one) in bundle["entry"].as_array().unwrap().iter().zip(&all) {
        assert_eq!(one["resourceType"], "Procedure");
        assert!(one["code"].get("coding").is_none() && one["code"]["text"].is_string());
        assert!(one["subject"]["display"].is_string());
        assert!(one["text"]["div"].as_str().unwrap().contains(one["code"]["text"].as_str().unwrap()));
        let urn = one["identifier"][0]["value"].as_str().unwrap();
        let search = format!("identifier=urn:ietf:rfc:3986|{urn}");
        assert_eq!(entry["request"], json!({ "method": "POST", "url": "Procedure", "ifNoneExist": search }));
    }
    let said = |at: usize, text: &str| all[at].to_string().contains(text);
    assert!(said(0, "From example-fine-current to example-volts") && said(0, "OUTPUT 14.0 V"));
    assert!(said(1, "not read") && said(2, "another wire") && said(2, "shock"));
    assert!(said(4, "OUTPUT 3.0 mA instead of 3.6 mA"));
}

#[test]
fn what_people_typed_stays_on_the_tablet() {
    let state = moved();
    let tablet = serde_json::to_string(&state).unwrap();
    let between = Between::of_bed(&state, &state.beds[0]);
    let bundle = bundle(&[], &between).unwrap().to_string();
    let csv = String::from_utf8(between_csv(&between).unwrap()).unwrap();
    for typed in TYPED {
        assert!(tablet.contains(typed), "{typed} was typed");
        assert!(!bundle.contains(typed) && !csv.contains(typed), "{typed}");
    }
}

/// A journey is of the patient: with a second wire in the bed it is still one.
#[test]
fn a_journey_with_two_wires_is_told_once() {
    let mut state = moved();
    let mut other = state.beds[0].wires[0].clone();
    (other.id, other.swaps) = (2, Vec::new());
    state.beds[0].wires.push(other);
    assert_eq!(Between::of_bed(&state, &state.beds[0]).len(), 6);
    assert_eq!(Between::of_wire(&state, &state.beds[0], &state.beds[0].wires[1]).len(), 2);
}

/// The page of the check at this place.
fn page(state: &State, of: usize) -> Vec<u8> {
    let wire = &state.beds[0].wires[0];
    pdf(state, &Care::of(wire, &wire.records[of]).unwrap(), Language::English).unwrap()
}

/// To which nothing happened between its checks.
fn bare() -> State {
    let mut bare = moved();
    bare.beds[0].wires[0].swaps.clear();
    bare.beds[0].transports.clear();
    bare
}

/// On the page of the check that came after it, and on no earlier one.
#[test]
fn the_page_tells_it_with_the_check_that_came_after() {
    assert_eq!(page(&moved(), 0), page(&bare(), 0));
    assert!(page(&moved(), 1).len() > page(&bare(), 1).len());
}

/// Where there is no room for all of it, the page is still one, and says that it happened.
#[test]
fn a_crowded_page_is_not_the_bare_one() {
    let mut crowded = moved();
    let many = crowded.beds[0].wires[0].swaps[0].clone();
    crowded.beds[0].wires[0].swaps = vec![many; 60];
    assert_ne!(page(&crowded, 1), page(&bare(), 1));
}
