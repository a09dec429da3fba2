//! A signed paper leaves as a file and is looked at on another tablet.

use std::path::{Path, PathBuf};

use domain::command::Command;
use domain::contract::Act;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::teaching::ask::Ask;
use domain::teaching::place::Place;

use super::at_the_tablet::{
    OTHER_PIN, PIN, english, enrol, fill, filled, go, sign_with, try_pin, with_an_educator,
};
use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;

/// The file of a supervised check that was signed, as the card names it.
fn saved(folder: &Path) -> PathBuf {
    let mut nurse = with_an_educator(folder, &HandClock::new());
    filled(&mut nurse, folder);
    sign_with(&mut nurse, PIN);
    fill(&nurse, Ask::Save { at: 0 }, &[]);
    nurse.wait("the path", |view| serde_json::to_string(view).unwrap().contains("Saved as"));
    let file = PathBuf::from(folded(folder).teaching.entries[0].file.clone().unwrap());
    assert!(serde_json::to_string(&nurse.view).unwrap().contains(&*file.to_string_lossy()));
    file
}

fn other_tablet(folder: &Path) -> Nurse {
    let mut nurse = Nurse::start(folder, &HandClock::at(50_000_000));
    nurse.ask(Command::Welcomed);
    nurse
}

fn hand_in(nurse: &mut Nurse, bytes: &[u8]) -> String {
    go(nurse, Place::NewFile);
    nurse.hand_in("signed-file", bytes);
    serde_json::to_string(&nurse.view).unwrap()
}

fn offers(nurse: &Nurse, key: &str) -> bool {
    nurse.view.answers.iter().any(|act: &Act<String>| act.key == key)
}

#[test]
fn a_file_is_whole_under_its_name_and_nothing_else_is_left() {
    let folder = tempfile::tempdir().unwrap();
    let file = saved(folder.path());
    assert!(file.starts_with(folder.path().canonicalize().unwrap().join("Exports")));
    let left: Vec<_> = std::fs::read_dir(file.parent().unwrap()).unwrap().collect();
    assert_eq!(left.len(), 1, "{left:?}");
}

#[test]
fn another_tablet_says_unchanged_and_that_it_does_not_know_the_educator_until_one_of_its_own_vouches() {
    let (folder, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let bytes = std::fs::read(saved(folder.path())).unwrap();
    let mut nurse = other_tablet(other.path());
    let shown = hand_in(&mut nurse, &bytes);
    assert!(shown.contains(&english(&Say::SignedFileUnchanged)), "{shown}");
    assert!(shown.contains("is not known on this tablet"), "{shown}");
    assert!(!offers(&nurse, "keep") && !offers(&nurse, "vouch"), "nobody here can vouch");

    enrol(&mut nurse, "G. Example (invented)", OTHER_PIN);
    hand_in(&mut nurse, &bytes);
    assert!(offers(&nurse, "vouch"));
    go(&mut nurse, Place::FileVouch);
    try_pin(&mut nurse, Ask::FileVouch, &[("educator", "0"), ("pin", OTHER_PIN)]);
    let shown = serde_json::to_string(&nurse.view).unwrap();
    assert!(shown.contains("vouched for by G. Example (invented)"), "{shown}");
    assert!(offers(&nurse, "keep"), "{shown}");
    nurse.ask(Command::Teach(Ask::KeepRead));
    let state = folded(other.path());
    assert!(state.teaching.entries.last().unwrap().elsewhere);
    assert!(!state.teaching.educators[1].can_sign(), "signs on the other tablet only");
    hand_in(&mut nurse, &bytes);
    nurse.send(Command::Teach(Ask::KeepRead));
    let said = english(&Say::SignedHereAlready);
    nurse.wait("that it is here already", |view| view.notice.as_ref() == Some(&said));
}

/// A record may come from elsewhere: its fingerprint may name any place, and its paper be none.
#[test]
fn an_entry_that_is_no_signed_paper_is_not_written_as_one() {
    let source = tempfile::tempdir().unwrap();
    saved(source.path());
    let kept = folded(source.path()).teaching.entries[0].clone();
    let bodies: Vec<String> = crate::recording::events(source.path())
        .iter()
        .map(|event| serde_json::to_string(event).unwrap())
        .filter(|body| !body.contains("Exports"))
        .collect();
    for (whole, broken) in [
        (&kept.token, "no hexadecimal digits"),
        (&kept.token, ""),
        (&kept.hash, "../../x"),
        (&kept.hash, "é"),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let altered =
            bodies.iter().map(|body| body.replace(&format!("\"{whole}\""), &format!("\"{broken}\"")));
        let altered: Vec<_> = altered.map(String::into_bytes).collect();
        journal::Journal::open(folder.path()).unwrap().0.append(&altered).unwrap();
        let mut nurse = Nurse::start(folder.path(), &HandClock::at(90_000_000));
        go(&mut nurse, Place::Entry { at: 0 });
        fill(&nurse, Ask::Save { at: 0 }, &[]);
        let said = english(&Say::FileEntryDamaged);
        nurse.wait(&said, |view| serde_json::to_string(view).unwrap().contains(&said));
        assert!(!folder.path().join("Exports").exists(), "{broken}");
    }
}

#[test]
fn what_is_wrong_with_a_file_is_said_and_changes_nothing() {
    let (folder, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let bytes = std::fs::read(saved(folder.path())).unwrap();
    let mut nurse = other_tablet(other.path());
    let mut altered = bytes.clone();
    let middle = altered.len() / 2;
    altered[middle] ^= 1;
    for (bytes, said) in [
        (&altered[..], Say::SignedFileAltered),
        (&bytes[..bytes.len() - 1], Say::SignedFileNotOurs),
        (&[0; 20_000][..], Say::SignedFileTooLong),
        (b"any text", Say::SignedFileNotOurs),
    ] {
        hand_in(&mut nurse, bytes);
        assert_eq!(nurse.view.notice, Some(english(&said)));
        nurse.ask(Command::Go(Screen::Settings));
    }
    let state = folded(other.path());
    assert!(state.teaching.read.is_none() && state.teaching.entries.is_empty());
}

#[test]
fn a_file_that_nobody_asked_for_is_not_taken() {
    let (folder, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let bytes = std::fs::read(saved(folder.path())).unwrap();
    let nurse = other_tablet(other.path());
    nurse.session.hand_in("signed-file", &bytes).unwrap();
    nurse.session.close();
    assert!(folded(other.path()).teaching.read.is_none());
}

#[test]
fn a_place_that_takes_no_file_is_said_on_the_entry() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_an_educator(folder.path(), &HandClock::new());
    filled(&mut nurse, folder.path());
    sign_with(&mut nurse, PIN);
    std::fs::write(folder.path().join("Exports"), "in the way").unwrap();
    fill(&nurse, Ask::Save { at: 0 }, &[]);
    nurse.wait("the fault", |view| serde_json::to_string(view).unwrap().contains("Not saved: "));
    std::fs::remove_file(folder.path().join("Exports")).unwrap();
    fill(&nurse, Ask::Save { at: 0 }, &[]);
    nurse.wait("the path", |view| serde_json::to_string(view).unwrap().contains("Saved as"));
}
