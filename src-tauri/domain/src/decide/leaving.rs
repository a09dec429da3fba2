//! What leaves as files, what comes back from a backup, what is erased by the unit's rule.

use std::collections::BTreeMap;

use super::check::NAME_MOST;
use super::typed;
use crate::event::What;
use crate::leaving::{Closed, Erasing, NotRestorable, Restorable, Writing, Written};
use crate::moment::{Moment, clock_text, date_text};
use crate::refusal::Refusal;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::view::not_restored;

const DAY_MS: i64 = 24 * 60 * 60 * 1000;

/// Checks on a patient only: practice leaves the tablet by another way.
pub fn export(state: &State, bed: u32, wire: u32, now: Moment) -> Result<Vec<What>, Refusal> {
    let found = state.wire(bed, wire).ok_or(Refusal::NotOpen)?;
    if found.records.iter().all(|record| record.practice) {
        return Err(Refusal::said(Say::ExportNothing));
    }
    let name = format!("checks-{}", stamp(now));
    ask(state, Writing::Files { bed, wire, name }, Screen::Export { bed, wire })
}

pub fn back_up(state: &State, now: Moment) -> Result<Vec<What>, Refusal> {
    ask(state, Writing::Backup { name: format!("backup-{}.holdfast", stamp(now)) }, Screen::Backup)
}

fn ask(state: &State, writing: Writing, screen: Screen) -> Result<Vec<What>, Refusal> {
    match state.writing {
        Some(_) => Err(Refusal::said(Say::WritingStill)),
        None if state.erasing.is_some() => Err(Refusal::said(Say::ErasingStill)),
        None => Ok(vec![What::WritingAsked(writing), What::Went(screen)]),
    }
}

/// Names of files say when, never of whom; four random digits keep two of one minute apart.
fn stamp(now: Moment) -> String {
    let date = date_text(now.wall_ms, now.offset_min);
    let time = clock_text(now.wall_ms, now.offset_min).replace(':', "");
    format!("{date}-{time}-{:02x}{:02x}", now.fresh[0], now.fresh[1])
}

pub fn wrote(state: &State, name: &str, written: &Written) -> Result<Vec<What>, Refusal> {
    let writing = state.writing.clone().filter(|writing| writing.name() == name).ok_or(Refusal::NotOpen)?;
    Ok(vec![What::Wrote { writing, written: written.clone() }])
}

/// Only a tablet that holds nothing takes a backup, and only on the card that asks for one.
pub fn read_backup(state: &State, read: &Result<Restorable, NotRestorable>) -> Result<Vec<What>, Refusal> {
    if state.screen != Screen::Restore || !state.is_untouched() {
        return Err(Refusal::NotOpen);
    }
    let read = read.clone().map_err(|why| Refusal::said(not_restored(why)))?;
    Ok(vec![What::BackupRead(read), What::Went(Screen::Restorable)])
}

pub fn restore(state: &State) -> Result<Vec<What>, Refusal> {
    let open = state.screen == Screen::Restorable && state.restorable.is_some() && state.is_untouched();
    if open { Ok(vec![What::RestoreAsked]) } else { Err(Refusal::NotOpen) }
}

/// In the new record, or in the old one that stayed.
pub fn restored(done: &Result<Restorable, NotRestorable>) -> Vec<What> {
    let screen = if done.is_ok() { Screen::Beds } else { Screen::Restore };
    vec![What::Restored(done.clone()), What::Went(screen)]
}

/// When the unit's rule lets go of what is kept of this patient, wall clock in ms; `None` where it names no time.
pub fn erasable_ms(state: &State, closed: &Closed) -> Option<i64> {
    let days = i64::from(state.rules.erase_after_days);
    (days > 0).then(|| closed.at.wall_ms.saturating_add(days * DAY_MS))
}

/// By name; not in front of a check, since the record stands still meanwhile.
pub fn erase(
    state: &State,
    at: u32,
    values: &BTreeMap<String, String>,
    now: Moment,
) -> Result<Vec<What>, Refusal> {
    let closed = state.closed.get(at as usize).filter(|_| state.screen == Screen::EraseAsk { at });
    let closed = closed.ok_or(Refusal::NotOpen)?;
    if erasable_ms(state, closed).is_none_or(|from| now.wall_ms < from) || state.erasing.is_some() {
        return Err(Refusal::NotOpen);
    }
    if state.writing.is_some() {
        return Err(Refusal::said(Say::WritingStill));
    }
    if state.open_checks().next().is_some() {
        return Err(Refusal::said(Say::EndCheckFirst));
    }
    if state.open_swaps().next().is_some() {
        return Err(Refusal::said(Say::EndSwapFirst));
    }
    let erasing = Erasing {
        patient: closed.patient,
        closed: closed.at,
        left: closed.left.clone(),
        by: typed::line(values, "name", Say::EraserField, NAME_MOST)?,
        after_days: state.rules.erase_after_days,
        rules: state.rules_hash().to_owned(),
    };
    Ok(vec![What::EraseAsked(erasing), What::Went(Screen::Erase)])
}
