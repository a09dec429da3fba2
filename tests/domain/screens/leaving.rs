//! What has left the tablet is known of each patient, and an erasure takes exactly what is theirs.

use std::collections::BTreeSet;

use domain::command::Command;
use domain::contract::Sent;
use domain::erasure::{Scope, without};
use domain::event::{Event, What};
use domain::handover::arrived::{NotLoaded, Source};
use domain::handover::code::MadeCode;
use domain::handover::history::Arrival;
use domain::handover::stamp::Place;
use domain::handover::summary::Next;
use domain::handover::tablet::Tablet;
use domain::leaving::{Erasing, Left, NotWritten, Way, Writing, Written};
use domain::moment::Moment;
use domain::rules::{Chamber, Rules};
use domain::say::Say;
use domain::state::bed::{DueNow, Polarity, WireKind};
use domain::state::screen::Screen;
use domain::state::transport::{Hands, OpenTransport, Told, TransportRecord};
use domain::transport::facts::Facts;
use domain::{Job, State, apply, decide, wanted};
use uuid::Uuid;

use crate::compared::check as handed_check;
use crate::made::{at, bed, fine, open_check, state_with, whole_check, wire_with};

const DAY: i64 = 24 * 60;

fn ward() -> State {
    let state = state_with(fine());
    let checked = || wire_with(&state, 1, &[whole_check(&fine())]);
    let beds = vec![bed(1, "Bay 1", vec![checked()]), bed(2, "Bay 2", vec![checked()])];
    State { beds, next_bed: 3, ..state }
}

fn told(state: State, what: What) -> State {
    apply(state, &Event { at: at(0), what })
}

fn asked(state: &State, command: Command, now: Moment) -> Result<Vec<What>, domain::Refusal> {
    let values = [("name".to_owned(), "E. Raser (invented)".to_owned())].into();
    let sent = Sent { card: state.card, command, values, stood_ms: None };
    decide(state, &sent, now).map(|events| events.into_iter().map(|event| event.what).collect())
}

fn files(bed: u32) -> Writing {
    Writing::Files { bed, wire: 1, name: "checks-1".into() }
}

/// Both faces of a code of this bed's wire.
fn made_code(bed: u32) -> What {
    let code = MadeCode {
        at: at(0),
        check: Uuid::from_bytes([3; 16]),
        tablet: Tablet::of_key(&[7; 32]),
        lines: Some("HOLDFAST 1 en: invented".to_owned()),
        copy: Some("HFC invented".to_owned()),
    };
    What::CodeMade { bed, wire: 1, code: Box::new(code) }
}

fn begun(load: u32, bed: Option<u32>) -> What {
    What::LoadBegun { load, bed, source: Source::Typed("HOLDFAST 1 en: invented".to_owned()) }
}

fn taken(bed: u32) -> What {
    let newest = handed_check();
    let arrival = Arrival {
        tablet: Tablet::of_key(&[9; 32]),
        name: None,
        place: Place::new(60).unwrap(),
        newest,
        next: Next::Now,
        at: at(0),
        first: Some(at(0)),
        compared: None,
    };
    What::HandoverTaken { bed, wire: 1, arrival: Box::new(arrival), checks: Vec::new(), due: DueNow::Arrived }
}

fn ways(left: &[Left]) -> Vec<(Way, u32)> {
    left.iter().map(|left| (left.way, left.times)).collect()
}

/// By the terminal, with the app closed: of every bed with a check; a backup of everybody. It is no sign of the app's
/// life, by which a broken check goes on as before.
#[test]
fn what_the_terminal_takes_out_is_known_of_whom_it_concerns() {
    let mut state = ward();
    state.beds.push(bed(3, "Bay 3", vec![wire_with(&state, 1, &[])]));
    let (card, last) = (state.card, state.last);
    let out = |state, way| apply(state, &Event { at: at(30), what: What::TakenOut(way) });
    state = [Way::Code, Way::Files, Way::Files].into_iter().fold(state, out);
    assert_eq!(ways(&state.beds[0].left), [(Way::Code, 1), (Way::Files, 2)]);
    assert_eq!(ways(&state.beds[2].left), [], "no check, nothing to take");
    state = told(state, What::BedRemoved { bed: 1 });
    let closed = (state.card, state.last);
    state = out(state, Way::Backup);
    assert_eq!(ways(&state.beds[1].left), [(Way::Backup, 1)]);
    assert_eq!(ways(&state.closed[0].left), [(Way::Code, 1), (Way::Files, 2), (Way::Backup, 1)]);
    assert_eq!((state.card, state.last), closed);
    assert!(last.is_none() && card < closed.0);
}

#[test]
fn what_leaves_is_known_of_whom_it_concerns() {
    let mut state = ward();
    for _ in 0..2 {
        state = told(state, What::Went(Screen::Code { bed: 1, wire: 1 }));
        assert!(state.code_wanted);
        state = told(state, made_code(1));
        state = told(state, What::Went(Screen::CodeCopy { bed: 1, wire: 1 }));
        state = told(state, What::Went(Screen::Beds));
    }
    state = told(state, What::Went(Screen::CodeCopy { bed: 1, wire: 1 }));
    state = told(state, made_code(1));
    let written = Written::At("somewhere".into());
    state = told(state, What::Wrote { writing: files(1), written: written.clone() });
    let not = Written::Not(NotWritten::DiskFull);
    state = told(state, What::Wrote { writing: files(2), written: not });
    assert_eq!(ways(&state.beds[0].left), [(Way::Code, 3), (Way::Files, 1)]);
    assert_eq!(ways(&state.beds[1].left), [], "nothing was written");
    state = told(state, What::BedRemoved { bed: 1 });
    let backup = Writing::Backup { name: "backup-1.holdfast".into() };
    state = told(state, What::Wrote { writing: backup, written });
    assert_eq!(ways(&state.closed[0].left), [(Way::Code, 3), (Way::Files, 1), (Way::Backup, 1)]);
    assert_eq!(ways(&state.beds[0].left), [(Way::Backup, 1)]);
    assert_eq!(
        (state.closed[0].label.as_str(), state.closed[0].patient),
        ("Bay 1", Uuid::from_bytes([1; 16]))
    );
}

/// A new patient in a bed: what is the one's is not the other's. Whole states hold both.
#[test]
fn an_erasure_takes_what_is_the_patients_and_every_older_whole_state() {
    let (first, second, third) = (Uuid::from_u128(1), Uuid::from_u128(2), Uuid::from_u128(3));
    let wire = |bed| What::WireAdded {
        bed,
        wire: 1,
        chamber: Chamber::Ventricle,
        kind: WireKind::Epicardial,
        polarity: Polarity::Bipolar,
        generator: fine().id,
    };
    let due = |bed| What::MadeDue { bed, why: DueNow::Potassium };
    let whats = [
        What::Welcomed,
        What::BedAdded { bed: 1, label: "Bay 1".into(), patient: first },
        wire(1),
        What::BedAdded { bed: 2, label: "Bay 2".into(), patient: third },
        due(1),
        What::PatientArrived { bed: 1, patient: second },
        wire(1),
        due(2),
        What::Folded(Box::new(ward())),
        due(1),
        What::Folded(Box::new(ward())),
    ];
    let mut scope = Scope::default();
    for (what, seq) in whats.into_iter().zip(1..) {
        scope.see(seq, &Event { at: at(0), what });
    }
    assert_eq!(scope.of(first, 11), BTreeSet::from([2, 3, 5, 9]));
    assert_eq!(scope.of(second, 11), BTreeSet::from([7, 9]));
    assert_eq!(scope.of(third, 11), BTreeSet::from([4, 8, 9]));
    // The whole state says who lies where: the tenth entry is of the patient in it.
    assert_eq!(scope.of(ward().beds[0].patient, 11), BTreeSet::from([9, 10]));
}

/// A code is of whom it was made of or taken in for; one that nobody took in may be of anybody, and goes with any.
#[test]
fn an_erasure_takes_the_codes_made_of_the_patient_and_taken_in_for_them() {
    let (first, second) = (Uuid::from_u128(1), Uuid::from_u128(2));
    let ended = |load| What::LoadEnded { load, outcome: Ok(Vec::new()) };
    let whats = [
        What::BedAdded { bed: 1, label: "Bay 1".into(), patient: first },
        What::BedAdded { bed: 2, label: "Bay 2".into(), patient: second },
        made_code(1),
        made_code(2),
        begun(0, None),
        ended(0),
        begun(1, Some(1)),
        ended(1),
        taken(1),
        begun(2, Some(1)),
        ended(2),
        taken(2),
        begun(3, Some(2)),
        What::LoadEnded { load: 3, outcome: Err(NotLoaded::Altered) },
    ];
    let mut scope = Scope::default();
    for (what, seq) in whats.into_iter().zip(1..) {
        scope.see(seq, &Event { at: at(0), what });
    }
    assert_eq!(scope.of(first, 15), BTreeSet::from([1, 3, 5, 6, 7, 8, 9, 13, 14]));
    assert_eq!(scope.of(second, 15), BTreeSet::from([2, 4, 5, 6, 10, 11, 12, 13, 14]));
    assert_eq!(scope.of(Uuid::from_u128(3), 15), BTreeSet::from([5, 6, 13, 14]));
}

#[test]
fn a_code_that_waits_on_its_card_is_let_go_when_something_is_erased() {
    let state = told(ward(), begun(0, None));
    let state = told(state, What::LoadEnded { load: 0, outcome: Ok(Vec::new()) });
    assert!(state.loading.is_some());
    let (by, rules) = ("E. Raser (invented)".to_owned(), "example".to_owned());
    let patient = Uuid::from_u128(9);
    let asked = Erasing { patient, closed: at(0), left: Vec::new(), by, after_days: 30, rules };
    assert!(told(state, What::EraseAsked(asked)).loading.is_none());
}

/// Any bed, rule, educator, run, known tablet or loaded code is something a restore would lose.
#[test]
fn a_tablet_is_untouched_only_while_nothing_was_done_on_it() {
    let fresh = state_with(fine());
    assert!(fresh.is_untouched());
    let known = What::TabletNamed { tablet: Tablet::of_key(&[9; 32]), name: "Ward 2 (invented)".into() };
    for what in [begun(0, None), known, What::BedAdded { bed: 1, label: "1".into(), patient: Uuid::nil() }] {
        assert!(!told(fresh.clone(), what.clone()).is_untouched(), "{what:?}");
    }
    let left = told(told(fresh, begun(0, None)), What::Went(Screen::Beds));
    assert!(left.loading.is_none() && !left.is_untouched(), "a code came");
}

#[test]
fn a_patient_still_in_a_bed_of_an_older_record_goes_from_it() {
    let mut state = ward();
    let told = |place: &str| Told {
        destination: Some(place.to_owned()),
        hands: vec![Hands { at: at(0), from: "Old Zebra".into(), to: "New Zebra".into() }],
        ..Told::default()
    };
    let id = Uuid::from_u128(77);
    state.beds[0].transports = vec![TransportRecord {
        id,
        began: at(-9),
        ended: at(-5),
        no_beats: false,
        shock: false,
        told: told("Room Zebra"),
    }];
    state.beds[0].transport = Some(OpenTransport {
        id,
        began: at(-2),
        facts: Facts::new(1, 0),
        before: None,
        last: at(-1),
        away_ms: 0,
        told: told("Hall Zebra"),
    });
    state.screen = Screen::Transport { bed: 1 };
    let words = ["Bay 1", "Zebra", &state.beds[0].patient.to_string(), &id.to_string()].map(str::to_owned);
    let text = |state: &State| serde_json::to_string(state).unwrap();
    assert!(words.iter().all(|word| text(&state).contains(word)));
    let gone = without(state.clone(), state.beds[0].patient);
    for word in words {
        assert!(!text(&gone).contains(&word), "{word} in {}", text(&gone));
    }
    assert_eq!((gone.beds.as_slice(), gone.screen), (&state.beds[1..], Screen::Beds));
    let stranger = State { screen: Screen::Bed { bed: 2 }, ..ward() };
    assert_eq!(without(stranger.clone(), Uuid::from_u128(78)), stranger);
}

/// A whole state stands in records for ever: `UPDATE=1` writes the file anew only while no version with it is out.
#[test]
fn a_whole_state_of_an_earlier_version_still_reads() {
    let kept = concat!(env!("CARGO_MANIFEST_DIR"), "/kept/folded.json");
    if std::env::var_os("UPDATE").is_some() {
        let event = Event { at: at(0), what: What::Folded(Box::new(left_by(DAY, Rules::example()))) };
        std::fs::write(kept, serde_json::to_vec(&event).unwrap()).unwrap();
    }
    let event: Event = serde_json::from_slice(&std::fs::read(kept).unwrap()).unwrap();
    let state = apply(State::default(), &event);
    assert_eq!(state.beds.iter().map(|bed| bed.label.as_str()).collect::<Vec<_>>(), ["Bay 2"]);
    let record = &state.beds[0].wires[0].records[0];
    assert_eq!((record.facts, record.capture_text.as_deref()), (whole_check(&fine()), Some("1.2")));
    assert_eq!(state.closed[0].label, "Bay 1");
}

fn left_by(minutes_ago: i64, rules: Rules) -> State {
    let state = State { rules, ..ward() };
    let closed = apply(state, &Event { at: at(-minutes_ago), what: What::BedRemoved { bed: 1 } });
    State { screen: Screen::EraseAsk { at: 0 }, ..closed }
}

fn is_erasing(state: &State) -> bool {
    asked(state, Command::Erase { at: 0 }, at(0))
        .is_ok_and(|whats| matches!(whats.first(), Some(What::EraseAsked(_))))
}

/// 30 days in the example rules, from memory.
#[test]
fn the_rule_says_when_and_without_one_nothing_goes() {
    let days = Rules::example().erase_after_days;
    assert_eq!(days, 30);
    assert!(is_erasing(&left_by(30 * DAY, Rules::example())));
    assert!(!is_erasing(&left_by(30 * DAY - 1, Rules::example())));
    let mut file: serde_json::Value = serde_json::from_str(&Rules::example().to_json()).unwrap();
    file.as_object_mut().unwrap().remove("erase_after_days");
    let silent = Rules::from_json(&file.to_string()).unwrap();
    assert_eq!(silent.erase_after_days, 0);
    assert_eq!(
        Rules::from_json(&silent.to_json()).unwrap(),
        silent,
        "a file of before says nothing, and reads"
    );
    assert!(!is_erasing(&left_by(4_000 * DAY, silent)));
}

#[test]
fn nothing_is_erased_in_front_of_a_check_or_while_files_are_written() {
    let mut state = left_by(31 * DAY, Rules::example());
    state.writing = Some(files(2));
    let refused = asked(&state, Command::Erase { at: 0 }, at(0));
    assert_eq!(refused, Err(domain::Refusal::said(Say::WritingStill)));
    state.writing = None;
    state.beds[0].wires[0].check = Some(open_check(whole_check(&fine()), at(-5)));
    let refused = asked(&state, Command::Erase { at: 0 }, at(0));
    assert_eq!(refused, Err(domain::Refusal::said(Say::EndCheckFirst)));
}

#[test]
fn what_writes_to_the_record_waits_for_a_quiet_moment_and_what_does_not_does_not() {
    let mut state = ward();
    let patient = Uuid::from_u128(9);
    let (by, rules) = ("E. Raser (invented)".to_owned(), "example".to_owned());
    state.erasing = Some(Erasing { patient, closed: at(0), left: Vec::new(), by, after_days: 30, rules });
    state.writing = Some(files(1));
    assert_eq!(wanted(&state), [Job::Write(files(1)), Job::Erase { patient }]);
    state.beds[1].wires[0].check = Some(open_check(whole_check(&fine()), at(-5)));
    assert_eq!(wanted(&state), [Job::Write(files(1))]);
    state.writing = None;
    assert_eq!(wanted(&state), []);
}

#[test]
fn practice_is_not_exported() {
    let mut state = ward();
    state.beds[0].wires[0].records.iter_mut().for_each(|record| record.practice = true);
    let refused = asked(&state, Command::Export { bed: 1, wire: 1 }, at(0));
    assert_eq!(refused, Err(domain::Refusal::said(Say::ExportNothing)));
    assert!(asked(&state, Command::Export { bed: 2, wire: 1 }, at(0)).is_ok());
}

/// An answer from a worker that nobody waits for any more changes nothing.
#[test]
fn only_what_was_asked_for_last_comes_back() {
    let state = State { writing: Some(files(1)), ..ward() };
    let wrote = |name: &str| Command::Wrote { name: name.into(), written: Written::At("x".into()) };
    assert!(asked(&state, wrote("checks-0"), at(0)).is_err());
    assert!(asked(&state, wrote("checks-1"), at(0)).is_ok());
}
