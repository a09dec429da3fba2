//! The reading with which a swap and a transport begin: by the rule of a check's first reading (`decide::check`).

use domain::check::facts::Dials;
use domain::command::Command;
use domain::contract::{FieldKind, Shape};
use domain::event::What;
use domain::moment::Moment;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::swap::answer::Answer as Swap;
use domain::swap::facts::Work;
use domain::swap::step::Step as SwapStep;
use domain::transport::answer::Answer as Way;
use domain::transport::step::Step as WayStep;
use domain::{Event, State, apply, view};

use crate::made::{BED, WIRE, at, checked_ward, compared_ward, facts, handed_ward, send, tell, ward};

const RIGHT: [&str; 3] = ["6.0", "80", "2.0"];
const WRONG: [&str; 3] = ["0.6", "80", "2.0"];

/// The reading of a swap of this wire.
fn swap(state: &State) -> State {
    let begun = tell(state, Command::BeginSwap { bed: BED, wire: WIRE, work: Work::Box }, &[], at(0));
    let looked = tell(&begun, Command::Swap(Swap::Paced), &[], at(1));
    let alone = tell(&looked, Command::Swap(Swap::No), &[], at(2));
    tell(&alone, Command::SwapNamed(Swap::Yes), &[("name", "Dr Example")], at(3))
}

/// The reading on leaving.
fn way(state: &State) -> State {
    let begun = tell(state, Command::BeginTransport { bed: BED }, &[], at(0));
    let to = [("target", "unit"), ("destination", "Ward 3")];
    let going = tell(&begun, Command::TransportGoing, &to, at(1));
    let pads = tell(&going, Command::Transport(Way::Yes), &[], at(2));
    tell(&pads, Command::Transport(Way::AllTrue), &[], at(3))
}

fn typed(state: &State, [output, rate, mv]: [&str; 3]) -> State {
    let on_swap = matches!(state.screen, Screen::Swap { .. });
    let command = if on_swap { Command::SwapTypedDials } else { Command::TransportTypedDials };
    tell(state, command, &[("output", output), ("rate", rate), ("mv", mv)], at(10))
}

/// Past the reading.
fn is_taken(state: &State) -> bool {
    match state.bed(BED).unwrap().transport.as_ref() {
        Some(open) => open.facts.step == WayStep::Margin,
        None => facts(state).unwrap().step == SwapStep::PickBox,
    }
}

fn notice(state: &State) -> Option<Say> {
    view(state, at(20)).notice
}

fn asked(state: &State) -> Option<Dials> {
    state.wire(BED, WIRE).unwrap().asked_again
}

#[test]
fn with_nothing_to_compare_two_equal_readings_are_taken() {
    for begun in [swap(&ward(1)), way(&ward(1))] {
        let once = typed(&begun, RIGHT);
        assert!(!is_taken(&once) && once.card > begun.card, "a new card, with empty fields");
        assert_eq!(notice(&once), Some(Say::NothingToCompare));
        let Shape::Form(form) = view(&once, at(20)).shape else { panic!("a form") };
        assert_eq!(form.fields.iter().map(|field| field.kind).collect::<Vec<_>>(), [FieldKind::Digits; 3]);
        let shown = serde_json::to_string(&view(&once, at(20))).unwrap();
        assert!(!shown.contains("6.0"), "not prompted: {shown}");
        let twice = typed(&once, RIGHT);
        assert!(is_taken(&twice));
        assert_eq!((asked(&twice), notice(&twice)), (None, None));
    }
}

#[test]
fn readings_that_differ_are_named_and_the_later_one_has_to_be_confirmed() {
    for begun in [swap(&ward(1)), way(&ward(1))] {
        let again = typed(&typed(&begun, WRONG), RIGHT);
        let Some(Say::ReadTwice { dial, .. }) = notice(&again) else { panic!("{:?}", notice(&again)) };
        assert_eq!((is_taken(&again), *dial), (false, Say::Output));
        assert!(!is_taken(&typed(&again, WRONG)), "the earlier one, typed again, is not two in a row");
        assert!(is_taken(&typed(&again, RIGHT)));
    }
}

/// The last check left 3.6.
#[test]
fn beside_the_last_check_one_reading_is_enough_unless_it_is_far() {
    for begun in [swap(&checked_ward()), way(&checked_ward())] {
        assert!(is_taken(&typed(&begun, ["3.0", "80", "2.0"])));
        let far = typed(&begun, WRONG);
        let said = Say::FarFromLast { last: "3.6".to_owned(), typed: "0.6".to_owned() };
        assert_eq!((is_taken(&far), notice(&far)), (false, Some(said)));
        assert!(is_taken(&typed(&far, WRONG)));
    }
}

/// A code that was loaded is something to set the reading beside: as it says, it is taken; unlike it, read once more.
#[test]
fn beside_a_handover_what_is_unlike_it_is_read_once_more() {
    let begun = way(&handed_ward());
    assert!(is_taken(&typed(&begun, ["3.6", "80", "2.0"])));
    let unlike = typed(&begun, ["3.0", "80", "2.0"]);
    assert_eq!((is_taken(&unlike), notice(&unlike)), (false, Some(Say::UnlikeHanded)));
    assert!(is_taken(&typed(&unlike, ["3.0", "80", "2.0"])));
}

/// A handover that named no dials was compared with nothing: it is no reading of this change of hands.
#[test]
fn a_handover_without_dials_does_not_stand_for_the_reading() {
    let mut handed = handed_ward();
    handed.wire_mut(BED, WIRE).unwrap().arrival.as_mut().unwrap().newest.dials = None;
    let dials = [("output", "0.6"), ("rate", "80"), ("mv", "2.0")];
    let compared = tell(&handed, Command::CompareDials { bed: BED, wire: WIRE }, &dials, at(-60_000));
    let step = |state: &State| state.bed(BED).unwrap().transport.as_ref().unwrap().facts.step;
    assert_eq!(step(&way(&compared)), WayStep::Read);
    assert_eq!(step(&way(&compared_ward())), WayStep::Margin);
}

/// The record is all that is left; the patient comes first, then the second reading.
#[test]
fn a_death_between_the_two_readings_forgets_neither() {
    let started = at(20_000);
    for begun in [swap(&ward(1)), way(&ward(1))] {
        let once = typed(&begun, WRONG);
        let again = typed(&once, RIGHT);
        let kept: State = serde_json::from_str(&serde_json::to_string(&again).unwrap()).unwrap();
        let alive = Some(at(10));
        let woken = tell(&kept, Command::Started { alive }, &[], started);
        assert_eq!(notice(&woken), None, "the patient first");
        let yes = match woken.screen {
            Screen::Swap { .. } => Command::Swap(Swap::Yes),
            _ => Command::Transport(Way::Yes),
        };
        let back = tell(&woken, yes, &[], started);
        assert_eq!(notice(&back), notice(&again));
        assert!(is_taken(&typed(&back, RIGHT)));
    }
}

/// Then a swap looks at patient and pins anew, and reads as for the first time.
#[test]
fn after_a_new_boot_a_swap_forgets_the_reading() {
    let new_boot = Moment { boot: 8, boot_ms: 5_000, ..at(20_000) };
    let once = typed(&swap(&ward(1)), RIGHT);
    let woken = tell(&once, Command::Started { alive: Some(at(10)) }, &[], new_boot);
    let traced = tell(&woken, Command::Swap(Swap::Yes), &[], new_boot);
    let looks = tell(&traced, Command::Swap(Swap::PinsOld), &[], new_boot);
    assert_eq!((facts(&looks).unwrap().step, asked(&looks)), (SwapStep::Look, None));
}

/// What was typed on another card, or before, is no first of two.
#[test]
fn two_in_a_row_are_of_one_card() {
    let slip = |state: &State| match state.screen {
        Screen::Swap { .. } => tell(state, Command::Swap(Swap::Slip), &[], at(11)),
        _ => tell(state, Command::Transport(Way::Slip), &[], at(11)),
    };
    for begun in [swap(&ward(1)), way(&ward(1))] {
        assert_eq!(asked(&slip(&typed(&begun, RIGHT))), None);
    }
    let mut owed = ward(1);
    owed.wire_mut(BED, WIRE).unwrap().owed = Some(at(-1));
    let dials = swap_dials(&owed);
    let what = What::OwedAskedAgain { bed: BED, wire: WIRE, dials };
    let typed_before = apply(owed, &Event { at: at(0), what });
    assert_eq!(asked(&typed_before), Some(dials));
    for begun in [swap(&typed_before), way(&typed_before)] {
        assert!(!is_taken(&typed(&begun, RIGHT)));
    }
    let elsewhere = tell(&ward(1), Command::BeginTransport { bed: BED }, &[], at(0));
    let [output, rate, mv] = RIGHT;
    let values = [("output", output), ("rate", rate), ("mv", mv)];
    let refused = send(&elsewhere, Command::TransportTypedDials, &values, at(1));
    assert!(refused.is_err(), "no reading is asked for here");
}

fn swap_dials(state: &State) -> Dials {
    let profile = state.generator("example-fine-current").unwrap();
    let [output, rate, mv] = RIGHT;
    Dials {
        output: profile.read_output(output).unwrap(),
        rate: profile.read_rate(rate).unwrap(),
        mv: profile.read_mv(mv).unwrap(),
    }
}
