//! What leaves the tablet, what is erased on it, what takes its place.

#![allow(clippy::wildcard_enum_match_arm, reason = "the fold above sends only what belongs here")]

use crate::event::What;
use crate::handover::code::MadeCode;
use crate::leaving::{Left, Way, Writing, Written};
use crate::moment::Moment;
use crate::state::State;
use crate::state::screen::Screen;

pub fn happen(state: &mut State, what: &What, at: Moment) {
    match what {
        What::WritingAsked(writing) => {
            state.writing = Some(writing.clone());
            state.written = None;
        }
        What::Wrote { writing, written } => wrote(state, writing, written, at),
        What::TakenOut(Way::Backup) => backed_up(state, at),
        What::TakenOut(way) => {
            let checked =
                state.beds.iter_mut().filter(|bed| bed.wires.iter().any(|wire| !wire.records.is_empty()));
            checked.for_each(|bed| Left::note(&mut bed.left, *way, None, at));
        }
        What::BackupRead(restorable) => {
            state.restorable = Some(restorable.clone());
            state.not_restored = None;
        }
        What::RestoreAsked => state.restoring = true,
        What::Restored(done) => {
            (state.restoring, state.restorable) = (false, None);
            // The tablet of the backup was writing it: this one has it.
            state.writing = state.writing.take().filter(|_| done.is_err());
            state.not_restored = done.as_ref().err().copied();
        }
        What::EraseAsked(erasing) => {
            state.closed.retain(|closed| closed.patient != erasing.patient);
            // A code that nobody took in may be of anybody.
            state.loading = None;
            state.erasing = Some(erasing.clone());
        }
        What::Folded(folded) => {
            *state = (**folded).clone();
            state.last = Some(at);
        }
        What::Erased(erasure) => {
            state.erasing = None;
            state.erased.push(erasure.clone());
        }
        _ => {}
    }
}

fn wrote(state: &mut State, writing: &Writing, written: &Written, at: Moment) {
    state.writing = None;
    state.written = Some((writing.clone(), written.clone()));
    if matches!(written, Written::Not(_)) {
        return;
    }
    match writing {
        Writing::Files { bed, name, .. } => {
            let found = state.beds.iter_mut().filter(|found| found.id == *bed);
            found.for_each(|found| Left::note(&mut found.left, Way::Files, Some(name), at));
        }
        Writing::Backup { .. } => backed_up(state, at),
    }
}

/// A backup holds everybody, also those who have left.
fn backed_up(state: &mut State, at: Moment) {
    let note = |list: &mut Vec<Left>| Left::note(list, Way::Backup, None, at);
    state.beds.iter_mut().for_each(|bed| note(&mut bed.left));
    state.closed.iter_mut().for_each(|closed| note(&mut closed.left));
}

/// A backup that was read waits on its card alone, unless the yes has been said.
pub fn looked_away(state: &mut State, screen: Screen) {
    if screen != Screen::Restorable && !state.restoring {
        state.restorable = None;
    }
}

/// A code that is made is shown, in both its faces: any phone may have kept it.
pub fn code_shown(state: &mut State, bed: u32, code: &MadeCode, at: Moment) {
    let shown = code.lines.is_some() || code.copy.is_some();
    if let Some(found) = state.beds.iter_mut().find(|found| found.id == bed).filter(|_| shown) {
        Left::note(&mut found.left, Way::Code, None, at);
    }
}
