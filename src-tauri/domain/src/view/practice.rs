//! Practice: the exercises, the simulated patient, what the judge found.

mod choose;
mod found;
mod knobs;
mod monitor;
mod patient;
mod runs;
mod told;

pub use choose::{begin, exercises};
pub use found::{acts, look_again, result};
pub use patient::{found as said_found, practising, read as said_read};
pub use runs::{runs, verdict};
pub use told::{act_at, act_judged};

use super::pieces::{boxed, head};
use crate::contract::{Head, Practice};
use crate::moment::Moment;
use crate::practice::PracticeRun;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

/// What frames a screen of practice, and what is at hand of its patient.
#[allow(clippy::wildcard_enum_match_arm, reason = "only a few screens are practice")]
pub fn practice(state: &State) -> Option<Practice<Say>> {
    match state.screen {
        Screen::Practice
        | Screen::PracticeBegin { .. }
        | Screen::PracticeRuns
        | Screen::PracticeResult { .. }
        | Screen::PracticeActs { .. } => Some(Practice { monitor: None, knobs: Vec::new() }),
        Screen::Practising | Screen::PracticeFound | Screen::PracticeRead => {
            let open = state.practice.as_deref()?;
            let running = open.paused.is_none();
            Some(Practice {
                monitor: running.then(|| monitor::running(open)),
                knobs: if running { knobs::knobs(state, open) } else { Vec::new() },
            })
        }
        Screen::LookAgain { run, act } => {
            Some(Practice { monitor: Some(monitor::kept(run, act)), knobs: Vec::new() })
        }
        _ => None,
    }
}

/// "Practice", and below it what.
fn practice_head(what: Say, now: Moment) -> Head<Say> {
    Head { subtitle: Some(what), ..head(Say::Practice, now) }
}

fn run_name(run: &PracticeRun) -> Say {
    let how = if run.staged.guided { Say::PracticeWithCards } else { Say::PracticeAlone };
    Say::WireAnd { wire: boxed(run.staged.exercise.name()), what: boxed(how) }
}
