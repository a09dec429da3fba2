//! Wrong PINs make everybody wait, longer each time, over a new start and whatever the wall clock says.

use domain::say::Say;
use domain::teaching::pin::Tries;
use domain::teaching::place::Place;

use super::at_the_tablet::{PIN, WRONG_PIN, english, filled, go, sign_with, with_an_educator};
use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;

const HOUR_MS: i64 = 3_600_000;

/// After the third wrong PIN half a minute (M).
fn shut_out(folder: &std::path::Path, clock: &HandClock) -> Nurse {
    let mut nurse = with_an_educator(folder, clock);
    filled(&mut nurse, folder);
    for _ in 0..3 {
        sign_with(&mut nurse, WRONG_PIN);
    }
    nurse
}

fn is_shut_out(nurse: &mut Nurse) -> bool {
    let card = nurse.view.card;
    super::at_the_tablet::fill(nurse, domain::teaching::ask::Ask::Sign, &[("educator", "0"), ("pin", PIN)]);
    nurse.drain();
    nurse.view.card == card
}

#[test]
fn three_wrong_pins_make_everybody_wait_and_the_wait_passes() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = shut_out(folder.path(), &clock);
    assert!(is_shut_out(&mut nurse));
    let said = nurse.view.notice.clone().unwrap_or_default();
    assert!(said.starts_with("Try again in ") && said.ends_with("seconds."), "{said}");
    clock.pass(31_000);
    sign_with(&mut nurse, PIN);
    assert_eq!(folded(folder.path()).teaching.entries.len(), 1, "{:?}", nurse.view.notice);
}

#[test]
fn the_wall_clock_shortens_no_wait() {
    for by_ms in [-48 * HOUR_MS, 48 * HOUR_MS] {
        let folder = tempfile::tempdir().unwrap();
        let clock = HandClock::new();
        let mut nurse = shut_out(folder.path(), &clock);
        clock.set_wall(by_ms);
        assert!(is_shut_out(&mut nurse), "{by_ms}");
        nurse.session.close();
        let mut again = Nurse::start(folder.path(), &clock);
        assert!(is_shut_out(&mut again), "{by_ms}, started again");
    }
}

#[test]
fn a_new_boot_counts_from_its_own_beginning_at_most() {
    for by_ms in [-48 * HOUR_MS, 0, 48 * HOUR_MS] {
        let folder = tempfile::tempdir().unwrap();
        let clock = HandClock::new();
        shut_out(folder.path(), &clock).session.close();
        clock.set_wall(by_ms);
        clock.reboot();
        let mut nurse = Nurse::start(folder.path(), &clock);
        assert!(is_shut_out(&mut nurse), "{by_ms}");
        assert_eq!(folded(folder.path()).teaching.educators[0].tries.count, 3);
        clock.pass(31_000);
        clock.set_wall(-by_ms);
        sign_with(&mut nurse, PIN);
        assert_eq!(folded(folder.path()).teaching.entries.len(), 1, "{by_ms}: {:?}", nurse.view.notice);
    }
}

/// Half a minute, doubled with each further try, an hour at most (M).
#[test]
fn waits_grow_to_an_hour() {
    let clock = HandClock::new();
    let folder = tempfile::tempdir().unwrap();
    let nurse = Nurse::start(folder.path(), &clock);
    let now = folded(folder.path()).last.unwrap();
    nurse.session.close();
    let mut tries = Tries::default();
    let waits: Vec<i64> = (0..14)
        .map(|_| {
            tries = tries.after_one_more(now);
            tries.left_ms(now) / 1_000
        })
        .collect();
    assert_eq!(waits, [0, 0, 30, 60, 120, 240, 480, 960, 1_920, 3_600, 3_600, 3_600, 3_600, 3_600]);
}

#[test]
fn nobody_signs_on_a_clock_that_stands_before_their_enrolment() {
    let folder = tempfile::tempdir().unwrap();
    let clock = HandClock::new();
    let mut nurse = with_an_educator(folder.path(), &clock);
    filled(&mut nurse, folder.path());
    clock.set_wall(-48 * HOUR_MS);
    assert!(is_shut_out(&mut nurse));
    let enrolled = folded(folder.path()).teaching.educators[0].enrolled;
    let date = domain::moment::date_text(enrolled.wall_ms, enrolled.offset_min);
    assert_eq!(nurse.view.notice, Some(english(&Say::ClockBeforeEnrolment { date })));
    clock.set_wall(48 * HOUR_MS);
    go(&mut nurse, Place::SignPin);
    sign_with(&mut nurse, PIN);
    assert_eq!(folded(folder.path()).teaching.entries.len(), 1);
}
