//! Slow work beside the session's thread: a PIN that is tried, a file that is written. What came of it returns
//! through the queue like everything else.

use std::path::PathBuf;
use std::sync::mpsc::SyncSender;
use std::thread;

use domain::State;
use domain::command::Command;
use domain::teaching::ask::{Ask, NotWritten};
use domain::teaching::{PinDone, date_of, unhex};
use seal::Effort;
use signoff::Pins;

use crate::exports;
use crate::input::Input;

/// Letters of a paper's hash in the name of its file: enough to tell two of one day apart.
const HASH_LETTERS: usize = 8;

pub(crate) struct Workers {
    pub(crate) inbox: SyncSender<Input>,
    pub(crate) folder: PathBuf,
    pub(crate) effort: Effort,
    /// One file at a time; one PIN at a time is the domain's own rule.
    writing: bool,
}

impl Workers {
    pub(crate) fn new(inbox: SyncSender<Input>, folder: PathBuf, effort: Effort) -> Workers {
        Workers { inbox, folder, effort, writing: false }
    }

    /// What the state wants opened by the PIN just typed.
    pub(crate) fn try_pin(&self, state: &State, pins: Pins) {
        let Some(wanted) = state.teaching.wanted.clone() else { return };
        let by = wanted.task.by().and_then(|by| state.teaching.educator(by));
        let locked = by.and_then(|educator| educator.locked.clone());
        let effort = self.effort;
        let work = move || {
            let mut fresh = [0; 40];
            let done = match getrandom::fill(&mut fresh) {
                Ok(()) => signoff::carry_out(&wanted.task, locked.as_deref(), &pins, effort, &fresh),
                Err(_) => PinDone::Failed,
            };
            Ask::PinDone(done)
        };
        self.start("pin", work, || Ask::PinDone(PinDone::Failed));
    }

    /// The entry's token as a file of its own.
    pub(crate) fn write(&mut self, state: &State, entry: u32) {
        let Some(kept) = state.teaching.entry(entry).filter(|_| !self.writing) else { return };
        self.writing = true;
        let name = format!("sign-off-{}-{}.holdfast", date_of(&kept.paper), &kept.hash[..HASH_LETTERS]);
        let (folder, bytes) = (self.folder.clone(), unhex(&kept.token).unwrap_or_default());
        let written = move || exports::write(&folder, &name, &bytes);
        let none = || Ask::FileWritten { entry, file: Err(NotWritten::Device(String::new())) };
        self.start("write", move || Ask::FileWritten { entry, file: written() }, none);
    }

    pub(crate) fn written(&mut self) {
        self.writing = false;
    }

    fn start(
        &self,
        name: &str,
        work: impl FnOnce() -> Ask + Send + 'static,
        not_started: impl FnOnce() -> Ask,
    ) {
        let inbox = self.inbox.clone();
        // Nobody hears it when the session has ended meanwhile: the next start takes it up.
        let run = move || {
            let _ = inbox.send(Input::Worked(Command::Teach(work())));
        };
        if thread::Builder::new().name(name.into()).spawn(run).is_err() {
            let _ = self.inbox.try_send(Input::Worked(Command::Teach(not_started())));
        }
    }
}
