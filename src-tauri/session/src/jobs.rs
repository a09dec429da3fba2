//! Each job that the domain may want, as what a worker does.

use std::sync::Arc;

use domain::Job;
use domain::command::Command;
use domain::handover::arrived::NotLoaded;
use domain::handover::stamp::minute_of;
use domain::handover::tablet::KeyLost;
use domain::moment::Moment;
use handover::Here;

use crate::desk::Desk;
use crate::input::Input;
use crate::key_file;

impl Desk {
    /// Begins what is wanted since the last act, and stops what is not wanted any more.
    pub(crate) fn see_to_jobs(&mut self) {
        let wanted = domain::wanted(&self.fold.state);
        for job in self.aside.background.keep(wanted) {
            self.begin(job);
        }
    }

    fn begin(&mut self, job: Job) {
        match job.clone() {
            Job::MakeKey => self.make_key(job),
            Job::Sign { bed, wire } => self.sign(job, bed, wire),
            Job::ReadText { load, text } => {
                let (here, now) = self.here();
                self.aside.background.begin(job, move |_| {
                    let outcome = handover::from_text(&text, &here, now);
                    Some(Command::CodeRead { load, outcome })
                });
            }
            Job::ReadPicture { load } => self.read_picture(job, load),
            Job::Write(writing) => self.write(job, writing),
            Job::Erase { patient } => self.erase(job, patient),
            Job::Restore => self.restore(job),
        }
    }

    /// Known from the file; at the first start, or when a person asks for it, made.
    pub(crate) fn look_for_key(&mut self) {
        match key_file::read(self.fold.folder()) {
            Ok(key) => self.has_key(key),
            Err(lost) => {
                self.act(Command::KeyNotFound(lost));
            }
        }
    }

    fn has_key(&mut self, key: seal::TabletKey) {
        let tablet = handover::tablet_of(&key.public());
        self.key = Some(Arc::new(key));
        self.act(Command::KeyFound(tablet));
    }

    /// A few bytes: not worth a worker, and the first card may already ask for a signature.
    fn make_key(&mut self, job: Job) {
        self.aside.background.begin(job, |_| None);
        match key_file::make(self.fold.folder()) {
            Ok(key) => self.has_key(key),
            Err(trouble) => {
                eprintln!("Holdfast: no key for this tablet: {trouble:?}");
                self.act(Command::KeyNotFound(KeyLost::NotWritten));
            }
        }
    }

    fn sign(&mut self, job: Job, bed: u32, wire: u32) {
        let found = self.fold.state.wire(bed, wire).cloned();
        let Some((found, key)) = found.zip(self.key.clone()) else { return };
        let now = self.present();
        self.aside.background.begin(job, move |_| {
            let code = handover::made(&found, &key, now).ok()?;
            Some(Command::CodeMade { bed, wire, code: Box::new(code) })
        });
    }

    fn read_picture(&mut self, job: Job, load: u32) {
        let (here, now) = self.here();
        let picture = self.picture.take();
        let inbox = self.aside.background.inbox();
        // A desk that is too busy for it hears of the next look.
        let looked = move |done, of| drop(inbox.try_send(Input::Looked { load, done, of }));
        self.looked = None;
        self.aside.background.begin(job, move |stop| {
            let codes = picture.ok_or(NotLoaded::Interrupted);
            let codes = codes.and_then(|bytes| handover::codes_in_picture(&bytes, stop, looked));
            let outcome = codes.and_then(|codes| handover::from_codes(&codes, &here, now));
            Some(Command::CodeRead { load, outcome })
        });
    }

    /// A picture file for the card that asks for one.
    pub(crate) fn take_picture(&mut self, bytes: Vec<u8>) {
        let length = u32::try_from(bytes.len()).unwrap_or(u32::MAX);
        self.picture = Some(bytes);
        self.act(Command::PictureHandedIn { bytes: length });
        // Taken by the job, unless the card did not ask for it.
        self.picture = None;
    }

    /// What the camera saw: most pictures hold no code, and leave no trace.
    pub(crate) fn look_at(&mut self, bytes: Vec<u8>) {
        if !matches!(self.fold.state.screen, domain::state::screen::Screen::Load { .. }) {
            return;
        }
        self.aside.background.look(move || {
            let nobody = std::sync::atomic::AtomicBool::new(false);
            let codes = handover::codes_in_picture(&bytes, &nobody, |_, _| ()).ok()?;
            let text = codes.into_iter().find_map(|code| String::from_utf8(code).ok())?;
            Some(Command::CodeSeen(text))
        });
    }

    /// What is no longer looked at has no place on the card.
    pub(crate) fn looked(&mut self, load: u32, done: u32, of: u32) {
        let loading = self.fold.state.loading.as_ref();
        if loading.is_some_and(|loading| loading.id == load && loading.looks_at_picture()) {
            self.looked = Some(domain::looked(done, of));
            self.push();
        }
    }

    fn here(&self) -> (Here, u32) {
        (Here::of(&self.fold.state), minute_of(self.present().wall_ms))
    }

    fn present(&self) -> Moment {
        self.now(self.seen.fresh)
    }
}
