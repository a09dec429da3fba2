//! The handover code: plain lines, read back from the drawn modules by another library.

use domain::check::facts::{ASYNCHRONOUS, Facts, Found, Own};
use domain::contract::{Code, Shape};
use domain::flags::Flag;
use domain::handover_lines::{HandoverLine, handover_lines, text_of};
use domain::say::Say;
use domain::state::bed::{Polarity, Wire, WireKind};
use domain::state::screen::Screen;
use domain::{State, view};

use crate::made::{at, bed, fine, marked, open_check, profile, state_with, whole_check, wire, wire_with};

fn showing(mut state: State, wire: Wire) -> State {
    state.beds = vec![bed(1, "Bay 2", vec![wire])];
    state.screen = Screen::Code { bed: 1, wire: 1 };
    state
}

fn code_of(state: &State, minutes: i64) -> Code<Say> {
    let Shape::Code(code) = view(state, at(minutes)).shape else { panic!("the code") };
    code
}

fn lines_of(state: &State, minutes: i64) -> Vec<HandoverLine> {
    handover_lines(state, &state.beds[0].wires[0], at(minutes))
}

/// Draws the modules as a picture with a quiet zone of four and reads that.
pub fn decoded(modules: &[String]) -> String {
    const SIDE: usize = 4;
    let rows: Vec<Vec<bool>> = modules.iter().map(|row| row.chars().map(|c| c == '1').collect()).collect();
    let width = (rows.len() + 8) * SIDE;
    let dark = |x: usize, y: usize| {
        let module = |at: usize| (at / SIDE).checked_sub(4);
        let hit = module(y).zip(module(x)).and_then(|(y, x)| rows.get(y)?.get(x).copied());
        if hit == Some(true) { 0 } else { 255 }
    };
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(width, width, dark);
    let grids = picture.detect_grids();
    assert_eq!(grids.len(), 1, "one code in the picture");
    grids[0].decode().expect("the code reads back").1
}

fn whole_state() -> State {
    let state = state_with(fine());
    let wire = wire_with(&state, 1, &[whole_check(&fine())]);
    showing(state, wire)
}

#[test]
fn the_code_reads_back_as_its_lines() {
    let state = whole_state();
    let code = code_of(&state, 6);
    assert_eq!(decoded(&code.modules), text_of(&lines_of(&state, 6)));
    assert_eq!(code.rows.len(), lines_of(&state, 6).len(), "the same lines are readable beside it");
    assert_eq!(code.note, Say::CodeNote);
}

#[test]
fn one_fact_a_line_with_its_unit_and_age() {
    let text = text_of(&lines_of(&whole_state(), 6));
    let expected = "\
HOLDFAST 1: ventricular epicardial wire, bipolar
EXAMPLE RULES: local rules come first
Dials: read 2026-11-24 21:40 +01:00, 6 min old
RATE: 80 /min
OUTPUT: 3.6 mA
mV: 2.0
Capture threshold: 1.2 mA, going up
Margin: 3 x
Sensing threshold: 5.0 mV
Own beats: 52 /min
Pulse width: 1.2 ms
Next check: 2026-11-25 09:40";
    assert_eq!(text, expected);
}

#[test]
fn the_lines_hold_no_name_no_bed_and_no_identifier() {
    let state = state_with(fine());
    let mut wire = wire_with(&state, 1, &[whole_check(&fine())]);
    wire.records[0].names.accepted_by = Some("Accepting Clinician".to_owned());
    wire.records[0].names.told = Some("Told Person".to_owned());
    wire.records[0].names.clinician = Some("Called Clinician".to_owned());
    let text = text_of(&lines_of(&showing(state, wire), 0));
    for kept_back in ["Clinician", "Told", "Bay 2", "0909", "0303"] {
        assert!(!text.contains(kept_back), "{kept_back} stands in {text}");
    }
}

#[test]
fn example_rules_are_marked_and_approved_rules_are_not() {
    let mut state = whole_state();
    assert!(text_of(&lines_of(&state, 0)).contains("EXAMPLE RULES"));
    state.beds[0].wires[0].records[0].example_rules = false;
    assert!(!text_of(&lines_of(&state, 0)).contains("EXAMPLE RULES"));
}

#[test]
fn dials_not_read_are_said_in_the_code() {
    let mut state = whole_state();
    state.beds[0].wires[0].records[0].read = false;
    assert!(text_of(&lines_of(&state, 0)).contains("Dials: NOT read 2026-11-24 21:40"));
}

#[test]
fn before_the_first_check_there_is_no_code() {
    let state = showing(state_with(fine()), wire(1, "example-fine-current"));
    let code = code_of(&state, 0);
    assert_eq!((code.modules.len(), code.rows.len(), code.note), (0, 0, Say::CodeNothing));
}

/// H8: while dials are being turned, the old record is no handover.
#[test]
fn while_a_check_is_open_there_is_no_code() {
    let mut state = whole_state();
    state.beds[0].wires[0].check = Some(open_check(whole_check(&fine()), at(0)));
    let code = code_of(&state, 1);
    assert_eq!((code.modules.len(), code.rows.len(), code.note), (0, 0, Say::CodeCheckOpen));
}

/// Every flag a record may hold.
fn every_flag() -> Vec<Flag> {
    let number = || "0.95".to_owned();
    vec![
        Flag::NoCaptureAtMaximum,
        Flag::NoRuleSatisfied,
        Flag::StillBlind,
        Flag::WrongChamber,
        Flag::Doubled { was: number(), is: number() },
        Flag::HalfSignalGone { was: number(), is: number() },
        Flag::NotTolerated,
    ]
}

/// Every line as long as it can be, on the dial with the longest figures.
pub fn longest_state() -> State {
    let p = profile("example-mixed-current");
    let state = state_with(p.clone());
    let mut facts: Facts = Facts::new(domain::check::step::Step::Done);
    facts.found = domain::check::facts::Dials { output: 0, rate: p.rate_last(), mv: ASYNCHRONOUS };
    facts.stand = facts.found;
    (facts.own, facts.own_slowest, facts.own_fastest) = (Own::Cleared, 100, 250);
    (facts.sensing, facts.sensing_at) = (Found::SeenWhereItStood, 0);
    (facts.capture, facts.capture_at, facts.capture_low) = (Found::Bracket, 17, 16);
    facts.marks = domain::check::facts::Marks(u16::MAX);
    let mut wire = Wire {
        kind: WireKind::Transvenous,
        polarity: Polarity::Unipolar,
        ..wire_with(&state, 1, &[facts, facts])
    };
    for record in &mut wire.records {
        record.read = false;
        record.due_ms += 1;
        record.flags = every_flag();
    }
    showing(state, wire)
}

/// Version 15 at level M holds 412 bytes: larger drawings would not leave room for their rows.
#[test]
fn the_longest_record_stays_a_code_that_phones_read() {
    let state = longest_state();
    let week = 7 * 24 * 60;
    let code = code_of(&state, week);
    let version = (code.modules.len() - 17) / 4;
    assert!(version <= 15, "version {version}, {} bytes", text_of(&lines_of(&state, week)).len());
    assert_eq!(decoded(&code.modules), text_of(&lines_of(&state, week)));
    assert!(text_of(&lines_of(&state, week)).contains("Flags: no capture at maximum"));
}

#[test]
fn flags_that_the_next_team_must_know_are_lines_too() {
    let state = state_with(fine());
    let facts = marked(&fine(), domain::check::facts::Marks::SHOCK);
    let wire = wire_with(&state, 1, &[facts]);
    let text = text_of(&lines_of(&showing(state, wire), 0));
    assert!(text.contains("Flags: shock given"), "{text}");
    assert!(text.contains("Next check: now"), "{text}");
}
