//! Screens of what leaves the tablet and of what is erased on it. All of it invented.

use domain::State;
use domain::command::Command;
use domain::leaving::{Closed, Erasure, Left, NotRestorable, NotWritten, Restorable, Way, Writing, Written};
use domain::record::Record;
use domain::rules::Rules;
use domain::state::screen::Screen;
use uuid::Uuid;

use super::screens::{Named, named, refused, show};
use super::ward::ward;
use super::worlds::{LABEL, NAME, at, on, tablet};

const DAY_MS: i64 = 86_400_000;
const BACKUP_PLACE: &str = "/home/ward/.local/share/holdfast/Exports/backup-2026-11-24-2140-09c4.holdfast";
const PLACE: &str = "/home/ward/.local/share/holdfast/Exports/checks-2026-11-24-2140-09c4";

fn empty() -> State {
    tablet(Rules::example(), domain::profile::shipped().unwrap())
}

fn left() -> Vec<Left> {
    let one = |way, name: Option<&str>, times| Left {
        way,
        name: name.map(str::to_owned),
        first: at(-40 * DAY_MS),
        last: at(-35 * DAY_MS),
        times,
    };
    vec![
        one(Way::Code, None, 3),
        one(Way::Files, Some("checks-2026-10-20-0712-04aa"), 1),
        one(Way::Backup, None, 1),
    ]
}

/// One may go, one may not yet.
fn kept(records: &[Record]) -> State {
    let closed = |label: &str, days: i64| Closed {
        patient: Uuid::from_u128(u128::from(days.unsigned_abs())),
        label: label.to_owned(),
        at: at(-days * DAY_MS),
        left: left(),
    };
    State { closed: vec![closed(LABEL, 35), closed("Bay 4", 3)], ..ward(records) }
}

fn proven(records: &[Record]) -> State {
    let erasure = |number: u8| Erasure {
        patient: Uuid::from_bytes([number; 16]),
        closed: at(-45 * DAY_MS),
        by: NAME.to_owned(),
        after_days: 30,
        rules: "example".to_owned(),
        entries: 140,
        left: left(),
        at: at(-i64::from(number) * DAY_MS),
    };
    State { erased: (1..=4).rev().map(erasure).collect(), ..ward(records) }
}

fn writing(records: &[Record], written: Option<Written>) -> State {
    let files = Writing::Files { bed: 1, wire: 1, name: "checks-2026-11-24-2140-09c4".into() };
    match written {
        Some(written) => State { written: Some((files, written)), ..ward(records) },
        None => State { writing: Some(files), ..ward(records) },
    }
}

fn backing_up(records: &[Record], written: Option<Written>) -> State {
    let backup = Writing::Backup { name: "backup-2026-11-24-2140-09c4.holdfast".into() };
    match written {
        Some(written) => State { written: Some((backup, written)), ..ward(records) },
        None => State { writing: Some(backup), ..ward(records) },
    }
}

fn read(from_now_ms: i64) -> State {
    let restorable = Restorable {
        entries: 18_412,
        beds: 12,
        last_ms: at(from_now_ms).wall_ms,
        offset_min: 60,
        head: "0a".into(),
    };
    State { restorable: Some(restorable), ..empty() }
}

pub fn keeping(records: &[Record]) -> Named {
    let export = Screen::Export { bed: 1, wire: 1 };
    let done = |place: &str| Some(Written::At(place.to_owned()));
    let full = Some(Written::Not(NotWritten::DiskFull));
    let not_restored = State { not_restored: Some(NotRestorable::DoesNotHold), ..empty() };
    let asked = on(kept(records), Screen::EraseAsk { at: 0 });
    let broken = Command::ReadBackup(Err(NotRestorable::CutShort));
    let mut views = named([
        ("export", show(ward(records), export)),
        ("export-writing", show(writing(records, None), export)),
        ("export-done", show(writing(records, done(PLACE)), export)),
        ("export-full", show(writing(records, full.clone()), export)),
        ("backup", show(ward(records), Screen::Backup)),
        ("backup-writing", show(backing_up(records, None), Screen::Backup)),
        ("backup-done", show(backing_up(records, done(BACKUP_PLACE)), Screen::Backup)),
        ("backup-full", show(backing_up(records, full), Screen::Backup)),
    ]);
    views.extend(named([
        ("restore", show(empty(), Screen::Restore)),
        ("restore-cut-short", refused(on(empty(), Screen::Restore), &broken, &[])),
        ("restore-does-not-hold", show(not_restored, Screen::Restore)),
        ("restorable", show(read(-DAY_MS), Screen::Restorable)),
        ("restorable-ahead", show(read(DAY_MS), Screen::Restorable)),
        ("erase", show(kept(records), Screen::Erase)),
        ("erase-empty", show(empty(), Screen::Erase)),
        ("erase-ask", show(kept(records), Screen::EraseAsk { at: 0 })),
        ("erase-ask-nobody", refused(asked, &Command::Erase { at: 0 }, &[])),
        ("erase-ask-not-yet", show(kept(records), Screen::EraseAsk { at: 1 })),
        ("erased", show(proven(records), Screen::Erased)),
        ("erased-nothing", show(empty(), Screen::Erased)),
    ]));
    views
}
