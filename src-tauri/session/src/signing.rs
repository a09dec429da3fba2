//! The slow work of a sign-off: a PIN that is tried, a file that is written.

use std::path::PathBuf;

use domain::State;
use domain::command::Command;
use domain::teaching::ask::Ask;
use domain::teaching::{PinDone, date_of, unhex};
use seal::Effort;
use signoff::Pins;

use crate::background::{Done, Hands};
use crate::exports;

/// Letters of a paper's hash in the name of its file: enough to tell two of one day apart.
const HASH_LETTERS: usize = 8;

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
        let name = format!("sign-off-{}-{}.holdfast", date_of(&kept.paper), &kept.hash[..HASH_LETTERS]);
        let (folder, bytes) = (self.folder.clone(), unhex(&kept.token).unwrap_or_default());
        self.put(move || Ask::FileWritten { entry, file: exports::write(&folder, &name, &bytes) });
    }

    pub(crate) fn written(&mut self) {
        self.writing = false;
    }

    fn put(&self, work: impl FnOnce() -> Ask + Send + 'static) {
        self.hands.put(move || Done::Worked(Command::Teach(work())));
    }
}
