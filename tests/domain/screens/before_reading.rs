//! Beats may stop before a dial is known: NO BEATS is there from the first card on.

use domain::check::answer::Answer;
use domain::check::facts::{Dials, Facts};
use domain::check::step::Step;
use domain::command::Command;
use domain::contract::{Item, Sent, Shape, Tone};
use domain::say::Say;
use domain::state::bed::OpenCheck;
use domain::state::screen::Screen;
use domain::{State, apply, decide, view};

use crate::made::{at, bed, dials, fine, open_check, state_with, whole_check, wire, wire_with};

const READY: [Step; 12] = [
    Step::SamePatient,
    Step::Order,
    Step::Accept,
    Step::ListFirst,
    Step::ListSecond,
    Step::WhichLine,
    Step::Blocked,
    Step::PulseTrace,
    Step::Standby,
    Step::RightWire,
    Step::ReadFound,
    Step::FirstLook,
];

fn on(step: Step) -> State {
    let mut one = wire(1, "example-fine-current");
    let facts = Facts { from: Step::ListFirst, ..Facts::new(step) };
    one.check = Some(open_check(facts, at(-1)));
    let screen = Screen::Check { bed: 1, wire: 1 };
    State { beds: vec![bed(1, "Bay 2", vec![one])], screen, ..state_with(fine()) }
}

fn sent(state: &State, command: Command, values: &[(&str, &str)]) -> State {
    let values = values.iter().map(|(id, text)| ((*id).to_owned(), (*text).to_owned())).collect();
    let sent = Sent { card: state.card, command, values, stood_ms: None };
    let events = decide(state, &sent, at(10 + i64::from(state.card))).expect("taken");
    events.iter().fold(state.clone(), apply)
}

fn say(state: &State, answer: Answer) -> State {
    sent(state, Command::Answer(answer), &[])
}

fn open(state: &State) -> &OpenCheck {
    state.beds[0].wires[0].check.as_ref().expect("still open")
}

fn lines(state: &State) -> Vec<Say> {
    let Shape::List(list) = view(state, at(99)).shape else { panic!("a list") };
    list.items.into_iter().map(|item: Item<Say>| item.text).collect()
}

#[test]
fn every_card_before_the_first_reading_has_it_and_calls_at_once() {
    for step in READY {
        let state = on(step);
        let seen = view(&state, at(99));
        let buttons: Vec<_> = seen.answers.iter().chain(&seen.aside).collect();
        let key = buttons.iter().find(|act| act.key == "no-beats").unwrap_or_else(|| panic!("{step:?}"));
        assert_eq!((key.tone, seen.safety.is_none()), (Tone::Alarm, true), "{step:?}");
        let called = say(&state, Answer::NoBeats);
        assert_eq!(open(&called).facts.step, Step::Emergency, "{step:?}");
        assert_eq!(lines(&called)[0], Say::EmergencyCall, "{step:?}");
    }
}

/// Nobody knows where RATE stands: asynchronous, it may not be turned down.
#[test]
fn a_faster_rate_is_left_as_it_is() {
    let called = say(&on(Step::Order), Answer::NoBeats);
    assert!(
        lines(&called).contains(&Say::EmergencyRateAtLeast { figure: "80".into() }),
        "{:?}",
        lines(&called)
    );
    let read = on(Step::FirstLook);
    let read = say(&sent_found(&read), Answer::NoBeats);
    assert!(lines(&read).iter().any(|line| matches!(line, Say::EmergencyRate { .. })), "{:?}", lines(&read));
}

/// The same card with the dials read.
fn sent_found(state: &State) -> State {
    let mut next = state.clone();
    let stand = dials(&fine(), "6.0", "80", "2.0");
    let check = next.beds[0].wires[0].check.as_mut().expect("open");
    check.facts = Facts { found: stand, back_to: stand, stand, ..check.facts };
    next
}

#[test]
fn with_beats_again_the_reading_after_is_the_first_and_the_check_ends_with_a_last_look() {
    let called = say(&on(Step::ListFirst), Answer::NoBeats);
    let after = say(&called, Answer::BeatsAgain);
    assert_eq!(open(&after).facts.step, Step::ReadAfter);
    let read = sent(&after, Command::TypedDials, &[("output", "20.0"), ("rate", "80"), ("mv", "15.0")]);
    let facts = open(&read).facts;
    assert_eq!(facts.step, Step::Confirm);
    assert_eq!((facts.found, facts.back_to), (facts.stand, facts.stand));
    assert_ne!(facts.found, Dials::UNREAD);
    assert!(view(&read, at(99)).safety.is_some(), "the way back is in view from here on");
}

/// The wire may have been another patient's: that is asked before anything is kept under it.
#[test]
fn with_checks_on_record_the_patient_is_asked_for_before_the_reading() {
    let called = say(&on_record(Step::SamePatient), Answer::NoBeats);
    let asked = say(&called, Answer::BeatsAgain);
    assert_eq!(open(&asked).facts.step, Step::SamePatient);
    assert!(view(&asked, at(99)).aside.iter().all(|act| act.key != "leave"), "the dials are read first");
    assert_eq!(open(&say(&asked, Answer::Yes)).facts.step, Step::ReadAfter);
    let other = say(&asked, Answer::No);
    assert!(other.beds[0].wires[0].check.is_none(), "left");
    assert_eq!(other.screen, Screen::NewPatient { bed: 1 });
}

fn on_record(step: Step) -> State {
    let base = state_with(fine());
    let mut one = wire_with(&base, 1, &[whole_check(&fine())]);
    one.check = Some(open_check(Facts::new(step), at(-1)));
    State { beds: vec![bed(1, "Bay 2", vec![one])], screen: Screen::Check { bed: 1, wire: 1 }, ..base }
}

/// Ended without any reading: the next check has nothing to set the first one beside.
#[test]
fn a_check_that_ends_unread_is_no_last_setting() {
    let after = say(&say(&on(Step::Order), Answer::NoBeats), Answer::BeatsAgain);
    let asked = say(&after, Answer::No);
    let reason = [("reason", "taken to theatre (invented)"), ("name", "Dr Wymark (invented)")];
    let done = sent(&asked, Command::Named(Answer::ReasonAndName), &reason);
    let left = &done.beds[0].wires[0];
    assert_eq!(left.records.last().map(|record| record.stays_at), Some(Dials::UNREAD));

    let mut next = done.clone();
    next.beds[0].wires[0].check = Some(open_check(Facts::new(Step::ReadFound), at(90)));
    next.screen = Screen::Check { bed: 1, wire: 1 };
    let asked = sent(&next, Command::TypedDials, &[("output", "6.0"), ("rate", "80"), ("mv", "2.0")]);
    assert_eq!(view(&asked, at(99)).notice, Some(Say::NothingToCompare));
}

#[test]
fn a_slip_goes_back_to_the_card_it_was_tapped_on() {
    for step in READY {
        let called = say(&on(step), Answer::NoBeats);
        let back = say(&called, Answer::Slip);
        assert_eq!(open(&back).facts.step, step);
        assert_eq!(open(&back).facts.found, Dials::UNREAD);
    }
}
