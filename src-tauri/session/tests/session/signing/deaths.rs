//! kill -9 between PIN and signature. The child is this same program, as in `crash`.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command as Program, Stdio};

use domain::say::Say;
use domain::teaching::ask::Ask;
use domain::teaching::paper::Says;
use domain::teaching::place::Place;
use session::{Options, Session};

use super::at_the_tablet::{PIN, english, enrol, fill, filled, go, sign_with};
use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;
use crate::wards::with_dials_owed;

const FOLDER: &str = "HOLDFAST_TEST_SIGNING_FOLDER";
const LATER_MS: i64 = 9_000_000;

/// Not a test by itself: it does nothing unless the test below started it.
#[test]
fn child() {
    let Ok(folder) = std::env::var(FOLDER) else { return };
    let folder = PathBuf::from(folder);
    let nurse = Nurse::start(&folder, &HandClock::at(LATER_MS));
    fill(&nurse, Ask::Sign, &[("educator", "0"), ("pin", PIN)]);
    while folded(&folder).teaching.wanted.is_none() && folded(&folder).teaching.entries.is_empty() {
        std::thread::yield_now();
    }
    println!("tried");
    loop {
        std::thread::park();
    }
}

fn at_the_pin(folder: &Path) -> Child {
    Program::new(std::env::current_exe().unwrap())
        .args(["--exact", "signing::deaths::child", "--nocapture", "--test-threads", "1"])
        .env(FOLDER, folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

fn killed_at_the_pin(folder: &Path) {
    let mut child = at_the_pin(folder);
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    assert!(lines.any(|line| line.unwrap().contains("tried")), "it ended by itself");
    child.kill().unwrap();
    child.wait().unwrap();
}

/// Whichever instant it falls on: the form is whole and unsigned, or it is signed and whole.
#[test]
fn killed_between_pin_and_signature_nothing_is_lost() {
    let mut unsigned = 0;
    for _ in 0..6 {
        let folder = tempfile::tempdir().unwrap();
        let mut nurse = with_an_educator_behind_much_effort(folder.path());
        filled(&mut nurse, folder.path());
        let draft = folded(folder.path()).teaching.draft.unwrap();
        nurse.session.close();
        killed_at_the_pin(folder.path());
        unsigned += u32::from(expect_whole(folder.path(), &draft));
    }
    println!("6 kills, {unsigned} of them before the signature");
    assert!(unsigned > 0, "none fell between PIN and signature");
}

/// The shipped effort: so that the work takes long enough to die in.
fn with_an_educator_behind_much_effort(folder: &Path) -> Nurse {
    let clock = HandClock::new();
    with_dials_owed(folder, &clock).session.close();
    let session = Session::open(folder, Options::by(Box::new(clock.clone()))).unwrap();
    let mut nurse = Nurse::on(session, &clock);
    enrol(&mut nurse, "E. Example (invented)", PIN);
    nurse
}

fn expect_whole(folder: &Path, draft: &domain::teaching::draft::Draft) -> bool {
    let mut nurse = Nurse::start(folder, &HandClock::at(2 * LATER_MS));
    let state = folded(folder);
    if let [kept] = &state.teaching.entries[..] {
        assert_eq!(kept.paper.says, Says::SignedOff(draft.sign_off()));
        return false;
    }
    assert_eq!(state.teaching.draft.as_ref(), Some(draft));
    assert_eq!(state.teaching.wanted, None);
    assert_eq!(state.teaching.educators[0].tries.count, 1, "a try counts from before it is made");
    assert_eq!(nurse.view.notice, Some(english(&Say::PinCutOff)));
    go(&mut nurse, Place::SignPin);
    sign_with(&mut nurse, PIN);
    assert_eq!(folded(folder).teaching.entries.len(), 1);
    true
}
