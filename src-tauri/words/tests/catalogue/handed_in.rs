//! Everything that is said to whoever hands a file in, approves it, or looks at what is in force.

use domain::command::Command;
use domain::contract::View;
use domain::library::{HandedIn, Paper};
use domain::profile::Profile;
use domain::rules::Rules;
use domain::say::Say;
use domain::state::bed::DueNow;
use domain::state::screen::Screen;
use serde_json::{Value, json};

use crate::wander::Walk;

/// Each file with a fault, then rules and a generator without one, all the way into force.
pub fn every_answer_to_a_file(read: &mut dyn FnMut(&View<Say>)) {
    let mut walk = Walk::into_a_check("ventricle", 0);
    for file in faulty_rules() {
        hand_in(&mut walk, Paper::Rules, &file, read);
    }
    for file in faulty_generators() {
        hand_in(&mut walk, Paper::Generator, &file, read);
    }
    let mut same = Rules::example();
    same.id = "ward 6".to_owned();
    for rules in [unit(&same.to_json(), &[]), unit(&same.to_json(), &DIFFERENT), unit(&same.to_json(), &WIDE)]
    {
        hand_in(&mut walk, Paper::Rules, rules.to_string().as_bytes(), read);
        approve(&mut walk, read);
        hand_in(&mut walk, Paper::Rules, rules.to_string().as_bytes(), read);
    }
    for asynchronous in ["position", "switch", "none"] {
        let file = generator(asynchronous);
        hand_in(&mut walk, Paper::Generator, file.to_string().as_bytes(), read);
        approve(&mut walk, read);
    }
    for screen in [Screen::Generators, Screen::Generator { at: 1 }, Screen::Beds, Screen::Settings] {
        walk.go(screen);
        read(&walk.view());
    }
    around_a_bed(&mut walk, read);
}

fn around_a_bed(walk: &mut Walk, read: &mut dyn FnMut(&View<Say>)) {
    let (bed, wire) = (1, 1);
    for screen in [
        Screen::BedMore { bed },
        Screen::Happened { bed },
        Screen::WireOut { bed },
        Screen::EmptyBed { bed },
        Screen::Plug { bed, wire },
        Screen::Bed { bed },
    ] {
        walk.go(screen);
        read(&walk.view());
    }
    for why in [
        DueNow::LeadMoved,
        DueNow::Polarity,
        DueNow::Potassium,
        DueNow::RhythmDrug,
        DueNow::Generator,
        DueNow::Dials,
    ] {
        let this = walk.state.wire_mut(bed, wire).expect("the wire of the walk");
        (this.check, this.due_now) = (None, Some(why));
        walk.go(Screen::Beds);
        read(&walk.view());
    }
}

fn hand_in(walk: &mut Walk, paper: Paper, file: &[u8], read: &mut dyn FnMut(&View<Say>)) {
    walk.go(if paper == Paper::Rules { Screen::NewRules } else { Screen::NewGenerator });
    read(&walk.view());
    walk.tap(Command::HandedIn(HandedIn::new(paper, file)), Default::default());
    read(&walk.view());
}

fn approve(walk: &mut Walk, read: &mut dyn FnMut(&View<Say>)) {
    walk.go(Screen::Approve);
    read(&walk.view());
    let typed = [("name", "A. Example"), ("role", "charge nurse")];
    let typed = typed.map(|(field, value)| (field.to_owned(), value.to_owned()));
    walk.tap(Command::ApproveOffered, typed.into());
    read(&walk.view());
}

type Changes<'a> = &'a [(&'a str, &'a str)];

/// Values are JSON.
const DIFFERENT: [(&str, &str); 6] = [
    ("id", "\"ward 7\""),
    ("sensing_rule", "\"half less 1 mV\""),
    ("output_rule", r#"{ "name": "double plus 1 mA" }"#),
    ("margin_check", "true"),
    ("beats_threshold", "12"),
    ("own_step", "5"),
];
const WIDE: [(&str, &str); 5] = [
    ("id", "\"ward 8\""),
    ("sensing_rule", "\"one third\""),
    ("output_rule", r#"{ "name": "band", "low": "1.5", "high": "3", "aim": "2", "floor_mA": "0" }"#),
    ("band_below_double_by", "\"Dr Example\""),
    (
        "approval",
        r#"{ "by": "Dr Example", "document": "Example 1", "on": "2026-01-01", "review": "2026-02-01", "blocks_when_overdue": true }"#,
    ),
];

fn unit(example: &str, changes: Changes<'_>) -> Value {
    let mut file: Value = serde_json::from_str(example).unwrap();
    file["example"] = json!(false);
    file["approval"] =
        json!({ "by": "Dr Example", "document": "Example 1", "on": "2026-01-01", "review": "2099-01-01" });
    for (field, value) in changes {
        file[*field] = serde_json::from_str(value).unwrap();
    }
    file
}

fn faulty_rules() -> Vec<Vec<u8>> {
    let example = Rules::example().to_json();
    let one = |field: &str, value: &str| unit(&example, &[(field, value)]).to_string().into_bytes();
    let band = |low: &str, high: &str, aim: &str| {
        let rule = json!({ "name": "band", "low": low, "high": high, "aim": aim, "floor_mA": "1" });
        one("output_rule", &rule.to_string())
    };
    vec![
        vec![b' '; 70_000],
        vec![0xff],
        b"own_step = 10".to_vec(),
        b"{\"a\": 1,\n\"a\": 2}".to_vec(),
        b"[]".to_vec(),
        example.clone().into_bytes(),
        one("id", "\"example\""),
        one("id", "\"\""),
        one("nothing", "1"),
        one("own_step", "null"),
        one("own_step", "40"),
        one("own_hold_s", "5"),
        one("own_step", "\"five\""),
        one("going_up", "1"),
        one("id", "1"),
        one("sensing_rule", "\"a quarter\""),
        one("starting_ventricle_mV", "\"0.9\""),
        one("example", "true"),
        band("3", "2", "3"),
        band("2", "3", "3.5"),
        band("1.5", "3", "2"),
        band("two", "3", "2"),
        one("approval", r#"{ "by": "Dr Example", "document": "1", "on": "1.2.26", "review": "2027-01-01" }"#),
    ]
}

fn generator(asynchronous: &str) -> Value {
    let mut file: Value = serde_json::from_str(&example_generator()).unwrap();
    file["id"] = json!(format!("box-{asynchronous}"));
    file["name"] = json!(format!("Box {asynchronous} (invented)"));
    file["example"] = json!(false);
    file["control"] = json!(if asynchronous == "none" { "dial" } else { "keys" });
    file["auto_lock_s"] = if asynchronous == "none" { Value::Null } else { json!(30) };
    file["sensitivity_mV"]["asynchronous"] = json!(asynchronous);
    file["modes"] = if asynchronous == "none" { json!(["VVI"]) } else { json!(["VVI", "VOO"]) };
    file
}

fn example_generator() -> String {
    domain::profile::shipped().unwrap().first().map(Profile::to_json).unwrap()
}

fn faulty_generators() -> Vec<Vec<u8>> {
    let one = |pointer: &str, value: Value| {
        let mut file = generator("none");
        *file.pointer_mut(pointer).unwrap() = value;
        file.to_string().into_bytes()
    };
    let output = |positions: Value| one("/output/positions", positions);
    vec![
        example_generator().into_bytes(),
        output(json!(["0.2", "0.6", "0.4"])),
        output(json!(["0.2", "0.2"])),
        output(json!(["0.0"])),
        output(json!([])),
        output(json!(1)),
        output(json!([{ "from": "0.2", "to": "0.5", "step": "0.2" }])),
        one("/modes", json!(["VVIR00"])),
        one("/modes", json!(["V0O"])),
        one("/modes", json!(["SSI"])),
        one("/modes", json!(["VXI"])),
        one("/modes", json!(["VVI", "VOO"])),
        one("/auto_lock_s", json!(90_000)),
    ]
}
