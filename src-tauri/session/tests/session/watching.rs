//! Pages come and go; the newest sees everything, a silent one is noticed.

use std::sync::mpsc::channel;
use std::time::Duration;

use domain::command::{Command, Language};
use domain::contract::Shape;
use domain::state::screen::Screen;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;

#[test]
fn a_page_that_is_loaded_again_gets_the_present_card_and_the_old_one_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::start(folder.path(), &clock);
    nurse.ask(Command::Welcomed);
    nurse.drain();
    let (sender, newer) = channel();
    nurse.session.watch(move |view| sender.send(view).is_ok()).unwrap();
    let first = newer.recv_timeout(Duration::from_secs(20)).unwrap();
    assert_eq!(first.shape, nurse.view.shape);
    nurse.send(Command::Go(Screen::Settings));
    assert_ne!(newer.recv_timeout(Duration::from_secs(20)).unwrap().card, first.card);
    assert_eq!(nurse.drain(), 0);
}

#[test]
fn a_page_that_draws_is_not_silent_and_one_that_does_not_is() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::start(folder.path(), &clock);
    nurse.drain();
    nurse.session.painted(nurse.view.card);
    assert_eq!(nurse.session.silent_for(), None);
    nurse.ask(Command::Welcomed);
    std::thread::sleep(Duration::from_millis(60));
    assert!(nurse.session.silent_for().unwrap() >= Duration::from_millis(50));
    nurse.session.painted(nurse.view.card - 1);
    assert!(nurse.session.silent_for().is_some(), "an older card on the glass is not this one");
    nurse.session.painted(nurse.view.card);
    assert_eq!(nurse.session.silent_for(), None);
}

#[test]
fn nobody_watching_is_not_silence() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::start(folder.path(), &clock);
    nurse.drain();
    nurse.session.painted(nurse.view.card);
    nurse.session.watch(|_| false).unwrap();
    nurse.send(Command::Welcomed);
    std::thread::sleep(Duration::from_millis(100));
    assert_eq!(nurse.session.silent_for(), None);
}

#[test]
fn the_mark_of_a_test_clock_is_on_no_card_by_the_devices_clocks() {
    let folder = tempfile::tempdir().unwrap();
    let nurse = Nurse::start(folder.path(), &HandClock::new());
    let test_clock = words::say(&domain::say::Say::MarkTestClock, words::Language::English).unwrap();
    assert!(!nurse.view.marks.contains(&test_clock));
}

#[test]
fn the_language_for_tests_is_offered_to_nobody_who_has_not_got_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    nurse.ask(Command::Welcomed);
    nurse.ask(Command::Go(Screen::Settings));
    let choices = |nurse: &Nurse| -> Vec<String> {
        let Shape::Form(form) = &nurse.view.shape else { panic!("no form: {:?}", nurse.view.shape) };
        assert!(form.fields.iter().any(|field| field.id == "light"));
        let language = form.fields.iter().filter(|field| field.id == domain::LANGUAGE_FIELD);
        language.flat_map(|field| field.choices.iter().map(|choice| choice.value.clone())).collect()
    };
    assert_eq!(choices(&nurse), [""; 0]);
    nurse.ask(Command::SetLanguage(Language::Pseudo));
    assert_eq!(choices(&nurse), ["english", "pseudo"]);
    nurse.ask(Command::SetLanguage(Language::English));
    assert_eq!(choices(&nurse), [""; 0]);
}
