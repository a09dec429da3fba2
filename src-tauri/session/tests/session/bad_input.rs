//! Bad input gets a sentence that says what, where and what is allowed, and loses nothing.

use domain::command::Command;
use domain::contract::{Field, Shape};
use domain::state::screen::Screen;
use serde_json::{Value, json};

use crate::hand_clock::HandClock;
use crate::library::{folded, unit_generator, unit_rules};
use crate::nurse::Nurse;
use crate::recording::events;

/// Hands in each file; each must be answered by a sentence with all of these words, on the same card, and
/// with nothing written.
fn refused(screen: Screen, kind: &str, files: &[(&str, Vec<u8>, &[&str])]) {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    nurse.ask(Command::Welcomed);
    for (what, file, words) in files {
        nurse.ask(Command::Go(screen));
        let (card, before) = (nurse.view.card, events(folder.path()).len());
        nurse.hand_in(kind, file);
        let said = nurse.view.notice.clone().unwrap_or_default();
        println!("{what}: {said}");
        for word in *words {
            assert!(said.contains(word), "{what}: \"{word}\" is not in \"{said}\"");
        }
        assert_eq!(nurse.view.card, card, "{what}: the card stays");
        assert_eq!(events(folder.path()).len(), before, "{what}: nothing was written");
    }
}

fn rules(change: impl FnOnce(&mut Value)) -> Vec<u8> {
    unit_rules(change).into_bytes()
}

fn generator(change: impl FnOnce(&mut Value)) -> Vec<u8> {
    unit_generator(change).into_bytes()
}

fn output(positions: Value) -> Vec<u8> {
    generator(|file| file["output"]["positions"] = positions)
}

#[test]
fn rule_files_that_break_a_rule_say_where_and_what_is_allowed_and_which_source() {
    let band = |low: &str, high: &str, aim: &str| {
        let rule = json!({ "name": "band", "low": low, "high": high, "aim": aim, "floor_mA": "1" });
        rules(|file| file["output_rule"] = rule)
    };
    refused(
        Screen::NewRules,
        "rules",
        &[
            (
                "an unknown named rule",
                rules(|file| file["sensing_rule"] = json!("a quarter")),
                &["sensing_rule", "a quarter", "below half", "one third"],
            ),
            ("an unknown name", rules(|file| file["own_stepp"] = json!(5)), &["own_stepp", "own_step"]),
            ("an aim outside its band", band("2", "3", "3.5"), &["output_rule.aim", "3.5", "2", "3"]),
            ("a band reversed", band("3", "2", "3"), &["output_rule", "3", "2"]),
            // CTS (V): 1.5 to 3 times is the widest band a source names.
            ("a band no source supports", band("2", "4", "3"), &["output_rule.high", "4", "CTS"]),
            // CONG (V): medians rose 1.9 times in a day.
            (
                "a band below double, nobody named",
                band("1.5", "3", "2"),
                &["1.5", "CONG", "band_below_double_by"],
            ),
            // ACCCN (V): steps of 5 to 10 per minute.
            (
                "a number no source supports",
                rules(|file| file["own_step"] = json!(40)),
                &["own_step", "40", "5", "10", "ACCCN"],
            ),
            (
                "a number of memory",
                rules(|file| file["own_hold_s"] = json!(5)),
                &["own_hold_s", "5", "10", "60", "memory"],
            ),
            ("a missing rule", rules(|file| file["beats_down"] = Value::Null), &["beats_down", "missing"]),
            (
                "text for a number",
                rules(|file| file["beats_down"] = json!("five")),
                &["beats_down", "five", "whole number"],
            ),
            (
                "no date",
                rules(|file| file["approval"]["on"] = json!("10.1.2026")),
                &["approval.on", "10.1.2026"],
            ),
            ("nobody approved", rules(|file| file["approval"] = Value::Null), &["example", "approval"]),
            (
                "the examples again",
                rules(|file| {
                    file["example"] = json!(true);
                    file["approval"] = Value::Null;
                }),
                &["example"],
            ),
            (
                "the name of the rules in force",
                rules(|file| file["id"] = json!("example")),
                &["id", "example"],
            ),
        ],
    );
}

#[test]
fn files_that_are_no_rule_file_at_all_are_answered_in_words() {
    let mut no_text = rules(|_| ());
    no_text[20] = 0xff;
    let twice = "{\"id\": \"a\",\n\"id\": \"b\"}".as_bytes().to_vec();
    let right_to_left = "\u{202e}dna \u{1f600}".repeat(60);
    refused(
        Screen::NewRules,
        "rules",
        &[
            ("20 MB", vec![b' '; 20_000_000], &["longer than", "64"]),
            ("a little too long", vec![b' '; 65_537], &["longer than", "64"]),
            ("not UTF-8", no_text, &["UTF-8"]),
            ("not JSON", b"own_step = 10\n".to_vec(), &["Line 1", "JSON"]),
            ("empty", Vec::new(), &["JSON"]),
            ("a list", b"[]".to_vec(), &["a group of names"]),
            ("a name twice", twice, &["Line 2"]),
            ("a picture", b"\x89PNG\r\n\x1a\n".to_vec(), &["UTF-8"]),
            (
                "a name of 300 characters, right to left, with faces",
                rules(|file| file["id"] = json!(right_to_left)),
                &["id", "1 to 60"],
            ),
            (
                "such a name where none belongs",
                rules(|file| file[&right_to_left] = json!(1)),
                &["no such name"],
            ),
            ("deeply nested", [vec![b'['; 60_000], vec![b']'; 5_000]].concat(), &["JSON"]),
        ],
    );
}

#[test]
fn generator_files_with_impossible_dials_say_which_position() {
    let many: Vec<String> = (1..=129).map(|tenth| format!("{}.{}", tenth / 10, tenth % 10)).collect();
    refused(
        Screen::NewGenerator,
        "generator-file",
        &[
            (
                "unsorted",
                output(json!(["0.2", "0.6", "0.4"])),
                &["output.positions[2]", "0.4", "0.6", "higher"],
            ),
            ("duplicate", output(json!(["0.2", "0.4", "0.4"])), &["output.positions[2]", "0.4", "twice"]),
            ("zero", output(json!(["0.0", "0.4"])), &["output.positions[0]", "0.0", "above zero"]),
            ("negative", output(json!(["-0.2", "0.4"])), &["output.positions[0]", "-0.2", "above zero"]),
            ("too many", output(json!(many)), &["output.positions", "129", "128"]),
            ("none", output(json!([])), &["output.positions", "0", "1"]),
            (
                "a tiny step",
                output(json!([{ "from": "0.001", "to": "900.0", "step": "0.001" }])),
                &["output.positions"],
            ),
            ("a figure as no dial prints it", output(json!(["0,2"])), &["0,2", "printed"]),
            (
                "milliamp-volts",
                generator(|file| file["output"]["unit"] = json!("mV")),
                &["output.unit", "mA", "V"],
            ),
            ("a makers' code", generator(|file| file["modes"] = json!(["SSI"])), &["modes[0]", "SSI"]),
            ("a name that is known", generator(|file| file["id"] = json!("example-volts")), &["known"]),
        ],
    );
}

/// The label as kept, or the sentence.
fn add_bed(nurse: &mut Nurse, label: &str) -> Result<String, String> {
    nurse.ask(Command::Go(Screen::NewBed));
    nurse.type_in(Command::AddBed, "label", label);
    match nurse.view.notice.clone() {
        Some(said) => Err(said),
        None => Ok(nurse.view.head.title.clone()),
    }
}

#[test]
fn a_bed_label_is_kept_as_typed_or_answered_in_words() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    nurse.ask(Command::Welcomed);
    for empty in ["", "   ", "\u{202e}\u{200f}\n"] {
        assert!(add_bed(&mut nurse, empty).unwrap_err().contains("nothing entered"), "{empty:?}");
    }
    assert!(add_bed(&mut nurse, &"x".repeat(500)).unwrap_err().contains("24"));
    assert!(folded(folder.path()).beds.is_empty(), "nothing was added");
    for (typed, kept) in [("سرير ٤", "سرير ٤"), ("🫀 4", "🫀 4"), (" Bay\u{202e} 2 ", "Bay 2")]
    {
        assert_eq!(add_bed(&mut nurse, typed).as_deref(), Ok(kept));
    }
    let labels: Vec<_> = folded(folder.path()).beds.into_iter().map(|bed| bed.label).collect();
    assert_eq!(labels, ["سرير ٤", "🫀 4", "Bay 2"]);
}

#[test]
fn typed_dials_that_are_no_positions_are_asked_for_again() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::in_a_check(folder.path(), &HandClock::new());
    let dials = |fields: &[Field<String>]| fields.iter().any(|field| field.id == "mv");
    let mut cards = 0;
    while !matches!(&nurse.view.shape, Shape::Form(form) if dials(&form.fields)) {
        nurse.good();
        cards += 1;
        assert!(cards < 20);
    }
    for (field, typed, words) in [
        ("output", "36", ["36", "no such position"]),
        ("output", "0", ["0", "no such position"]),
        ("output", "-1", ["-1", "no such position"]),
        ("output", "", ["OUTPUT", "nothing entered"]),
        ("rate", "999", ["999", "no such position"]),
        ("rate", "12", ["12", "no such position"]),
        ("mv", "🫀", ["🫀", "no such position"]),
        ("mv", "1e3", ["1e3", "no such position"]),
        ("mv", &"9".repeat(400), ["999999999999", "no such position"]),
    ] {
        let (card, before) = (nurse.view.card, events(folder.path()).len());
        // Each after another sentence, so that the new one is seen to come.
        nurse.type_in(Command::TypedDials, "rate", "");
        nurse.type_in(Command::TypedDials, field, typed);
        let said = nurse.view.notice.clone().unwrap_or_default();
        assert!(words.iter().all(|word| said.contains(word)), "{field} {typed}: {said}");
        assert_eq!((nurse.view.card, events(folder.path()).len()), (card, before), "{field} {typed}");
    }
}

/// H7: a reading far from the last set is asked for once more, and the check stays where it was.
#[test]
fn typed_dials_far_from_the_last_set_are_asked_for_once_more() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = crate::wards::with_dials_owed(folder.path(), &HandClock::new());
    nurse.ask(Command::Begin { bed: 1, wire: 1 });
    let mut cards = 0;
    while !matches!(&nurse.view.shape, Shape::Form(form) if form.fields.iter().any(|field| field.id == "mv"))
    {
        nurse.good();
        cards += 1;
        assert!(cards < 20, "{:?}", nurse.view.shape);
    }
    let (card, found) = (nurse.view.card, |nurse: &Nurse| nurse.view.safety.is_some());
    nurse.type_in(Command::TypedDials, "output", "0.6");
    let said = nurse.view.notice.clone().unwrap_or_default();
    assert!(said.contains("Last set 6.0") && said.contains("0.6"), "{said}");
    assert!(nurse.view.card != card && !found(&nurse), "a new card, its fields empty: not taken yet");
    nurse.type_in(Command::TypedDials, "output", "0.6");
    assert!(found(&nurse), "typed again, they are");
}
