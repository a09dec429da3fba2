//! The practice that is open, and the runs that have ended. A run is a function of its exercise, seed and entries.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{Entry, ExerciseId, Happened, Judgement, Pause, Said};
use crate::check::facts::{Dial, Dials};
use crate::moment::Moment;
use crate::record::Record;
use crate::rules::{Chamber, Rules};
use crate::state::bed::Wire;

/// No bed of a patient has this number: they count from 1.
pub const PRACTICE_BED: u32 = 0;
pub const PRACTICE_WIRE: u32 = 1;

/// An exercise as it is begun: everything that its run depends on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Staged {
    pub exercise: ExerciseId,
    /// SHA-256 of its file.
    pub hash: String,
    /// Version of simulator and judge.
    pub engine: String,
    pub seed: u64,
    /// Led by the cards of the check.
    pub guided: bool,
    pub chamber: Chamber,
    /// Profile id.
    pub generator: String,
    pub found: Dials,
    pub rules: Box<Rules>,
}

/// A simulated patient at hand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Practice {
    pub id: Uuid,
    pub staged: Staged,
    pub opened: Moment,
    /// Stands in no bed: nothing that is done with patients' wires can reach it.
    pub wire: Wire,
    /// Where the dials of the simulated generator stand.
    pub dials: Dials,
    /// The dial under the hand: drawn large.
    pub turning: Dial,
    pub entries: Vec<Entry>,
    pub paused: Option<Paused>,
    /// What no strip shows, until the next answer.
    #[serde(default)]
    pub told: Option<Happened>,
}

impl Practice {
    /// What the learner has last said.
    pub fn said(&self) -> Option<Said> {
        self.entries.iter().rev().find_map(|entry| match *entry {
            Entry::Said { said, .. } => Some(said),
            Entry::Turned { .. } | Entry::Answered { .. } | Entry::Paused { .. } | Entry::Ended { .. } => {
                None
            }
        })
    }
}

/// The simulated patient stands still.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Paused {
    pub why: Pause,
    /// µs of the simulated patient.
    pub at_us: u64,
    pub since: Moment,
}

/// A run that has ended.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PracticeRun {
    pub id: Uuid,
    pub staged: Staged,
    pub opened: Moment,
    pub ended: Moment,
    pub entries: Vec<Entry>,
    /// What the check found, in a guided run that came to its end.
    pub record: Option<Box<Record>>,
    /// Left before its end: not judged.
    pub broken_off: bool,
    /// Made by another version, which alone could judge it. Left out where it is not so: the hash of a run stays.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub not_judged: bool,
    pub judgement: Option<Box<Judgement>>,
}

/// The state keeps so many runs; the journal keeps all.
pub const RUNS_MOST: usize = 100;

impl PracticeRun {
    /// As it is kept, judgement included: what a signature is made over.
    ///
    /// # Errors
    /// None is known; the writer of the bytes can name one.
    pub fn bytes(&self) -> Result<Vec<u8>, serde_json::Error> {
        serde_json::to_vec(self)
    }

    /// SHA-256 of [`PracticeRun::bytes`], in hexadecimal; `None` until it is judged.
    pub fn hash(&self) -> Option<String> {
        self.judgement.as_ref()?;
        let text = serde_json::to_string(self).ok()?;
        Some(crate::document::hash(&text))
    }

    /// Waits for the judge.
    pub fn is_unjudged(&self) -> bool {
        !self.broken_off && !self.not_judged && self.judgement.is_none()
    }
}

/// Names the strip of a run on its way to the page.
pub fn stream_of_run(run: Uuid) -> u32 {
    let [a, b, c, d, ..] = *run.as_bytes();
    u32::from_le_bytes([a, b, c, d])
}

/// The same for the moment of one of its acts.
pub fn stream_of_moment(run: Uuid, act: u8) -> u32 {
    stream_of_run(run).wrapping_add(1 + u32::from(act))
}
