//! N5: a check ends with the dials read, or with a reason and a name; the record tells which.

use std::collections::BTreeMap;

use domain::check::answer::Answer;
use domain::check::facts::Facts;
use domain::check::step::Step;
use domain::command::Command;
use domain::contract::Sent;
use domain::state::bed::Names;
use domain::state::screen::Screen;
use domain::{State, apply, decide};

use crate::made::{at, bed, fine, open_check, state_with, whole_check, wire};

/// A check whose last card is `step`, reached from `from`.
fn check_at(step: Step, from: Step) -> State {
    let facts = Facts { step, from, ..whole_check(&fine()) };
    let mut one = wire(1, "example-fine-current");
    one.check = Some(open_check(facts, at(-10)));
    State {
        beds: vec![bed(1, "Bay 2", vec![one])],
        screen: Screen::Check { bed: 1, wire: 1 },
        ..state_with(fine())
    }
}

fn after(state: State, command: Command, values: &[(&str, &str)]) -> State {
    let values = values.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect::<BTreeMap<_, _>>();
    let sent = Sent { card: state.card, command, values, stood_ms: None };
    let events = decide(&state, &sent, at(0)).expect("the answer is taken");
    events.iter().fold(state, apply)
}

fn names(state: &State) -> Names {
    state.beds[0].wires[0].check.as_ref().expect("still open").names.clone()
}

const REASON: [(&str, &str); 2] = [("reason", "moved to imaging"), ("name", "charge nurse")];

#[test]
fn a_reason_for_no_reading_is_remembered_as_that() {
    let state = after(check_at(Step::Reason, Step::ReadBack), Command::Named(Answer::ReasonAndName), &REASON);
    assert!(names(&state).not_read);
    assert_eq!(names(&state).told.as_deref(), Some("charge nurse"));
}

#[test]
fn a_reason_for_a_reading_that_differs_is_not() {
    let state = after(check_at(Step::Reason, Step::Differs), Command::Named(Answer::ReasonAndName), &REASON);
    assert!(!names(&state).not_read);
    assert_eq!(names(&state).reason.as_deref(), Some("moved to imaging"));
}

#[test]
fn a_reading_takes_the_reason_for_none_back() {
    let mut state = check_at(Step::ReadBack, Step::SetMv);
    let open = state.beds[0].wires[0].check.as_mut().expect("open");
    open.names = Names {
        accepted_by: Some("accepting clinician".to_owned()),
        reason: Some("away".to_owned()),
        told: Some("charge nurse".to_owned()),
        not_read: true,
        ..Names::default()
    };
    let dials = [("output", "3.6"), ("rate", "80"), ("mv", "2.0")];
    let state = after(state, Command::TypedDials, &dials);
    let kept = Names { accepted_by: Some("accepting clinician".to_owned()), ..Names::default() };
    assert_eq!(names(&state), kept);
}

/// Until somebody reads them, the bed says so first.
#[test]
fn dials_not_read_stay_owed_on_the_bed_until_a_check_reads_them() {
    let mut state = check_at(Step::Guarded, Step::Confirm);
    state.beds[0].wires[0].check.as_mut().expect("open").names.not_read = true;
    let state = after(state, Command::Answer(Answer::AllTrue), &[]);
    assert_eq!(state.beds[0].wires[0].owed, Some(at(0)));
    assert_eq!(state.screen, Screen::Result { bed: 1, wire: 1, back: 0 });
}
