//! What is shown is recorded; what cannot be recorded is not done, and the card says so.

use std::path::Path;

use domain::command::Command;
use domain::contract::Light;
use domain::event::{Event, What};
use domain::say::Say;
use domain::state::screen::Screen;
use journal::Unreadable;
use words::Language;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;

pub fn events(folder: &Path) -> Vec<Event> {
    let mut events = Vec::new();
    let verified = journal::verify(folder, |record| {
        events.push(serde_json::from_slice(record.body).map_err(|_| Unreadable)?);
        Ok(())
    });
    let verified = verified.unwrap();
    assert_eq!((verified.head.seq - verified.erased) as usize, events.len());
    events
}

fn english(say: &Say) -> String {
    words::say(say, Language::English).unwrap()
}

#[test]
fn a_view_never_comes_before_its_record() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::start(folder.path(), &clock);
    nurse.ask(Command::Welcomed);
    for label in 0..3 {
        let before = events(folder.path()).len();
        nurse.ask(Command::Go(if label % 2 == 0 { Screen::Settings } else { Screen::Beds }));
        assert!(events(folder.path()).len() > before, "the card is there, its record is not");
    }
}

#[test]
fn what_was_done_is_there_after_a_new_start() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::start(folder.path(), &clock);
    nurse.ask(Command::Welcomed);
    nurse.ask(Command::Go(Screen::Settings));
    nurse.ask(Command::SetLight(Light::Day));
    let shown = nurse.view.clone();
    nurse.session.close();
    let nurse = Nurse::start(folder.path(), &clock);
    assert_eq!(nurse.view.look.light, Light::Day);
    assert_eq!(nurse.view.shape, shown.shape);
}

/// With the snapshot taken at the end, and from the record alone.
#[test]
fn a_start_from_the_snapshot_shows_what_a_start_from_the_record_shows() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    Nurse::in_a_check(folder.path(), &clock).session.close();
    let again = tempfile::tempdir().unwrap();
    std::fs::copy(folder.path().join("journal.sqlite3"), again.path().join("journal.sqlite3")).unwrap();
    let tables = rusqlite::Connection::open(again.path().join("journal.sqlite3")).unwrap();
    assert_eq!(tables.execute("DELETE FROM snapshot", []).unwrap(), 1);
    drop(tables);
    let (from_snapshot, from_record) =
        (Nurse::start(folder.path(), &clock), Nurse::start(again.path(), &clock));
    assert_eq!(from_snapshot.view, from_record.view);
}

#[test]
fn a_record_that_is_held_is_said_and_the_next_tap_goes_through() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::start(folder.path(), &clock);
    nurse.ask(Command::Welcomed);
    let other = rusqlite::Connection::open(folder.path().join("journal.sqlite3")).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    let card = nurse.view.card;
    nurse.send(Command::Go(Screen::Settings));
    let held = english(&Say::RecordHeld);
    nurse.wait("the notice", |view| view.notice.as_ref() == Some(&held));
    assert_eq!(nurse.view.card, card, "nothing was done");
    other.execute_batch("COMMIT").unwrap();
    nurse.ask(Command::Go(Screen::Settings));
    assert_eq!(nurse.view.notice, None);
}

#[test]
fn a_refusal_stands_on_its_card_and_goes_with_the_next() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(folder.path(), &clock);
    nurse.ask(Command::Go(Screen::Beds));
    nurse.ask(Command::Go(Screen::NewBed));
    nurse.send(Command::AddBed);
    let exists = english(&Say::BedExists { label: "Bay 3 (invented)".into() });
    nurse.wait("the refusal", |view| view.notice.as_ref() == Some(&exists));
    clock.pass(40_000);
    nurse.drain();
    assert_eq!(nurse.view.notice, Some(exists), "a push by time alone leaves it");
    nurse.ask(Command::Go(Screen::Beds));
    assert_eq!(nurse.view.notice, None);
}

#[test]
fn a_break_far_back_is_found_behind_the_snapshot_and_shown() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    Nurse::in_a_check(folder.path(), &clock).session.close();
    let tables = rusqlite::Connection::open(folder.path().join("journal.sqlite3")).unwrap();
    let trigger: String = tables
        .query_row("SELECT sql FROM sqlite_schema WHERE name = 'content_is_never_updated'", [], |row| {
            row.get(0)
        })
        .unwrap();
    tables.execute("DROP TRIGGER content_is_never_updated", []).unwrap();
    tables.execute("UPDATE content SET body = x'6500' WHERE seq = 2", []).unwrap();
    tables.execute(&trigger, []).unwrap();
    drop(tables);
    let mut nurse = Nurse::start(folder.path(), &clock);
    let broken = english(&Say::RecordBroken { folder: Box::new(Say::TheDataFolder), entry: "2".into() });
    nurse.wait("the break", |view| view.notice.as_ref() == Some(&broken));
}

#[test]
fn an_entry_nobody_can_read_fails_the_whole_verification() {
    let folder = tempfile::tempdir().unwrap();
    Nurse::start(folder.path(), &HandClock::new()).session.close();
    assert!(session::verify(folder.path()).is_ok());
    let (mut journal, _) = journal::Journal::open(folder.path()).unwrap();
    let head = journal.append(&[b"{}".to_vec()]).unwrap();
    drop(journal);
    let broken = journal::Fault::Broken(journal::Break::Unreadable { seq: head.seq });
    assert_eq!(session::verify(folder.path()), Err(broken));
}

#[test]
fn the_event_of_an_act_carries_the_instant_it_was_taken() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = Nurse::start(folder.path(), &clock);
    clock.pass(1_000);
    nurse.ask(Command::Welcomed);
    let events = events(folder.path());
    let welcomed = events.iter().find(|event| event.what == What::Welcomed).unwrap();
    assert_eq!(welcomed.at.boot_ms, 3_600_000 + 1_000 + 400);
    assert_ne!(welcomed.at.fresh, [0; 16]);
}
