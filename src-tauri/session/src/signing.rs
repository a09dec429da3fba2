//! The slow work of a sign-off: a PIN that is tried, a file that is written.

use std::path::PathBuf;

use domain::State;
use domain::command::Command;
use domain::teaching::ask::{Ask, NotWritten};
use domain::teaching::{Kept, PinDone, date_of, hex, unhex};
use seal::Effort;
use signoff::Pins;

use crate::background::{Done, Hands};
use crate::exports;

/// Of a paper's hash in the name of its file, two letters each: enough to tell two of one day apart.
const HASH_BYTES: usize = 4;

pub(crate) struct Signing {
    hands: Hands,
    folder: PathBuf,
    effort: Effort,
    /// One file at a time; one PIN at a time is the domain's own rule.
    writing: bool,
}

impl Signing {
    pub(crate) fn new(hands: Hands, folder: PathBuf, effort: Effort) -> Signing {
        Signing { hands, folder, effort, writing: false }
    }

    /// What the state wants opened by the PIN just typed.
    pub(crate) fn try_pin(&self, state: &State, pins: Pins) {
        let Some(wanted) = state.teaching.wanted.clone() else { return };
        let by = wanted.task.by().and_then(|by| state.teaching.educator(by));
        let locked = by.and_then(|educator| educator.locked.clone());
        let effort = self.effort;
        self.put(move || {
            let mut fresh = [0; 40];
            let done = match getrandom::fill(&mut fresh) {
                Ok(()) => signoff::carry_out(&wanted.task, locked.as_deref(), &pins, effort, &fresh),
                Err(_) => PinDone::Failed,
            };
            Ask::PinDone(done)
        });
    }

    /// The entry's token as a file of its own.
    pub(crate) fn write(&mut self, state: &State, entry: u32) {
        let Some(kept) = state.teaching.entry(entry).filter(|_| !self.writing) else { return };
        self.writing = true;
        let (folder, file) = (self.folder.clone(), file_of(kept));
        self.put(move || {
            let file = file.ok_or(NotWritten::Damaged);
            let file = file.and_then(|(name, bytes)| exports::write(&folder, &name, &bytes));
            Ask::FileWritten { entry, file }
        });
    }

    pub(crate) fn written(&mut self) {
        self.writing = false;
    }

    fn put(&self, work: impl FnOnce() -> Ask + Send + 'static) {
        self.hands.put(move || Done::Worked(Command::Teach(work())));
    }
}

/// Its name and its bytes; `None` where what is kept is no signed paper, as in a record that came from elsewhere.
fn file_of(kept: &Kept) -> Option<(String, Vec<u8>)> {
    let hash = unhex(&kept.hash)?;
    let letters = hex(hash.get(..HASH_BYTES)?);
    let bytes = unhex(&kept.token).filter(|bytes| !bytes.is_empty())?;
    Some((format!("sign-off-{}-{letters}.holdfast", date_of(&kept.paper)), bytes))
}
