//! The first reading of a wire of which nothing is known is typed twice: everything after it hangs on it.

use domain::check::answer::Answer;
use domain::check::facts::Facts;
use domain::check::step::Step;
use domain::command::Command;
use domain::contract::{FieldKind, Sent, Shape};
use domain::event::{Event, What};
use domain::handover::compare::compare;
use domain::rules::Rules;
use domain::say::Say;
use domain::state::bed::{OpenCheck, Wire};
use domain::state::screen::Screen;
use domain::{State, apply, decide, view};

use crate::compared::{arrival, check as code};
use crate::made::{at, bed, dials, fine, open_check, state_with, whole_check, wire, wire_with};

type Typed = (&'static str, &'static str, &'static str);

const RIGHT: Typed = ("5.8", "80", "2.0");
const WRONG: Typed = ("0.5", "80", "2.0");

fn reading_found(on: Wire) -> State {
    let mut one = on;
    one.check = Some(open_check(Facts::new(Step::ReadFound), at(-1)));
    let screen = Screen::Check { bed: 1, wire: 1 };
    State { beds: vec![bed(1, "Bay 2", vec![one])], screen, ..state_with(fine()) }
}

fn unknown() -> State {
    reading_found(wire(1, "example-fine-current"))
}

fn sent(state: &State, command: Command, values: &[(&str, &str)]) -> State {
    let values = values.iter().map(|(id, text)| ((*id).to_owned(), (*text).to_owned())).collect();
    let sent = Sent { card: state.card, command, values, stood_ms: None };
    let events = decide(state, &sent, at(10 + i64::from(state.card))).expect("taken");
    events.iter().fold(state.clone(), apply)
}

/// Taken, or asked for once more.
fn typed(state: &State, (output, rate, mv): Typed) -> State {
    sent(state, Command::TypedDials, &[("output", output), ("rate", rate), ("mv", mv)])
}

fn open(state: &State) -> &OpenCheck {
    state.beds[0].wires[0].check.as_ref().expect("still open")
}

fn notice(state: &State) -> Option<Say> {
    view(state, at(99)).notice
}

fn is_taken(state: &State) -> bool {
    open(state).facts.step == Step::FirstLook
}

#[test]
fn with_nothing_to_compare_two_equal_readings_are_taken() {
    let once = typed(&unknown(), RIGHT);
    assert!(!is_taken(&once));
    assert_eq!(notice(&once), Some(Say::NothingToCompare));
    let twice = typed(&once, RIGHT);
    assert!(is_taken(&twice));
    assert_eq!(open(&twice).facts.found, dials(&fine(), "5.8", "80", "2.0"));
    assert_eq!(notice(&twice), None);
}

/// A new card with empty fields: the page keeps nothing, and no figure stands on it.
#[test]
fn the_second_reading_is_not_prompted() {
    let first = unknown();
    let once = typed(&first, RIGHT);
    assert!(once.card > first.card);
    let shown = view(&once, at(0));
    assert!(shown.safety.is_none(), "no settings in view");
    let Shape::Form(form) = &shown.shape else { panic!("a form") };
    assert_eq!(form.fields.iter().map(|field| field.kind).collect::<Vec<_>>(), [FieldKind::Digits; 3]);
    let text = serde_json::to_string(&shown).expect("a view is JSON");
    assert!(!text.contains("5.8"), "{text}");
}

#[test]
fn readings_that_differ_are_named_and_the_later_one_has_to_be_confirmed() {
    let again = typed(&typed(&unknown(), WRONG), RIGHT);
    assert!(!is_taken(&again));
    let Some(Say::ReadTwice { dial, first, then }) = notice(&again) else { panic!("{:?}", notice(&again)) };
    let figure = |text: &str| Say::Figure { text: text.to_owned() };
    assert_eq!((*dial, *first, *then), (Say::Output, figure("0.5"), figure("5.8")));
    assert!(!is_taken(&typed(&again, WRONG)), "the earlier one, typed again, is not two in a row");
    assert!(is_taken(&typed(&again, RIGHT)));
}

/// Asynchronous is a place of the dial as well.
#[test]
fn a_number_and_asynchronous_differ() {
    let again = typed(&typed(&unknown(), ("5.8", "80", "asynchronous")), RIGHT);
    let Some(Say::ReadTwice { first, .. }) = notice(&again) else { panic!("{:?}", notice(&again)) };
    assert_eq!(*first, Say::Asynchronous);
}

#[test]
fn beside_the_last_check_one_reading_is_enough_unless_it_is_far() {
    let left = wire_with(&state_with(fine()), 1, &[whole_check(&fine())]);
    assert!(is_taken(&typed(&reading_found(left.clone()), ("3.6", "80", "2.0"))));
    let far = typed(&reading_found(left), ("0.6", "80", "2.0"));
    let said = Say::FarFromLast { last: "3.6".to_owned(), typed: "0.6".to_owned() };
    assert_eq!((is_taken(&far), notice(&far)), (false, Some(said)));
}

/// What was read here beside a handover is known; a handover that nobody has compared is not.
#[test]
fn beside_a_compared_handover_one_reading_is_enough() {
    let handed = |compared| {
        let mut one = wire(1, "example-fine-current");
        one.arrival = Some(arrival(&code(), compared));
        reading_found(one)
    };
    let read = dials(&fine(), "5.8", "80", "2.0");
    let compared = compare(&fine(), &Rules::example(), read, &code(), at(-1));
    assert!(is_taken(&typed(&handed(Some(compared.clone())), RIGHT)));
    let far = typed(&handed(Some(compared)), WRONG);
    assert!(matches!(notice(&far), Some(Say::FarFromLast { .. })) && !is_taken(&far));
    assert_eq!(notice(&typed(&handed(None), RIGHT)), Some(Say::NothingToCompare));
}

/// On another generator the last check says nothing of these dials.
#[test]
fn a_check_on_another_generator_is_nothing_to_compare_with() {
    let mut other = wire_with(&state_with(fine()), 1, &[whole_check(&fine())]);
    other.records[0].generator = "another".to_owned();
    let once = typed(&reading_found(other), RIGHT);
    assert_eq!((is_taken(&once), notice(&once)), (false, Some(Say::NothingToCompare)));
}

#[test]
fn a_death_between_the_two_readings_forgets_neither() {
    let again = typed(&typed(&unknown(), WRONG), RIGHT);
    let text = serde_json::to_string(&again).expect("a state is JSON");
    let woken: State = serde_json::from_str(&text).expect("and reads again");
    assert_eq!(notice(&woken), notice(&again));
    assert!(is_taken(&typed(&woken, RIGHT)));
    // A check opened before there was a reading before.
    let open = serde_json::to_value(open(&again)).expect("JSON");
    let mut older = open.as_object().expect("an object").clone();
    older.remove("asked_before");
    let older: OpenCheck = serde_json::from_value(older.into()).expect("reads with its default");
    assert_eq!(older.asked_before, None);
}

/// What was typed at the other box is a place on another dial.
#[test]
fn plugged_into_another_box_it_begins_anew() {
    let once = typed(&unknown(), RIGHT);
    let what = What::WirePlugged { bed: 1, wire: 1, generator: "example-fine-current".to_owned(), due: None };
    let plugged = apply(once, &Event { at: at(3), what });
    assert_eq!(open(&plugged).asked_again, None);
    assert!(!is_taken(&typed(&plugged, RIGHT)));
}

/// A reading taken back by a slip is typed twice again.
#[test]
fn once_taken_the_readings_are_forgotten() {
    let taken = typed(&typed(&unknown(), RIGHT), RIGHT);
    assert_eq!((open(&taken).asked_again, open(&taken).asked_before), (None, None));
    let back = sent(&taken, Command::Answer(Answer::Slip), &[]);
    assert_eq!(open(&back).facts.step, Step::ReadFound);
    let once = typed(&back, RIGHT);
    assert_eq!((is_taken(&once), notice(&once)), (false, Some(Say::NothingToCompare)));
    assert!(is_taken(&typed(&once, RIGHT)));
}
