//! Practice begins, goes on, ends, is judged.

#![allow(clippy::wildcard_enum_match_arm, reason = "the fold above sends only what belongs here")]

use uuid::Uuid;

use crate::check::facts::Dial;
use crate::event::What;
use crate::moment::Moment;
use crate::practice::{Entry, Happened, PRACTICE_WIRE, Practice, PracticeRun, RUNS_MOST, Staged};
use crate::record::Record;
use crate::state::State;
use crate::state::bed::{Polarity, Wire, WireKind};
use crate::state::screen::Screen;

pub fn happen(state: &mut State, what: &What, at: Moment) {
    match what {
        What::PracticeBegan { practice, staged } => {
            state.practice = Some(Box::new(begun(*practice, staged, at)));
            state.screen = Screen::Practising;
        }
        What::PracticeEnded { record, broken_off } => end(state, record.as_deref(), *broken_off, at),
        What::PracticeJudged { run, judgement } => {
            let found = state.runs.iter_mut().filter(|one| one.id == *run);
            found.for_each(|one| one.judgement = Some(judgement.clone()));
        }
        What::PracticeNotJudged { run } => {
            state.runs.iter_mut().filter(|one| one.id == *run).for_each(|one| one.not_judged = true);
        }
        _ => {
            if let Some(open) = state.practice.as_deref_mut() {
                go_on(open, what);
            }
        }
    }
}

fn go_on(open: &mut Practice, what: &What) {
    match what {
        What::Practised(entry) => {
            if let Entry::Turned { dial, to, .. } = entry {
                open.dials = open.dials.with(*dial, *to);
                open.turning = *dial;
            }
            if let Entry::Answered { .. } = entry {
                open.told = None;
            }
            open.entries.push(*entry);
        }
        What::Befell { happened, dials } => {
            open.dials = *dials;
            open.told = Some(*happened).filter(|happened| *happened == Happened::Shock).or(open.told);
        }
        What::DialTaken(dial) => open.turning = *dial,
        What::PracticePaused(paused) => open.paused = Some(*paused),
        What::PracticeWentOn { times } => {
            open.paused = None;
            if let Some(check) = open.wire.check.as_mut() {
                check.times = *times;
            }
        }
        _ => {}
    }
}

fn begun(id: Uuid, staged: &Staged, at: Moment) -> Practice {
    Practice {
        id,
        staged: staged.clone(),
        opened: at,
        wire: wire(staged, at),
        dials: staged.found,
        turning: Dial::Output,
        entries: Vec::new(),
        paused: None,
        told: None,
    }
}

fn wire(staged: &Staged, at: Moment) -> Wire {
    let (kind, polarity) = (WireKind::Epicardial, Polarity::Bipolar);
    Wire::new(PRACTICE_WIRE, staged.chamber, kind, polarity, staged.generator.clone(), at)
}

fn end(state: &mut State, record: Option<&Record>, broken_off: bool, at: Moment) {
    let Some(open) = state.practice.take() else { return };
    if state.runs.len() >= RUNS_MOST {
        state.runs.remove(0);
    }
    state.screen = Screen::PracticeResult { run: open.id };
    state.runs.push(PracticeRun {
        id: open.id,
        staged: open.staged,
        opened: open.opened,
        ended: at,
        entries: open.entries,
        record: record.cloned().map(Box::new),
        broken_off,
        not_judged: false,
        judgement: None,
    });
}
