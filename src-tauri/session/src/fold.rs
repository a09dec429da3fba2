//! State and record together: the state is always the fold of what the record holds.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use domain::command::Command;
use domain::contract::Sent;
use domain::erasure::{self, Scope};
use domain::event::What;
use domain::leaving::Erasure;
use domain::moment::Moment;
use domain::{Event, Refusal, State};
use journal::{Fault, Head, Journal, Kept, Unreadable};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::trouble::{OpenFault, Trouble};
use crate::{leaving, restoring};

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
        let (state, since_snapshot) = folded(&journal, &kept)?;
        let alive = kept.alive.as_deref().and_then(|body| serde_json::from_slice(body).ok());
        Ok((Fold { state, journal, folder: folder.to_owned(), since_snapshot }, alive))
    }

    pub(crate) fn folder(&self) -> &Path {
        &self.folder
    }

    /// Decides, records, applies: all of it or nothing. Whether anything was recorded.
    pub(crate) fn take(&mut self, sent: &Sent, now: Moment) -> Result<bool, Denied> {
        let events = domain::decide(&self.state, sent, now).map_err(Denied::Refused)?;
        self.record(&events)?;
        Ok(!events.is_empty())
    }

    /// The start of a session, before anything is shown.
    pub(crate) fn begin(&mut self, started: Command, now: Moment) -> Result<(), OpenFault> {
        let sent = Sent { card: self.state.card, command: started, values: BTreeMap::new(), stood_ms: None };
        match self.take(&sent, now) {
            Ok(_) => Ok(()),
            Err(Denied::Trouble(trouble)) => Err(trouble.into()),
            Err(Denied::Refused(refusal)) => Err(OpenFault::Record(Fault::Device(format!("{refusal:?}")))),
        }
    }

    pub(crate) fn record(&mut self, events: &[Event]) -> Result<(), Trouble> {
        let bodies: Vec<Vec<u8>> = events.iter().map(encode).collect::<Result<_, _>>()?;
        if !bodies.is_empty() {
            self.journal.append(&bodies)?;
        }
        self.apply(events);
        Ok(())
    }

    fn apply(&mut self, events: &[Event]) {
        events.iter().for_each(|event| domain::apply_to(&mut self.state, event));
        let more = u32::try_from(events.len()).unwrap_or(u32::MAX);
        self.since_snapshot = self.since_snapshot.saturating_add(more);
    }

    /// Erases what is kept of a patient: the files that left, then, once all that stays is written down again, the
    /// bodies of the entries. Begun anew after any interruption, it comes to the same end.
    pub(crate) fn erase(&mut self, patient: Uuid, now: Moment) -> Result<(), Trouble> {
        let Some(erasing) = self.state.erasing.clone().filter(|erasing| erasing.patient == patient) else {
            return Ok(());
        };
        let removed = leaving::remove_of(&self.folder, &erasing.left)
            .and_then(|()| leaving::remove(&restoring::prepared(&self.folder)));
        removed.map_err(|error| Fault::from_io(&error))?;
        let state = erasure::without(self.state.clone(), patient);
        self.record(&[Event { at: now, what: What::Folded(Box::new(state)) }])?;
        let entries = self.entries_of(patient)?;
        let count = u32::try_from(entries.len()).unwrap_or(u32::MAX);
        let erased = Event { at: now, what: What::Erased(erasing.done(count, now)) };
        self.journal.erase(&entries, &encode(&erased)?)?;
        self.apply(&[erased]);
        // The snapshot went with it: the next quiet moment makes one.
        self.since_snapshot = SNAPSHOT_EVERY;
        Ok(())
    }

    /// The same by a proof of before, on a record that is older than it. Whether there was anything to erase.
    pub(crate) fn erase_known(&mut self, proof: &Erasure, now: Moment) -> Result<bool, Trouble> {
        if self.entries_of(proof.patient)?.is_empty() {
            return Ok(false);
        }
        self.record(&[Event { at: now, what: What::EraseAsked(restoring::again(proof)) }])?;
        self.erase(proof.patient, now)?;
        Ok(true)
    }

    fn entries_of(&self, patient: Uuid) -> Result<BTreeSet<u32>, Trouble> {
        let mut scope = Scope::default();
        self.journal.replay(Head::GENESIS, |record| {
            let event: Event = serde_json::from_slice(record.body).map_err(|_| Unreadable)?;
            scope.see(record.seq, &event);
            Ok(())
        })?;
        Ok(scope.of(patient, self.journal.head().seq))
    }

    /// Puts a record that was prepared and verified in the place of this one.
    pub(crate) fn adopt(&mut self, prepared: &Path) -> Result<(), Trouble> {
        let kept = self.journal.adopt(prepared)?;
        (self.state, self.since_snapshot) = folded(&self.journal, &kept)?;
        Ok(())
    }

    /// What was erased is wiped as soon as nothing is in the way of it.
    pub(crate) fn wipe_if_owed(&mut self) -> Result<(), Trouble> {
        if self.journal.is_wipe_owed() {
            self.journal.wipe()?;
        }
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

/// What the record amounts to, and how many entries stand after its snapshot.
fn folded(journal: &Journal, kept: &Kept) -> Result<(State, u32), Fault> {
    let (from, mut state) = start(kept);
    let mut since_snapshot = 0;
    journal.replay(from, |record| {
        let event: Event = serde_json::from_slice(record.body).map_err(|_| Unreadable)?;
        domain::apply_to(&mut state, &event);
        since_snapshot += 1;
        Ok(())
    })?;
    Ok((state, since_snapshot))
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
