//! What befalls a bed between two checks: an owed reading, an event, a wire that is out, an empty bed.

use domain::check::answer::Answer;
use domain::command::Command;
use domain::contract::Shape;
use domain::event::What;
use domain::say::Say;
use domain::state::bed::DueNow;
use domain::state::screen::Screen;
use words::Language;

use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;
use crate::recording::events;

fn english(say: &Say) -> String {
    words::say(say, Language::English).unwrap()
}

/// A check stopped before any dial was turned, its reading put off with a reason and a name.
pub fn with_dials_owed(folder: &std::path::Path, clock: &HandClock) -> Nurse {
    let mut nurse = Nurse::in_a_check(folder, clock);
    stopped_with_dials_owed(&mut nurse, folder, 1);
    nurse
}

/// The same on the card of an open check in this bed.
pub fn stopped_with_dials_owed(nurse: &mut Nurse, folder: &std::path::Path, bed: u32) {
    nurse.reach_the_first_dial();
    nurse.ask(Command::Answer(Answer::Stop));
    let mut cards = 0;
    while folded(folder).wire(bed, 1).unwrap().check.is_some() {
        if matches!(&nurse.view.shape, Shape::Ask(ask) if ask.watch.is_some()) {
            nurse.clock.pass(60_000);
            nurse.wait("the good answer", |view| view.answers.iter().any(|act| act.key == "fine"));
        }
        let not_now = nurse.view.answers.iter().find(|act| act.key == "no").cloned();
        let reason = nurse.view.answers.iter().find(|act| act.key == "reason").cloned();
        match reason.or(not_now) {
            Some(act) => nurse.tap(&act),
            None => nurse.good(),
        }
        cards += 1;
        assert!(cards < 40, "{:#?}", nurse.view);
    }
    assert!(folded(folder).wire(bed, 1).unwrap().owed.is_some());
}

#[test]
fn an_owed_reading_is_done_from_the_bed() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &HandClock::new());
    nurse.ask(Command::Go(Screen::Bed { bed: 1 }));
    let Shape::Beds(wires) = &nurse.view.shape else { panic!("{:?}", nurse.view.shape) };
    let read = wires.rows.iter().map(|row| &row.open).find(|act| act.key == "read-1").cloned().unwrap();
    nurse.tap(&read);
    nurse.ask(Command::ReadOwed { bed: 1, wire: 1 });
    let wire = folded(folder.path()).wire(1, 1).unwrap().clone();
    assert_eq!((wire.owed, wire.standing, wire.due_now), (None, None, None));
}

/// Unlike what the last check left: asked once more, then taken, and a check is due.
#[test]
fn an_owed_reading_that_differs_is_asked_for_once_more_and_makes_a_check_due() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &HandClock::new());
    nurse.ask(Command::Go(Screen::ReadOwed { bed: 1, wire: 1 }));
    let read = Command::ReadOwed { bed: 1, wire: 1 };
    nurse.type_in(read.clone(), "output", "5.0");
    let said = nurse.view.notice.clone().unwrap();
    assert!(said.contains("6.0 mA") && said.contains("5.0 mA"), "{said}");
    assert!(folded(folder.path()).wire(1, 1).unwrap().owed.is_some());
    nurse.type_in(read, "output", "5.0");
    let wire = folded(folder.path()).wire(1, 1).unwrap().clone();
    assert_eq!((wire.owed, wire.due_now), (None, Some(DueNow::Dials)));
    assert_eq!(wire.standing.unwrap().printed.output, "5.0");
    nurse.ask(Command::Go(Screen::Code { bed: 1, wire: 1 }));
    assert!(serde_json::to_string(&nurse.view).unwrap().contains(&english(&Say::CodeDialsDiffer)));
}

#[test]
fn nothing_is_closed_over_an_open_check_or_over_dials_that_nobody_has_read() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(folder.path(), &clock);
    let closing =
        [Command::EmptyBed { bed: 1 }, Command::RemoveBed { bed: 1 }, Command::RemoveWire { bed: 1 }];
    let refused = |nurse: &mut Nurse, say: &Say| {
        for command in closing.clone() {
            nurse.ask(Command::Go(Screen::Beds));
            let before = events(folder.path()).len();
            nurse.send(command);
            let said = english(say);
            nurse.wait("the refusal", |view| view.notice.as_ref() == Some(&said));
            assert_eq!(events(folder.path()).len(), before);
        }
    };
    refused(&mut nurse, &Say::EndCheckFirst);
    nurse.session.close();
    drop(folder);

    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &clock);
    for command in
        [Command::EmptyBed { bed: 1 }, Command::RemoveBed { bed: 1 }, Command::RemoveWire { bed: 1 }]
    {
        nurse.ask(Command::Go(Screen::Beds));
        nurse.send(command);
        let said = english(&Say::ReadDialsFirst);
        nurse.wait("the refusal", |view| view.notice.as_ref() == Some(&said));
    }
}

#[test]
fn a_bed_empties_a_wire_goes_a_bed_goes_and_their_history_stays_in_the_record() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &HandClock::new());
    nurse.ask(Command::Go(Screen::ReadOwed { bed: 1, wire: 1 }));
    nurse.ask(Command::ReadOwed { bed: 1, wire: 1 });
    nurse.ask(Command::AddWire { bed: 1 });
    nurse.ask(Command::Go(Screen::WireOut { bed: 1 }));
    nurse.type_in(Command::RemoveWire { bed: 1 }, "wire", "2");
    let left: Vec<_> = folded(folder.path()).beds[0].wires.iter().map(|wire| wire.id).collect();
    assert_eq!(left, [1]);
    let patient = folded(folder.path()).beds[0].patient;
    nurse.ask(Command::Go(Screen::EmptyBed { bed: 1 }));
    nurse.ask(Command::EmptyBed { bed: 1 });
    let bed = folded(folder.path()).beds[0].clone();
    assert!(bed.wires.is_empty() && bed.patient != patient, "the next patient is another");
    nurse.ask(Command::Go(Screen::EmptyBed { bed: 1 }));
    nurse.ask(Command::RemoveBed { bed: 1 });
    assert!(folded(folder.path()).beds.is_empty());
    nurse.ask(Command::Go(Screen::NewBed));
    nurse.ask(Command::AddBed);
    assert_eq!(folded(folder.path()).beds[0].id, 2, "a bed's number is not used again");
    nurse.session.close();
    let kept = events(folder.path()).iter().any(|event| matches!(event.what, What::CheckEnded { .. }));
    assert!(kept);
}

/// SHOCK (read): thresholds rise six-fold; leads, potassium and rhythm drugs: common practice, no source.
#[test]
fn what_has_happened_makes_a_check_due_now_with_its_reason_first_on_the_list() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::in_a_check(folder.path(), &HandClock::new());
    nurse.ask(Command::Answer(Answer::Stop));
    nurse.type_in(Command::AddBed, "label", "Bay 9 (invented)");
    nurse.ask(Command::AddWire { bed: 2 });
    nurse.ask(Command::Go(Screen::Happened { bed: 2 }));
    nurse.ask(Command::Happened { bed: 2, why: DueNow::Potassium });
    nurse.ask(Command::Go(Screen::Beds));
    let Shape::Beds(beds) = &nurse.view.shape else { panic!("{:?}", nurse.view.shape) };
    assert_eq!(beds.rows[0].title, "Bay 9 (invented)");
    let why = Say::DueBecause { why: Box::new(Say::DuePotassium) };
    assert_eq!(beds.rows[0].due, Some(english(&why)));
    assert!(beds.rows[0].urgent);
}
