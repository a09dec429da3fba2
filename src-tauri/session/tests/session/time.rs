//! Time acts through the record alone: watches, sleep, the alive time, a new boot.

use domain::check::answer::{Answer, Gap, TimeUp};
use domain::contract::Shape;
use domain::event::{Answered, Event, What};
use domain::say::Say;
use words::Language;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;
use crate::recording::events;

fn answered(event: &Event) -> Option<&Answered> {
    if let What::Answered(answered) = &event.what { Some(answered) } else { None }
}

fn answers(folder: &std::path::Path) -> Vec<Answer> {
    events(folder).iter().filter_map(answered).map(|answered| answered.answer).collect()
}

/// Into a watch: the dial stands, the good answer is not open yet.
fn watching(nurse: &mut Nurse) {
    nurse.reach_the_first_dial();
    nurse.good();
    let Shape::Turn(turn) = &nurse.view.shape else { panic!("{:#?}", nurse.view) };
    assert!(turn.watch.is_some(), "{:#?}", nurse.view);
}

#[test]
fn a_watch_that_has_passed_opens_the_good_answer_by_an_event() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(folder.path(), &clock);
    watching(&mut nurse);
    let (card, open) = (nurse.view.card, nurse.view.answers.len());
    clock.pass(60_000);
    nurse.wait("the good answer", |view| view.answers.len() > open);
    assert_eq!(nurse.view.card, card, "time only opened an answer");
    assert_eq!(answers(folder.path()).last(), Some(&Answer::Time(TimeUp::Watch)));
}

#[test]
fn a_sleep_in_a_check_is_recorded_with_its_length() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(folder.path(), &clock);
    nurse.reach_the_first_dial();
    nurse.drain();
    clock.be_strict();
    let card = nurse.view.card;
    clock.pass(25_000);
    nurse.wait("the resume card", |view| view.card != card);
    assert_eq!(answers(folder.path()).last(), Some(&Answer::Woke(Gap::Short)));
    let away = events(folder.path()).iter().rev().find_map(answered).map(|answered| answered.away_ms);
    assert_eq!(away, Some(25_000));
}

#[test]
fn a_tap_made_after_a_sleep_meets_the_resume_card() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(folder.path(), &clock);
    nurse.reach_the_first_dial();
    nurse.drain();
    clock.be_strict();
    let taken = answers(folder.path()).len();
    clock.pass(25_000);
    nurse.send(nurse.view.answers[0].command.clone());
    nurse.drain();
    assert_eq!(answers(folder.path())[taken..], [Answer::Woke(Gap::Short)]);
}

#[test]
fn the_gap_of_a_death_counts_from_the_alive_time() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(folder.path(), &clock);
    nurse.reach_the_first_dial();
    for _ in 0..20 {
        clock.pass(1_000);
        nurse.drain();
    }
    nurse.session.close();
    clock.pass(30_000);
    let nurse = Nurse::start(folder.path(), &clock);
    assert_eq!(answers(folder.path()).last(), Some(&Answer::Woke(Gap::Short)));
    let away = events(folder.path()).iter().rev().find_map(answered).map(|answered| answered.away_ms);
    assert_eq!(away, Some(30_000), "not the 50 s since the last answer");
    drop(nurse);
}

#[test]
fn a_new_boot_is_the_longest_gap() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(folder.path(), &clock);
    nurse.reach_the_first_dial();
    nurse.session.close();
    clock.reboot();
    drop(Nurse::start(folder.path(), &clock));
    assert_eq!(answers(folder.path()).last(), Some(&Answer::Woke(Gap::TooLong)));
}

#[test]
fn a_wall_clock_set_back_in_a_check_is_recorded_and_moves_no_watch() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(folder.path(), &clock);
    watching(&mut nurse);
    let open = nurse.view.answers.len();
    clock.set_wall(-3_600_000);
    clock.pass(1_000);
    nurse.drain();
    assert_eq!(nurse.view.answers.len(), open);
    clock.pass(60_000);
    nurse.wait("the good answer", |view| view.answers.len() > open);
    let told = words::say(&Say::ClockSetBack { minutes: 60 }, Language::English).unwrap();
    assert_eq!(nurse.view.notice, Some(told));
    clock.pass(61_000);
    nurse.wait("a card without it", |view| view.notice.is_none());
    let jumps: Vec<What> = events(folder.path())
        .into_iter()
        .map(|event| event.what)
        .filter(|what| matches!(what, What::ClockJumped { .. }))
        .collect();
    assert_eq!(jumps, [What::ClockJumped { by_ms: -3_600_000 }]);
}

#[test]
fn the_wall_clock_on_the_card_is_kept_right() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::start(folder.path(), &clock);
    let (at, card) = (nurse.view.now_ms, nurse.view.card);
    clock.pass(31_000);
    nurse.wait("a push by time alone", |view| view.now_ms >= at + 31_000);
    assert_eq!(nurse.view.card, card);
}

#[test]
fn in_a_check_a_page_that_hangs_is_found_out_by_the_next_pulse() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(folder.path(), &clock);
    nurse.drain();
    nurse.session.painted(nurse.view.card);
    assert_eq!(nurse.session.silent_for(), None);
    clock.pass(2_000);
    assert_eq!(nurse.drain(), 1);
    assert!(nurse.session.silent_for().is_some());
}
