//! Files that leave: whole under their name, or not at all; and the record says what left.

use std::fs;
use std::path::{Path, PathBuf};

use domain::command::Command;
use domain::leaving::{NotWritten, Way, Written};
use domain::say::Say;
use domain::state::screen::Screen;
use words::Language;

use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;
use crate::wards::with_dials_owed;

pub fn english(say: &Say) -> String {
    words::say(say, Language::English).unwrap()
}

/// Waits until nothing is being written any more, and says how it ended.
pub fn written(nurse: &mut Nurse, folder: &Path) -> Written {
    for _ in 0..400 {
        if let (None, Some((_, written))) = {
            let state = folded(folder);
            (state.writing, state.written)
        } {
            return written;
        }
        nurse.glance(20);
    }
    panic!("still being written: {:?}", folded(folder).writing)
}

pub fn place(written: &Written) -> PathBuf {
    let Written::At(place) = written else { panic!("{written:?}") };
    PathBuf::from(place)
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).map(Iterator::collect::<Vec<_>>).unwrap_or_default();
    let mut names: Vec<_> =
        entries.into_iter().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn a_wire_is_exported_into_files_whose_place_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &HandClock::new());
    nurse.ask(Command::Go(Screen::Export { bed: 1, wire: 1 }));
    nurse.ask(Command::Export { bed: 1, wire: 1 });
    let place = place(&written(&mut nurse, folder.path()));
    assert_eq!(place.parent(), Some(folder.path().join("Exports").as_path()));
    assert_eq!(names(&place), ["between.csv", "bundle.json", "checks.csv", "newest.pdf"]);
    assert!(fs::read(place.join("newest.pdf")).unwrap().starts_with(b"%PDF"));
    let csv = fs::read_to_string(place.join("checks.csv")).unwrap();
    assert_eq!(csv.lines().count(), 2, "{csv}");
    let said = place.display().to_string().replace('/', "/\u{200b}");
    nurse.wait("the place", |view| serde_json::to_string(view).unwrap().contains(&said));
    let left = folded(folder.path()).bed(1).unwrap().left.clone();
    assert!(left.iter().any(|left| left.way == Way::Files && left.times == 1), "{left:?}");
}

#[test]
fn a_wire_without_a_check_exports_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    for command in
        [Command::Welcomed, Command::Go(Screen::NewBed), Command::AddBed, Command::AddWire { bed: 1 }]
    {
        nurse.ask(command);
    }
    nurse.send(Command::Export { bed: 1, wire: 1 });
    nurse.wait("a sentence", |view| view.notice == Some(english(&Say::ExportNothing)));
    assert_eq!(folded(folder.path()).writing, None);
}

/// Killed between the asking and the end: it is written at the next start, once, under the same name.
#[test]
fn what_was_asked_for_before_a_death_is_written_after_it() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = with_dials_owed(folder.path(), &clock);
    nurse.ask(Command::Go(Screen::Backup));
    nurse.ask(Command::BackUp);
    let first = place(&written(&mut nurse, folder.path()));
    nurse.session.close();
    // The record as it was before the end was written down, with what a dead worker leaves.
    let events = crate::recording::events(folder.path());
    let until =
        events.iter().position(|event| matches!(event.what, domain::event::What::Wrote { .. })).unwrap();
    let again = tempfile::tempdir().unwrap();
    let bodies: Vec<_> = events[..until].iter().map(|event| serde_json::to_vec(event).unwrap()).collect();
    journal::Journal::open(again.path()).unwrap().0.append(&bodies).unwrap();
    let exports = again.path().join("Exports");
    fs::create_dir(&exports).unwrap();
    let name = first.file_name().unwrap().to_string_lossy().into_owned();
    fs::write(exports.join(format!(".{name}")), "half").unwrap();
    let mut nurse = Nurse::start(again.path(), &clock);
    let second = place(&written(&mut nurse, again.path()));
    assert_eq!(second.file_name(), first.file_name());
    assert_eq!(names(&exports), [name]);
}

/// Where the folder should be stands a file: the person who runs these tests may write anywhere else.
#[test]
fn a_folder_that_takes_no_files_is_said_and_nothing_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &HandClock::new());
    fs::write(folder.path().join("Exports"), "in the way").unwrap();
    nurse.ask(Command::Go(Screen::Export { bed: 1, wire: 1 }));
    nurse.ask(Command::Export { bed: 1, wire: 1 });
    assert_eq!(written(&mut nurse, folder.path()), Written::Not(NotWritten::Refused));
    let refused = english(&Say::NotWrittenRefused);
    nurse.wait("takes no files", |view| serde_json::to_string(view).unwrap().contains(&refused));
    nurse.ask(Command::Go(Screen::Backup));
    nurse.ask(Command::BackUp);
    assert_eq!(written(&mut nurse, folder.path()), Written::Not(NotWritten::Refused));
    assert_eq!(fs::read_to_string(folder.path().join("Exports")).unwrap(), "in the way");
    fs::remove_file(folder.path().join("Exports")).unwrap();
    nurse.ask(Command::BackUp);
    let again = place(&written(&mut nurse, folder.path()));
    assert!(again.is_file(), "a second try needs nothing but the folder");
}

#[test]
fn on_a_full_disk_nothing_is_written_and_it_is_said() {
    let Some(disk) = crate::room::Disk::small() else { return };
    let data = disk.path().join("data");
    let mut nurse = with_dials_owed(&data, &HandClock::new());
    disk.fill();
    nurse.ask(Command::Go(Screen::Export { bed: 1, wire: 1 }));
    nurse.ask(Command::Export { bed: 1, wire: 1 });
    assert_eq!(written(&mut nurse, &data), Written::Not(NotWritten::DiskFull));
    assert_eq!(names(&data.join("Exports")), [""; 0]);
    nurse.ask(Command::Go(Screen::Backup));
    nurse.ask(Command::BackUp);
    assert_eq!(written(&mut nurse, &data), Written::Not(NotWritten::DiskFull));
    assert_eq!(names(&data.join("Exports")), [""; 0]);
    let full = english(&Say::NotWrittenFull);
    nurse.wait("no room", |view| serde_json::to_string(view).unwrap().contains(&full));
}
