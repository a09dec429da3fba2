//! State and record together: the state is always the fold of what the record holds.

use std::path::{Path, PathBuf};

use domain::contract::Sent;
use domain::moment::Moment;
use domain::{Event, Refusal, State};
use journal::{Fault, Head, Journal, Kept, Unreadable};
use serde::{Deserialize, Serialize};

use crate::trouble::Trouble;

/// Records between two snapshots.
const SNAPSHOT_EVERY: u32 = 256;
/// A fold made by another version is made again from the record.
const MADE_BY: &str = env!("CARGO_PKG_VERSION");

pub(crate) struct Fold {
    pub(crate) state: State,
    journal: Journal,
    folder: PathBuf,
    since_snapshot: u32,
}

/// Why an act changed nothing.
pub(crate) enum Denied {
    Refused(Refusal),
    Trouble(Trouble),
}

impl<T: Into<Trouble>> From<T> for Denied {
    fn from(trouble: T) -> Denied {
        Denied::Trouble(trouble.into())
    }
}

impl Fold {
    /// Snapshot and tail, verified; the rest is verified elsewhere. Also the last alive time.
    pub(crate) fn open(folder: &Path) -> Result<(Fold, Option<Moment>), Fault> {
        let (journal, kept) = Journal::open(folder)?;
        let (from, mut state) = start(&kept);
        let mut since_snapshot = 0;
        journal.replay(from, |record| {
            let event: Event = serde_json::from_slice(record.body).map_err(|_| Unreadable)?;
            state = domain::apply(std::mem::take(&mut state), &event);
            since_snapshot += 1;
            Ok(())
        })?;
        let alive = kept.alive.as_deref().and_then(|body| serde_json::from_slice(body).ok());
        Ok((Fold { state, journal, folder: folder.to_owned(), since_snapshot }, alive))
    }

    pub(crate) fn folder(&self) -> &Path {
        &self.folder
    }

    /// Decides, records, applies: all of it or nothing.
    pub(crate) fn take(&mut self, sent: &Sent, now: Moment) -> Result<(), Denied> {
        let events = domain::decide(&self.state, sent, now).map_err(Denied::Refused)?;
        let bodies: Vec<Vec<u8>> = events.iter().map(encode).collect::<Result<_, _>>()?;
        if !bodies.is_empty() {
            self.journal.append(&bodies)?;
        }
        let state = std::mem::take(&mut self.state);
        self.state = events.iter().fold(state, domain::apply);
        self.since_snapshot += u32::try_from(events.len()).unwrap_or(u32::MAX);
        Ok(())
    }

    pub(crate) fn alive(&mut self, now: Moment) -> Result<(), Trouble> {
        Ok(self.journal.alive(&encode(&now)?)?)
    }

    pub(crate) fn snapshot_if_due(&mut self) -> Result<(), Trouble> {
        if self.since_snapshot >= SNAPSHOT_EVERY { self.snapshot() } else { Ok(()) }
    }

    pub(crate) fn snapshot(&mut self) -> Result<(), Trouble> {
        if self.since_snapshot > 0 {
            self.since_snapshot = 0;
            let made = Made { by: MADE_BY.into(), state: self.state.clone() };
            self.journal.snapshot(&encode(&made)?)?;
        }
        Ok(())
    }

    pub(crate) fn room_is_short(&self) -> bool {
        self.journal.room_is_short()
    }
}

#[derive(Serialize, Deserialize)]
struct Made {
    by: String,
    state: State,
}

fn start(kept: &Kept) -> (Head, State) {
    let from_snapshot = kept.snapshot.as_ref().and_then(|snapshot| {
        let made: Made = serde_json::from_slice(&snapshot.state).ok()?;
        (made.by == MADE_BY).then_some((snapshot.head, made.state))
    });
    from_snapshot.unwrap_or((Head::GENESIS, State::default()))
}

fn encode<T: Serialize>(value: &T) -> Result<Vec<u8>, Trouble> {
    serde_json::to_vec(value).map_err(|error| Trouble::Unwritable(error.to_string()))
}
