//! Beds, patients and wires by taps, and what is refused.

use std::collections::BTreeMap;

use domain::check::answer::Answer;
use domain::check::facts::Facts;
use domain::check::step::Step;
use domain::command::Command;
use domain::contract::{Sent, Shape};
use domain::moment::Moment;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::{State, apply, decide, view};

use crate::made::{at, fine, largest, open_check, state_with, whole_check};

fn sent(state: &State, command: Command, values: &[(&str, &str)]) -> Sent {
    let values = values.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect::<BTreeMap<_, _>>();
    Sent { card: state.card, command, values, stood_ms: None }
}

fn done(state: State, command: Command, values: &[(&str, &str)], now: Moment) -> State {
    let events = decide(&state, &sent(&state, command, values), now).expect("the tap is taken");
    events.iter().fold(state, apply)
}

fn refused(state: &State, command: Command, values: &[(&str, &str)], now: Moment) -> Say {
    let refusal = decide(state, &sent(state, command, values), now).expect_err("the tap is refused");
    refusal.say().expect("in a sentence")
}

const WIRE: [(&str, &str); 4] = [
    ("chamber", "ventricle"),
    ("kind", "epicardial"),
    ("polarity", "bipolar"),
    ("generator", "example-fine-current"),
];

fn with_bed(label: &str) -> State {
    done(state_with(fine()), Command::AddBed, &[("label", label)], at(0))
}

#[test]
fn a_bed_then_a_wire_then_its_screen() {
    let state = with_bed("Bay 2");
    assert_eq!(state.screen, Screen::NewWire { bed: 1 });
    let state = done(state, Command::AddWire { bed: 1 }, &WIRE, at(1));
    assert_eq!(state.screen, Screen::Bed { bed: 1 });
    assert_eq!(state.beds[0].wires.len(), 1);
}

/// The button is not there; a command that comes all the same is refused.
#[test]
fn one_wire_of_a_bed_is_checked_at_a_time() {
    let state = done(with_bed("Bay 2"), Command::AddWire { bed: 1 }, &WIRE, at(1));
    let atrial = [("chamber", "atrium"), WIRE[1], WIRE[2], WIRE[3]];
    let state = done(state, Command::AddWire { bed: 1 }, &atrial, at(2));
    let open = done(state, Command::Begin { bed: 1, wire: 1 }, &[], at(3));
    assert_eq!(refused(&open, Command::Begin { bed: 1, wire: 2 }, &[], at(4)), Say::OtherWireOpen);
    assert!(open.wire(1, 2).expect("the second wire").check.is_none());
}

/// It may stand at its minimum: both below restore at once would be worse.
#[test]
fn no_wire_is_checked_while_another_of_the_patient_stands_unread() {
    let mut state = done(with_bed("Bay 2"), Command::AddWire { bed: 1 }, &WIRE, at(1));
    let atrial = [("chamber", "atrium"), WIRE[1], WIRE[2], WIRE[3]];
    state = done(state, Command::AddWire { bed: 1 }, &atrial, at(2));
    state.beds[0].wires[0].owed = Some(at(2));
    assert_eq!(refused(&state, Command::Begin { bed: 1, wire: 2 }, &[], at(3)), Say::OtherWireUnread);
    let again = done(state, Command::Begin { bed: 1, wire: 1 }, &[], at(3));
    assert!(again.wire(1, 1).expect("the first wire").check.is_some(), "the unread one may be checked anew");
}

#[test]
fn labels_of_any_script_are_kept_and_hidden_marks_are_not() {
    for label in ["Bay 2", "غرفة ٤", "🛏️ 7", "חדר 3"] {
        assert_eq!(with_bed(label).beds[0].label, label);
    }
    assert_eq!(with_bed(" \u{202e}Bay 2\u{2066} ").beds[0].label, "Bay 2");
}

#[test]
fn an_empty_or_overlong_label_is_refused_in_words() {
    let state = state_with(fine());
    let empty = Say::NothingTyped { field: Box::new(Say::BedLabelField) };
    for nothing in ["", "   ", "\u{202e}"] {
        assert_eq!(refused(&state, Command::AddBed, &[("label", nothing)], at(0)), empty);
    }
    let long = "x".repeat(500);
    assert_eq!(refused(&state, Command::AddBed, &[("label", &long)], at(0)), Say::TooLong { most: 24 });
}

#[test]
fn the_same_label_twice_is_refused() {
    let state = with_bed("Bay 2");
    let twice = Say::BedExists { label: "Bay 2".to_owned() };
    assert_eq!(refused(&state, Command::AddBed, &[("label", "Bay 2")], at(1)), twice);
}

#[test]
fn a_wire_without_one_of_its_four_choices_is_refused_by_name() {
    let state = with_bed("Bay 2");
    let names = [Say::ChamberField, Say::KindField, Say::PolarityField, Say::GeneratorField];
    for (missing, name) in WIRE.iter().zip(names) {
        let rest: Vec<_> = WIRE.iter().filter(|field| field.0 != missing.0).copied().collect();
        let said = refused(&state, Command::AddWire { bed: 1 }, &rest, at(1));
        assert_eq!(said, Say::NothingTyped { field: Box::new(name) });
    }
}

/// No check on it could be led, and no box in its place could be set to a mode.
#[test]
fn a_wire_is_plugged_into_no_generator_without_a_mode_for_it() {
    let ventricular = largest();
    let picked = [WIRE[0], WIRE[1], WIRE[2], ("generator", ventricular.id.as_str())];
    let mut state = with_bed("Bay 2");
    state.generators.push(ventricular.clone());
    let atrial = [("chamber", "atrium"), WIRE[1], WIRE[2], picked[3]];
    let said = Say::GeneratorNotForWire { mode: "AAI".to_owned() };
    assert_eq!(refused(&state, Command::AddWire { bed: 1 }, &atrial, at(1)), said);
    let state = done(state, Command::AddWire { bed: 1 }, &picked, at(1));
    let other = [("chamber", "atrium"), WIRE[1], WIRE[2], WIRE[3]];
    let state = done(state, Command::AddWire { bed: 1 }, &other, at(2));
    assert_eq!(refused(&state, Command::PlugInto { bed: 1, wire: 2 }, &[picked[3]], at(3)), said);
}

#[test]
fn beds_and_wires_have_a_limit_that_is_said() {
    let mut state = state_with(fine());
    for id in 1..=200_i64 {
        state = done(state, Command::AddBed, &[("label", &format!("Bay {id}"))], at(id));
    }
    let most = Say::TooManyBeds { most: 200 };
    assert_eq!(refused(&state, Command::AddBed, &[("label", "Bay 201")], at(230)), most);
    for id in 231..=234_i64 {
        state = done(state, Command::AddWire { bed: 1 }, &WIRE, at(id));
    }
    assert_eq!(refused(&state, Command::AddWire { bed: 1 }, &WIRE, at(240)), Say::TooManyWires { most: 4 });
}

/// H6: a bed is no identity; a new patient in it starts empty.
#[test]
fn a_new_patient_starts_with_no_wire_and_no_history() {
    let state = done(with_bed("Bay 2"), Command::AddWire { bed: 1 }, &WIRE, at(1));
    let before = state.beds[0].patient;
    let now = Moment { fresh: [44; 16], ..at(2) };
    let state = done(state, Command::NewPatient { bed: 1 }, &[], now);
    assert_eq!(state.beds[0].wires, []);
    assert_ne!(state.beds[0].patient, before);
}

#[test]
fn a_new_patient_waits_for_the_open_check() {
    let mut state = done(with_bed("Bay 2"), Command::AddWire { bed: 1 }, &WIRE, at(1));
    state.beds[0].wires[0].check = Some(open_check(whole_check(&fine()), at(1)));
    assert_eq!(refused(&state, Command::NewPatient { bed: 1 }, &[], at(2)), Say::EndCheckFirst);
}

/// H13: the second half of a double tap. What the page measured holds, however late the tap is taken.
#[test]
fn what_has_just_come_onto_the_glass_takes_no_tap() {
    let state = with_bed("Bay 2");
    let tapped = |stood_ms| Sent { stood_ms, ..sent(&state, Command::Go(Screen::Beds), &[]) };
    for (stood_ms, taken) in [(Some(0), false), (Some(299), false), (Some(300), true), (None, true)] {
        let late = decide(&state, &tapped(stood_ms), at(60));
        assert_eq!(late.is_ok(), taken, "{stood_ms:?} ms");
    }
}

/// The acts that stand on every dial card are held up only where they have just come.
#[test]
fn no_beats_is_taken_on_a_card_of_this_instant_unless_it_came_with_it() {
    let mut state = done(with_bed("Bay 2"), Command::AddWire { bed: 1 }, &WIRE, at(1));
    state.beds[0].wires[0].check =
        Some(open_check(Facts { step: Step::CaptureDown, ..whole_check(&fine()) }, at(1)));
    state.screen = Screen::Check { bed: 1, wire: 1 };
    state.card_at = Some(at(2));
    let tap = |stood_ms| Sent { stood_ms, ..sent(&state, Command::Answer(Answer::NoBeats), &[]) };
    assert!(decide(&state, &tap(Some(4_000)), at(2)).is_ok());
    assert!(decide(&state, &tap(Some(80)), at(2)).is_err());
}

#[test]
fn a_long_list_goes_on_over_pages() {
    let mut state = state_with(fine());
    for id in 1..=23_i64 {
        state = done(state, Command::AddBed, &[("label", &format!("Bay {id}"))], at(id));
    }
    let mut seen = Vec::new();
    state = done(state, Command::Go(Screen::Beds), &[], at(30));
    for page in 0..3_i64 {
        let shown = view(&state, at(31 + page));
        let Shape::Beds(list) = shown.shape else { panic!("the bed list") };
        seen.extend(list.rows.into_iter().map(|row| row.title));
        let Some(more) = shown.answers.into_iter().find(|act| act.key == "more") else { break };
        state = done(state, more.command, &[], at(31 + page));
    }
    assert_eq!(seen.len(), 23);
    seen.dedup();
    assert_eq!(seen.len(), 23, "each bed once");
}
