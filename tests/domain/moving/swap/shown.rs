//! What stands on the bed list and what is refused while a box is being changed; what comes back after a death.

use domain::command::Command;
use domain::moment::Moment;
use domain::state::screen::Screen;
use domain::swap::answer::Answer;
use domain::swap::step::Step;
use domain::{attention, view};

use crate::made::{BED, WIRE, WORLDS, at, facts, send, tell};

#[test]
fn no_check_no_other_patient_no_empty_bed_while_a_box_is_being_changed() {
    let state = WORLDS[0].begun();
    let wire = ("wire", "1");
    for (command, values) in [
        (Command::Begin { bed: BED, wire: WIRE }, vec![]),
        (Command::NewPatient { bed: BED }, vec![]),
        (Command::EmptyBed { bed: BED }, vec![]),
        (Command::RemoveBed { bed: BED }, vec![]),
        (Command::RemoveWire { bed: BED }, vec![wire]),
        (Command::PlugInto { bed: BED, wire: WIRE }, vec![("generator", WORLDS[0].new)]),
    ] {
        let refused = send(&state, command.clone(), &values, at(0)).expect_err("taken");
        assert!(refused.say().is_some(), "{command:?} says why");
    }
}

#[test]
fn a_bed_with_a_box_being_changed_comes_first() {
    let state = WORLDS[0].begun();
    let first = attention::of_bed(state.bed(BED).unwrap(), at(0));
    assert!(matches!(first, attention::Attention::BoxChange { runs: true, .. }), "{first:?}");
    assert!(first.is_urgent());
}

/// Killed in the middle of it, the tablet comes back to it, with the patient first.
#[test]
fn a_swap_comes_back_after_a_death_with_the_patient_first() {
    let state = tell(&WORLDS[0].begun(), Command::Swap(Answer::Paced), &[], at(0));
    let away = tell(&state, Command::Go(Screen::Beds), &[], at(0));
    let later = at(3_600_000);
    let new_boot = Moment { boot: 8, boot_ms: 5_000, ..later };
    let back = tell(&away, Command::Started { alive: None }, &[], new_boot);
    assert_eq!(back.screen, Screen::Swap { bed: BED, wire: WIRE });
    assert_eq!(facts(&back).unwrap().step, Step::AwayLook);
    assert!(view(&back, new_boot).safety.is_some(), "NO BEATS at once");
}
