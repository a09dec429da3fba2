//! Taps are taken one at a time, in order; too many are refused, not lost in silence.

use std::sync::mpsc::channel;

use domain::command::Command;
use domain::event::What;
use domain::state::screen::Screen;
use session::NotTaken;

use crate::hand_clock::HandClock;
use crate::nurse::{Nurse, sent};
use crate::recording::events;

#[test]
fn a_page_that_floods_is_told_so() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let nurse = Nurse::start(folder.path(), &clock);
    let (hold, held) = channel::<()>();
    let (entered, inside) = channel();
    let mut first = Some(held);
    let stops_once = move |_| {
        if let Some(held) = first.take() {
            entered.send(()).unwrap();
            held.recv().unwrap_or_default();
        }
        true
    };
    nurse.session.watch(stops_once).unwrap();
    inside.recv().unwrap();
    let taken = (0..200).take_while(|_| nurse.session.send(sent(0, Command::Welcomed)).is_ok()).count();
    assert_eq!(taken, 64);
    assert_eq!(nurse.session.send(sent(0, Command::Welcomed)), Err(NotTaken::Busy));
    drop(hold);
    nurse.session.close();
}

#[test]
fn a_tap_twice_within_a_blink_is_one_event() {
    for between_ms in [0, 80, 200] {
        let folder = tempfile::tempdir().unwrap();
        let clock = HandClock::new();
        let mut nurse = Nurse::start(folder.path(), &clock);
        let card = nurse.view.card;
        clock.pass(400);
        nurse.session.send(sent(card, Command::Welcomed)).unwrap();
        clock.pass(between_ms);
        nurse.session.send(sent(card, Command::Welcomed)).unwrap();
        nurse.session.send(sent(card + 1, Command::Go(Screen::Settings))).unwrap();
        nurse.drain();
        nurse.session.close();
        let events = events(folder.path());
        let times = |what: What| events.iter().filter(|event| event.what == what).count();
        assert_eq!(times(What::Welcomed), 1, "{between_ms} ms");
        assert_eq!(
            times(What::Went(Screen::Settings)),
            0,
            "{between_ms} ms: the second half hit the next card"
        );
    }
}

#[test]
fn a_tap_on_an_older_card_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::start(folder.path(), &clock);
    let old = nurse.view.card;
    nurse.ask(Command::Welcomed);
    let before = events(folder.path()).len();
    clock.pass(1_000);
    nurse.session.send(sent(old, Command::Go(Screen::Settings))).unwrap();
    nurse.drain();
    assert_eq!(events(folder.path()).len(), before);
}

#[test]
fn a_file_of_a_kind_that_no_card_asks_for_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let nurse = Nurse::start(folder.path(), &HandClock::new());
    assert_eq!(nurse.session.hand_in("picture", &[1, 2, 3]), Err(NotTaken::NotAskedFor));
}
