//! The handover code: signed lines and a signed copy, read back from the drawn modules by another library.

use domain::check::facts::{ASYNCHRONOUS, Facts, Found, Own};
use domain::command::Command;
use domain::contract::{Code, Sent, Shape};
use domain::flags::Flag;
use domain::handover::drawing::unpacked;
use domain::handover::history::Arrival;
use domain::handover::summary::Check;
use domain::handover::tablet::{KeyLost, OwnKey};
use domain::say::Say;
use domain::state::bed::{Polarity, Wire, WireKind};
use domain::state::screen::Screen;
use domain::units::OutputUnit;
use domain::{Job, State, apply, decide, view, wanted};
use seal::TabletKey;

use crate::compared;
use crate::made::{at, bed, fine, marked, open_check, profile, state_with, whole_check, wire, wire_with};

fn key() -> TabletKey {
    TabletKey::from_seed(&[7; 32])
}

fn showing(mut state: State, wire: Wire) -> State {
    state.beds = vec![bed(1, "Bay 2", vec![wire])];
    state.screen = Screen::Code { bed: 1, wire: 1 };
    state.own_key = OwnKey { tablet: Some(handover::tablet_of(&key().public())), lost: None, wanted: false };
    state.code_wanted = true;
    state
}

fn code_of(state: &State, minutes: i64) -> Code<Say> {
    let Shape::Code(code) = view(state, at(minutes)).shape else { panic!("the code") };
    code
}

/// What a worker makes of the job, decided and applied.
fn signed(state: State, minutes: i64) -> State {
    assert_eq!(wanted(&state), [Job::Sign { bed: 1, wire: 1 }]);
    let code = Box::new(handover::made(&state.beds[0].wires[0], &key(), at(minutes)).unwrap());
    let command = Command::CodeMade { bed: 1, wire: 1, code };
    let sent = Sent { card: state.card, command, values: Default::default(), stood_ms: None };
    let events = decide(&state, &sent, at(minutes)).unwrap();
    events.iter().fold(state, apply)
}

fn lines_of(state: &State) -> String {
    state.beds[0].wires[0].code.as_ref().unwrap().lines.clone().unwrap()
}

/// Draws the modules as a picture with a quiet zone of four and reads that.
pub fn decoded(code: &Code<Say>) -> String {
    const SIDE: usize = 4;
    let rows = unpacked(code.across, &code.modules);
    let rows: Vec<Vec<bool>> = rows.iter().map(|row| row.chars().map(|c| c == '1').collect()).collect();
    assert_eq!(rows.len(), usize::from(code.across), "square");
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
fn both_faces_read_back_as_they_were_signed() {
    let mut state = signed(whole_state(), 6);
    let code = code_of(&state, 6);
    assert_eq!(decoded(&code), lines_of(&state));
    assert_eq!(
        code.rows.len(),
        lines_of(&state).lines().count(),
        "the lines, and who signed in the place of the signature"
    );
    assert_eq!(code.note, Say::CodeNote);
    state.screen = Screen::CodeCopy { bed: 1, wire: 1 };
    let copy = code_of(&state, 6);
    assert_eq!(Some(decoded(&copy)), state.beds[0].wires[0].code.as_ref().unwrap().copy);
    assert_eq!(copy.note, Say::CodeCopyNote);
}

#[test]
fn one_fact_a_line_with_its_unit_and_age() {
    let state = signed(whole_state(), 6);
    let lines = lines_of(&state);
    let (text, signature) = lines.rsplit_once('\n').unwrap();
    let expected = "\
HOLDFAST 1 en: ventricular epicardial wire, bipolar
EXAMPLE RULES: local rules first
Check: 03030303
Dials: read 2026-11-24 21:40 +01:00
Written: 6 min later
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
    assert!(signature.starts_with("SIG "), "{signature}");
}

/// The record keeps that nobody read the dials at its end; that somebody did later, and found them as it left them,
/// stands in both faces.
#[test]
fn a_reading_after_the_check_stands_in_both_faces() {
    let mut state = whole_state();
    let wire = &mut state.beds[0].wires[0];
    (wire.records[0].read, wire.owed) = (false, Some(at(0)));
    assert!(lines_of(&signed(state.clone(), 40)).contains("Dials: NOT read 2026-11-24 21:40 +01:00\n"));
    let dials = [("output", "3.6"), ("rate", "80"), ("mv", "2.0")];
    let values = dials.map(|(id, text)| (id.to_owned(), text.to_owned())).into_iter().collect();
    let command = Command::ReadOwed { bed: 1, wire: 1 };
    let sent = Sent { card: state.card, command, values, stood_ms: None };
    let events = decide(&state, &sent, at(45)).unwrap();
    let read = events.iter().fold(state, apply);
    assert!(!read.beds[0].wires[0].records[0].read, "the record is not changed");
    let state = signed(State { screen: Screen::Code { bed: 1, wire: 1 }, code_wanted: true, ..read }, 51);
    let lines = lines_of(&state);
    assert!(lines.starts_with("HOLDFAST 2 en: "), "{lines}");
    assert!(lines.contains("Dials: NOT read 2026-11-24 21:40 +01:00, read 45 min later\n"), "{lines}");
    let copied = state.beds[0].wires[0].code.as_ref().unwrap().copy.clone().unwrap();
    let (mark, letters) = copied.split_once(':').unwrap();
    let summary = handover::copy::read(&handover::copy::opened(letters).unwrap().content).unwrap();
    assert_eq!((mark, summary.newest.read_later), ("HFC2", Some(45)));
    let mut owed_again = state;
    owed_again.beds[0].wires[0].owed = Some(at(50));
    owed_again.code_wanted = true;
    assert!(lines_of(&signed(owed_again, 60)).starts_with("HOLDFAST 1 en: "), "not read since");
}

#[test]
fn the_lines_hold_no_name_and_no_bed() {
    let state = state_with(fine());
    let mut wire = wire_with(&state, 1, &[whole_check(&fine())]);
    wire.records[0].names.accepted_by = Some("Accepting Clinician".to_owned());
    wire.records[0].names.told = Some("Told Person".to_owned());
    wire.records[0].names.clinician = Some("Called Clinician".to_owned());
    let lines = lines_of(&signed(showing(state, wire), 0));
    for kept_back in ["Clinician", "Told", "Bay 2"] {
        assert!(!lines.contains(kept_back), "{kept_back} stands in {lines}");
    }
}

fn without_a_drawing(state: &State, note: Say) {
    let code = code_of(state, 1);
    assert_eq!((code.across, code.modules.len(), code.rows.len(), code.note), (0, 0, 0, note));
}

#[test]
fn before_the_first_check_there_is_no_code() {
    let state = showing(state_with(fine()), wire(1, "example-fine-current"));
    without_a_drawing(&state, Say::CodeNothing);
    assert_eq!(wanted(&state), []);
}

/// H8: while dials are being turned, the old record is no handover.
#[test]
fn while_a_check_is_open_there_is_no_code() {
    let mut state = signed(whole_state(), 0);
    state.beds[0].wires[0].check = Some(open_check(whole_check(&fine()), at(0)));
    without_a_drawing(&state, Say::CodeCheckOpen);
}

/// A check that came counts from when it came by this tablet's clock, whatever the clock of the other tablet says.
#[test]
fn a_handover_hides_the_code_of_before_and_not_the_one_of_a_check_done_since() {
    for apart in [-1_440, 0, 1_440] {
        let mut state = signed(whole_state(), 0);
        let record = &state.beds[0].wires[0].records[0];
        let ended = i64::from(Check::of(record).unwrap().ended) + apart;
        let check = Check { ended: u32::try_from(ended).unwrap(), ..compared::check() };
        let came = |minute: i64| {
            let first = Some(at(minute));
            Some(Arrival { at: at(minute), first, ..compared::arrival(&check, None) })
        };
        state.beds[0].wires[0].arrival = came(-600);
        assert!(!code_of(&state, 1).rows.is_empty(), "{apart}");
        state.beds[0].wires[0].arrival = came(1);
        without_a_drawing(&state, Say::CodeHandedSince);
    }
}

/// Nothing that was not journalled is shown, and nothing older than the newest check.
#[test]
fn until_it_is_signed_and_without_a_key_the_card_says_so() {
    let state = whole_state();
    without_a_drawing(&state, Say::CodeBeingMade);
    let mut lost = signed(state, 0);
    lost.own_key.lost = Some(KeyLost::Gone);
    without_a_drawing(&lost, Say::CodeNoKey);
    let mut newer = signed(whole_state(), 0);
    newer.beds[0].wires[0].records[0].id = uuid::Uuid::from_u128(1);
    without_a_drawing(&newer, Say::CodeBeingMade);
}

/// Opened again it is written anew, with its present age; between its faces it stays as it is.
#[test]
fn the_code_is_made_anew_whenever_it_is_opened() {
    let go = |state: State, screen: Screen| {
        let state = State { card_at: None, ..state };
        let sent = Sent {
            card: state.card,
            command: Command::Go(screen),
            values: Default::default(),
            stood_ms: None,
        };
        decide(&state, &sent, at(30)).unwrap().iter().fold(state.clone(), apply)
    };
    let faces = go(signed(whole_state(), 6), Screen::CodeCopy { bed: 1, wire: 1 });
    assert_eq!(wanted(&faces), []);
    let away = go(faces, Screen::Bed { bed: 1 });
    let again = signed(go(away, Screen::Code { bed: 1, wire: 1 }), 90);
    assert!(lines_of(&again).contains("Written: 1 h 30 min later"), "{}", lines_of(&again));
}

/// Every flag a record may hold.
fn every_flag() -> Vec<Flag> {
    let number = || "0.95".to_owned();
    vec![
        Flag::NoCaptureAtMaximum,
        Flag::NoRuleSatisfied,
        Flag::StillBlind,
        Flag::WrongChamber,
        Flag::CaptureAboveLimit { is: number(), limit: number(), unit: OutputUnit::MilliAmp },
        Flag::SignalBelowLimit { is: number(), limit: number() },
        Flag::Doubled { was: number(), is: number() },
        Flag::HalfSignalGone { was: number(), is: number() },
        Flag::NotTolerated,
    ]
}

/// Every line as long as it can be, on the dial with the longest figures, signed.
pub fn longest_state() -> State {
    let p = profile("example-mixed-current");
    let state = state_with(p.clone());
    let mut facts: Facts = Facts::new(domain::check::step::Step::Done);
    facts.found = domain::check::facts::Dials { output: 0, rate: p.rate_last(), mv: ASYNCHRONOUS };
    facts.stand = facts.found;
    (facts.own, facts.own_slowest, facts.own_fastest) = (Own::Cleared, 100, 250);
    (facts.sensing, facts.sensing_at) = (Found::SeenWhereItStood, 0);
    (facts.capture, facts.capture_at, facts.capture_low) = (Found::Bracket, 17, 16);
    facts.marks = domain::check::facts::Marks(u32::MAX);
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
    signed(showing(state, wire), 7 * 24 * 60)
}

#[test]
fn the_longest_record_stays_a_code_that_phones_read() {
    let mut state = longest_state();
    let code = code_of(&state, 0);
    assert!(code.across <= 89, "version 18 is 89 modules wide, this is {}", code.across);
    assert_eq!(decoded(&code), lines_of(&state));
    assert!(lines_of(&state).contains("no capture at maximum"), "{}", lines_of(&state));
    state.screen = Screen::CodeCopy { bed: 1, wire: 1 };
    assert!(code_of(&state, 0).across <= 97, "version 20");
}

#[test]
fn flags_that_the_next_team_must_know_are_lines_too() {
    let state = state_with(fine());
    let facts = marked(&fine(), domain::check::facts::Marks::SHOCK);
    let wire = wire_with(&state, 1, &[facts]);
    let lines = lines_of(&signed(showing(state, wire), 0));
    assert!(lines.contains("Flags: shock given"), "{lines}");
    assert!(lines.contains("Next check: now"), "{lines}");
}
