//! The runs that have ended, newest first.

use super::{practice_head, run_name};
use crate::contract::{BedRow, Beds, Shape, Tone};
use crate::moment::Moment;
use crate::practice::PracticeRun;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::view::Screenful;
use crate::view::pieces::{go, plain, when};

const ROWS_MOST: usize = 12;

pub fn runs(state: &State, now: Moment) -> Screenful {
    let rows =
        state.runs.iter().rev().take(ROWS_MOST).zip(1..).map(|(run, place)| row(run, place, now)).collect();
    let shape = Shape::Beds(Beds { rows, empty: Say::PracticeRunsEmpty });
    Screenful {
        answers: vec![go("back", Say::Back, Tone::Strong, Screen::Practice)],
        ..plain(practice_head(Say::PracticeRuns, now), shape, Say::PracticeRuns)
    }
}

fn row(run: &PracticeRun, place: u32, now: Moment) -> BedRow<Say> {
    BedRow {
        title: run_name(run),
        due: Some(verdict(run)),
        urgent: run.judgement.as_ref().is_some_and(|judgement| !judgement.passed),
        lines: vec![when(run.ended.wall_ms, now)],
        chart: None,
        open: go(format!("run-{place}"), Say::OpenBed, Tone::Plain, Screen::PracticeResult { run: run.id }),
    }
}

pub fn verdict(run: &PracticeRun) -> Say {
    if run.broken_off {
        return Say::RunBrokenOff;
    }
    match &run.judgement {
        None if run.not_judged => Say::RunNotJudged,
        None => Say::RunIsJudged,
        Some(judgement) if judgement.passed => Say::RunPassed,
        Some(_) => Say::RunFailed,
    }
}
