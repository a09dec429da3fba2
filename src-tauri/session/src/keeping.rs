//! The desk's part in what leaves, what is erased and what comes back from a backup.

use std::path::Path;

use domain::Job;
use domain::command::Command;
use domain::contract::FILE_MOST;
use domain::leaving::{NotRestorable, NotWritten, Restorable, Writing, Written};
use domain::state::screen::Screen;
use uuid::Uuid;

use crate::background::Done;
use crate::desk::Desk;
use crate::{leaving, restoring};

impl Desk {
    pub(crate) fn write(&mut self, job: Job, writing: Writing) {
        let (folder, state) = (self.fold.folder().to_owned(), self.fold.state.clone());
        // The last room is for the taps of an open check.
        let short = self.fold.room_is_short();
        self.aside.background.begin(job, move |_| {
            let full = Written::Not(NotWritten::DiskFull);
            let written = if short { full } else { leaving::write(&folder, &state, &writing) };
            Some(Command::Wrote { name: writing.name().to_owned(), written })
        });
    }

    /// Here and now, since nobody else may write to the record; no check is open then.
    pub(crate) fn erase(&mut self, job: Job, patient: Uuid) {
        self.aside.background.begin(job, |_| None);
        let now = self.now(self.seen.fresh);
        if let Err(trouble) = self.fold.erase(patient, now) {
            self.trouble(trouble);
        }
    }

    /// What could not be recorded is tried again with the next tap, not all the time.
    pub(crate) fn try_again(&mut self) {
        self.aside.background.forget(|job| matches!(job, Job::Erase { .. } | Job::Restore));
    }

    /// Only where a card asks for it, and one at a time: the domain says no everywhere else, but reads no file for it.
    pub(crate) fn read_backup(&mut self, bytes: Vec<u8>) {
        let state = &self.fold.state;
        if self.reading_backup || state.screen != Screen::Restore || !state.is_untouched() {
            return;
        }
        self.reading_backup = true;
        let folder = self.fold.folder().to_owned();
        let is_cut = bytes.len() >= FILE_MOST as usize;
        let prepared =
            move || if is_cut { Err(NotRestorable::TooLong) } else { restoring::prepare(&folder, &bytes) };
        let read = move || Command::ReadBackup(prepared());
        self.aside.background.hands().put(move || Done::Worked(read()));
    }

    /// Verified once more: it may have lain there since another start.
    pub(crate) fn restore(&mut self, job: Job) {
        self.aside.background.begin(job, |_| None);
        let prepared = restoring::prepared(self.fold.folder());
        let looked = restoring::look(&prepared);
        let done = looked.and_then(|restorable| self.adopted(&prepared, restorable));
        let is_another = done.is_ok();
        self.act(Command::Restored(done));
        if is_another {
            // The key is this tablet's, the record begins anew on it.
            self.look_for_key();
            self.act(Command::Started { alive: None });
        }
        self.clear_up();
    }

    fn adopted(&mut self, prepared: &Path, restorable: Restorable) -> Result<Restorable, NotRestorable> {
        self.fold.adopt(prepared).map(|()| restorable).map_err(|trouble| {
            self.trouble(trouble);
            NotRestorable::Refused
        })
    }

    /// A backup that was read and not restored is of no use to anybody.
    pub(crate) fn clear_up(&self) {
        let state = &self.fold.state;
        if self.reading_backup || state.restoring || state.restorable.is_some() {
            return;
        }
        let prepared = restoring::prepared(self.fold.folder());
        if let Err(error) = leaving::remove(&prepared) {
            eprintln!("Holdfast: {}: {error}", prepared.display());
        }
    }
}
