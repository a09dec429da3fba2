//! The thread: takes inputs one at a time, and lets time itself act.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError};

use domain::command::{Command, Language};
use domain::contract::{Progress, Sent};
use domain::moment::Moment;
use domain::say::Say;
use domain::teaching::ask::Ask;
use seal::TabletKey;
use signoff::Pins;
use uuid::Uuid;

use crate::background::{Background, Done};
use crate::clock::Clock;
use crate::fold::{Denied, Fold};
use crate::input::Input;
use crate::judging::Judging;
use crate::notices::Notices;
use crate::patient::Patient;
use crate::practising::of_other_version;
use crate::screen::{Screen, without_test_language};
use crate::signing::Signing;
use crate::trouble::Trouble;

/// Between two looks at the clock at most, so that a sleep is seen soon after it ends.
const TICK_MS: i64 = 1_000;
const ALIVE_EVERY_MS: i64 = 5_000;
/// Keeps the wall clock on the card right.
const PUSH_EVERY_MS: i64 = 30_000;

/// What works beside the desk: a simulated patient, and the slow work.
pub(crate) struct Aside {
    pub(crate) patient: Patient,
    pub(crate) judging: Judging,
    pub(crate) signing: Signing,
    pub(crate) background: Background,
}

pub(crate) struct Desk {
    pub(crate) fold: Fold,
    pub(crate) aside: Aside,
    /// The moment whose strip has been sent.
    pub(crate) shown: Option<(Uuid, u8)>,
    pub(crate) clock: Box<dyn Clock>,
    pub(crate) screen: Screen,
    notices: Notices,
    /// When this thread last ran.
    pub(crate) seen: Moment,
    /// A `due` that `TimePassed` did not move is not tried again in the same tick.
    tried: Option<i64>,
    /// What a worker has done and the record did not take.
    unrecorded: Option<Command>,
    alive_ms: i64,
    pushed_ms: i64,
    screen_may_sleep: bool,
    /// Never printed, never recorded: signs by itself.
    pub(crate) key: Option<Arc<TabletKey>>,
    /// Handed in and not yet looked at.
    pub(crate) picture: Option<Vec<u8>>,
    /// How far the worker is that looks at a picture.
    pub(crate) looked: Option<Progress<Say>>,
    /// A worker unpacks and verifies one.
    pub(crate) reading_backup: bool,
}

impl Desk {
    pub(crate) fn new(fold: Fold, clock: Box<dyn Clock>, screen: Screen, aside: Aside, now: Moment) -> Desk {
        let (alive_ms, pushed_ms) = (now.boot_ms, now.boot_ms);
        let notices = Notices::default();
        Desk {
            fold,
            aside,
            shown: None,
            clock,
            screen,
            notices,
            seen: now,
            tried: None,
            unrecorded: None,
            alive_ms,
            pushed_ms,
            screen_may_sleep: false,
            key: None,
            picture: None,
            looked: None,
            reading_backup: false,
        }
    }

    /// Runs until it is told to close or nobody is left to tell it. `started`: unless that is recorded already.
    pub(crate) fn run(mut self, inbox: &Receiver<Input>, started: Option<Command>) {
        match started {
            Some(started) => {
                self.act(started);
            }
            None => {
                self.follow();
                self.see_to_jobs();
            }
        }
        self.give_up_other_versions();
        self.look_for_key();
        self.clear_up();
        loop {
            let input = inbox.recv_timeout(self.clock.wait(self.pause_ms()));
            self.notice_sleep();
            self.notice_patient();
            match input {
                Ok(Input::Close) | Err(RecvTimeoutError::Disconnected) => break,
                Ok(input) => self.take(input),
                Err(RecvTimeoutError::Timeout) => self.tidy(),
            }
            self.let_time_act();
        }
        self.end();
    }

    fn take(&mut self, input: Input) {
        match input {
            Input::Sent(sent, _) if sent.command.is_by_session() => {
                eprintln!("Holdfast: a page asked for what only the session knows");
            }
            Input::Sent(sent, pins) => {
                self.try_again();
                let sent = self.staged(self.in_session_time(sent));
                self.person(&sent, pins);
            }
            Input::WatchStrip(sink) => {
                self.aside.patient.watch(sink);
                self.shown = None;
                self.show_moment();
            }
            Input::SignedFile(file) => {
                self.act(Command::Teach(Ask::FileRead(file)));
            }
            Input::HandedIn(handed) => {
                self.act(Command::HandedIn(handed));
            }
            Input::Picture(bytes) => self.take_picture(bytes),
            Input::Frame(bytes) => self.look_at(bytes),
            Input::Looked { load, done, of } => self.looked(load, done, of),
            Input::Backup(bytes) => self.read_backup(bytes),
            Input::Done(done) => self.come_back(done),
            Input::Watch(sink) => {
                self.screen.attention.reset();
                self.screen.sink = Some(sink);
                self.push();
            }
            Input::Verified(Ok(verified)) => {
                eprintln!(
                    "Holdfast: record verified, {} entries, {} erased",
                    verified.head.seq, verified.erased
                );
            }
            Input::Verified(Err(fault)) => {
                eprintln!("Holdfast: the record does not hold: {fault}");
                self.notices.broken = Some(Trouble::Record(fault));
                self.push();
            }
            Input::ScreenMaySleep(may) => {
                self.screen_may_sleep = may;
                self.push();
            }
            Input::PageDied | Input::Close => {}
        }
    }

    /// What somebody did, and the slow work it sets going.
    fn person(&mut self, sent: &Sent, pins: Pins) {
        if !self.put(sent) {
            return;
        }
        let Command::Teach(ask) = &sent.command else { return };
        if let Ask::Save { at } = ask {
            self.aside.signing.write(&self.fold.state, *at);
        }
        if ask.tries_a_pin() {
            self.aside.signing.try_pin(&self.fold.state, pins);
        }
    }

    /// What the slow work came to.
    fn come_back(&mut self, done: Done) {
        let command = match done {
            Done::Worked(command) => Some(command),
            Done::Judged(run, found) => return self.judged(run, found),
            Done::Job(job, command) => command.filter(|_| self.aside.background.wants(&job)),
            Done::Frame(command) => {
                self.aside.background.looked();
                command
            }
        };
        if let Some(command) = command {
            self.worked(command);
        }
    }

    /// A result that cannot be recorded now is recorded later: whoever waits for it waits.
    fn worked(&mut self, command: Command) {
        if matches!(command, Command::Teach(Ask::FileWritten { .. })) {
            self.aside.signing.written();
        }
        self.reading_backup &= !matches!(command, Command::ReadBackup(_));
        if !self.act(command.clone()) && self.notices.trouble.is_some() {
            self.unrecorded = Some(command);
        }
        self.clear_up();
    }

    /// The page measures in the world's time.
    fn in_session_time(&self, sent: Sent) -> Sent {
        Sent { stood_ms: sent.stood_ms.map(|ms| self.clock.of_standing_ms(ms)), ..sent }
    }

    /// A command of the session's own, or a file that took its time, on whatever card stands.
    pub(crate) fn act(&mut self, command: Command) -> bool {
        let card = self.fold.state.card;
        self.put(&Sent { card, command, values: BTreeMap::new(), stood_ms: None })
    }

    /// Whether it was taken.
    fn put(&mut self, sent: &Sent) -> bool {
        let done = self.done(sent);
        self.follow();
        let taken = done.is_ok();
        match done {
            Ok(recorded) => {
                // What could not be recorded is in doubt until something else was.
                if recorded {
                    self.notices.trouble = None;
                }
                self.notices.refusal = None;
                self.see_to_jobs();
            }
            Err(Denied::Refused(refusal)) => match refusal.say() {
                Some(say) => self.notices.refusal = Some((sent.card, say)),
                None => return false,
            },
            Err(Denied::Trouble(trouble)) => self.trouble(trouble),
        }
        self.push();
        taken
    }

    /// What goes on beside the record follows it.
    fn follow(&mut self) {
        self.judge();
        self.show_moment();
        self.notices.room_is_short = self.fold.room_is_short();
    }

    /// A simulated patient holds still meanwhile: what is asked has one instant, and the strip goes on behind it.
    fn done(&mut self, sent: &Sent) -> Result<bool, Denied> {
        let now = self.moment().map_err(Denied::Trouble)?;
        self.seen = now;
        let mut held = self.aside.patient.hold();
        let practises = self.fold.state.practice.is_some() && !is_of_time(&sent.command);
        let at_us = held.at_us().filter(|_| practises);
        let asked = || Box::new(sent.command.clone());
        let stamped =
            at_us.map(|at_us| Sent { command: Command::AtStrip { at_us, asked: asked() }, ..sent.clone() });
        let done = self.fold.take(stamped.as_ref().unwrap_or(sent), now);
        if let Err(fault) = held.follow(&self.fold.state, now.boot_ms) {
            eprintln!("Holdfast: the simulated patient cannot go on: {fault}");
        }
        done
    }

    pub(crate) fn trouble(&mut self, trouble: Trouble) {
        eprintln!("Holdfast: {trouble:?}");
        self.notices.trouble = Some(trouble);
    }

    pub(crate) fn push(&mut self) {
        let now = self.now(self.seen.fresh);
        self.pushed_ms = now.boot_ms;
        let mut view = domain::view(&self.fold.state, now);
        let other = of_other_version(&self.fold.state);
        view.notice = self.notices.on(view.card).or(other).or(view.notice);
        if let Some((shown, looked)) = view.progress.as_mut().zip(self.looked.as_ref()) {
            **shown = looked.clone();
        }
        if self.clock.is_for_tests() {
            view.marks.push(Say::MarkTestClock);
        } else if self.fold.state.language == Language::English {
            without_test_language(&mut view);
        }
        if self.screen_may_sleep && view.safety.is_some() {
            view.marks.push(Say::ScreenMaySleep);
        }
        self.screen.push(&view, self.fold.state.language);
    }

    pub(crate) fn now(&self, fresh: [u8; 16]) -> Moment {
        moment(&*self.clock, fresh)
    }

    fn moment(&self) -> Result<Moment, Trouble> {
        let mut fresh = [0; 16];
        getrandom::fill(&mut fresh).map_err(|_| Trouble::NoRandomness)?;
        Ok(self.now(fresh))
    }

    fn pause_ms(&self) -> i64 {
        let now = self.clock.read().boot_ms;
        let due = domain::due(&self.fold.state).filter(|due| Some(*due) != self.tried);
        due.map_or(TICK_MS, |due| (due - now).clamp(0, TICK_MS))
    }

    /// The thread did not run for longer than it meant to wait: the device slept, or the system
    /// held the app still.
    fn notice_sleep(&mut self) {
        let now = self.now(self.seen.fresh);
        let alive = std::mem::replace(&mut self.seen, now);
        if now.boot_ms - alive.boot_ms > TICK_MS + self.clock.patience_ms() {
            self.act(Command::Woke { alive });
        }
    }

    fn let_time_act(&mut self) {
        let now = self.clock.read().boot_ms;
        let due = domain::due(&self.fold.state);
        if due != self.tried {
            self.tried = None;
        }
        if self.tried.is_none() && due.is_some_and(|due| due <= now) {
            self.act(Command::TimePassed);
            self.tried = due;
        }
        if now - self.alive_ms >= ALIVE_EVERY_MS && self.check_is_open() {
            self.write_alive();
        }
        let pulse_ms = if self.check_is_open() { self.clock.pulse_ms() } else { PUSH_EVERY_MS };
        if now - self.pushed_ms >= pulse_ms {
            self.push();
        }
    }

    fn check_is_open(&self) -> bool {
        self.fold.state.is_at_work() || self.fold.state.practice.is_some()
    }

    fn write_alive(&mut self) {
        let now = self.now(self.seen.fresh);
        self.alive_ms = now.boot_ms;
        if let Err(trouble) = self.fold.alive(now) {
            self.trouble(trouble);
            self.push();
        }
    }

    /// Work for a quiet moment.
    fn tidy(&mut self) {
        self.tried = None;
        if let Some(command) = self.unrecorded.take() {
            self.worked(command);
        }
        if let Err(trouble) = self.fold.snapshot_if_due().and_then(|()| self.fold.wipe_if_owed()) {
            self.trouble(trouble);
            self.push();
        }
    }

    fn end(mut self) {
        self.aside.patient.close();
        self.clear_up();
        self.write_alive();
        if let Err(trouble) = self.fold.snapshot() {
            eprintln!("Holdfast: no snapshot at the end: {trouble:?}");
        }
    }
}

/// Time, sleep and a start are of the tablet, not of a patient.
fn is_of_time(command: &Command) -> bool {
    let judged = matches!(command, Command::Judged { .. } | Command::NotJudged { .. } | Command::Staged(_));
    judged || (command.is_by_session() && !command.is_of_the_strip())
}

pub(crate) fn moment(clock: &dyn Clock, fresh: [u8; 16]) -> Moment {
    let reading = clock.read();
    Moment {
        wall_ms: reading.wall_ms,
        offset_min: reading.offset_min,
        boot_ms: reading.boot_ms,
        boot: reading.boot,
        fresh,
    }
}
