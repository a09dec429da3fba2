//! The disk fills up while a check is open: the nurse is led back first, and told.

#![cfg(target_os = "linux")]

use std::fs;
use std::path::Path;
use std::process::Command as Program;

use domain::command::Command;
use domain::contract::Shape;
use domain::say::Say;
use domain::state::screen::Screen;
use session::{Options, Session};
use words::Language;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;
use crate::recording::events;
use crate::tools::is_there;

/// A small file system of its own, which only root can make.
pub struct Disk(tempfile::TempDir);

impl Disk {
    pub fn small() -> Option<Disk> {
        let folder = tempfile::tempdir().unwrap();
        let mount = ["-t", "tmpfs", "-o", "size=12m", "tmpfs"];
        let made = Program::new("mount").args(mount).arg(folder.path()).output();
        let made = made.is_ok_and(|output| output.status.success());
        let not_tried = "a full disk needs a file system of its own, and mounting one was refused";
        is_there(made, "mount", not_tried).then_some(Disk(folder))
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn fill(&self) {
        let written = fs::write(self.path().join("ballast"), vec![1; 64 * 1024 * 1024]);
        assert_eq!(written.unwrap_err().kind(), std::io::ErrorKind::StorageFull);
    }
}

impl Drop for Disk {
    fn drop(&mut self) {
        assert!(Program::new("umount").arg("-l").arg(self.path()).status().unwrap().success());
    }
}

fn english(say: &Say) -> Option<String> {
    Some(words::say(say, Language::English).unwrap())
}

#[test]
fn on_a_full_disk_a_check_goes_on_with_a_notice_and_then_stops_with_another() {
    let Some(disk) = Disk::small() else { return };
    let data = disk.path().join("data");
    let mut nurse = Nurse::in_a_check(&data, &HandClock::new());
    nurse.reach_the_first_dial();
    disk.fill();
    let (short, full) = (english(&Say::RecordRoomShort), english(&Say::RecordDiskFull));
    let stop = nurse.view.safety.as_ref().unwrap().stop.clone();
    nurse.tap(&stop);
    let mut taps = 1;
    while nurse.view.notice != full {
        let card = nurse.view.card;
        nurse.send(Command::Go(if taps % 2 == 0 { Screen::Beds } else { Screen::Settings }));
        nurse.wait("a card or a notice", |view| view.card != card || view.notice == full);
        let known = nurse.view.notice.is_none() || nurse.view.notice == short || nurse.view.notice == full;
        assert!(known, "{:?}", nurse.view.notice);
        taps += 1;
    }
    println!("{taps} taps were taken on a full disk");
    assert!(taps > 100, "only {taps} taps: too few to end a check");
    let card = nurse.view.card;
    fs::remove_file(disk.path().join("ballast")).unwrap();
    nurse.send(Command::Go(Screen::Rules));
    nurse.wait("the card after room was made", |view| view.card > card);
    assert_eq!(nurse.view.notice, short, "the room put by is filled again at the next start");
    nurse.session.close();
    let shown = events(&data).iter().fold(domain::State::default(), domain::apply);
    assert_eq!(shown.card, nurse.view.card);
}

/// Room for the log's index, which is made anew, and not for an entry; nothing is put by.
fn use_up(disk: &Disk, data: &Path) {
    fs::remove_file(data.join("reserve")).unwrap();
    disk.fill();
    let ballast = fs::OpenOptions::new().write(true).open(disk.path().join("ballast")).unwrap();
    ballast.set_len(ballast.metadata().unwrap().len() - 36 * 1024).unwrap();
}

/// The old dial card may be hours old: with an open check there is no start without its record.
#[test]
fn a_start_in_mid_check_that_cannot_be_recorded_shows_no_old_card() {
    let Some(disk) = Disk::small() else { return };
    let data = disk.path().join("data");
    let clock = HandClock::new();
    let mut nurse = Nurse::in_a_check(&data, &clock);
    nurse.reach_the_first_dial();
    nurse.session.close();
    use_up(&disk, &data);
    clock.pass(20 * 60_000);
    let refused = Session::open(&data, Options::by(Box::new(clock.clone()))).err().expect("it started");
    assert_eq!(refused.say(&data), Say::RecordDiskFull);

    fs::remove_file(disk.path().join("ballast")).unwrap();
    let nurse = Nurse::start(&data, &clock);
    assert!(!matches!(nurse.view.shape, Shape::Turn(_)), "{:#?}", nurse.view);
}

/// Without an open check the beds are shown; what was not recorded is said until something is.
#[test]
fn a_start_that_is_not_recorded_is_said_until_something_is() {
    let Some(disk) = Disk::small() else { return };
    let data = disk.path().join("data");
    let clock = HandClock::new();
    let mut nurse = Nurse::start(&data, &clock);
    nurse.ask(Command::Welcomed);
    nurse.session.close();
    use_up(&disk, &data);
    let (full, short) = (english(&Say::RecordDiskFull), english(&Say::RecordRoomShort));
    let mut nurse = Nurse::start(&data, &clock);
    nurse.drain();
    assert_eq!(nurse.view.notice, full);
    nurse.session.screen_may_sleep(false).unwrap();
    nurse.drain();
    assert_eq!(nurse.view.notice, full);

    fs::remove_file(disk.path().join("ballast")).unwrap();
    nurse.ask(Command::Go(Screen::Rules));
    assert!(nurse.view.notice.is_none() || nurse.view.notice == short, "{:?}", nurse.view.notice);
}
