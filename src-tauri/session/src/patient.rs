//! The simulated patient of a practice. It lives on a thread of its own, by the session's clock, so that no
//! command waits for it; whoever asks something of it holds it still for that long.

mod batch;
mod living;
mod moment;

use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::Duration;

use domain::State;
use domain::command::Command;
use domain::practice::{Staged, stream_of_moment};
use uuid::Uuid;

use crate::clock::Clock;
use crate::input::StripSink;
use living::Living;

/// Between two looks at the clock, in its own time: less than half a batch.
const LOOK_EVERY_MS: i64 = 20;
/// A patient that stands still is looked at so seldom.
const REST: Duration = Duration::from_secs(1);

/// Held by the session's thread, the patient's, and whoever replays a moment.
#[derive(Clone)]
pub(crate) struct Patient {
    shared: Arc<Shared>,
}

struct Shared {
    living: Mutex<Option<Living>>,
    changed: Condvar,
    sink: Mutex<Option<StripSink>>,
    closed: Mutex<bool>,
}

/// The patient, holding its breath.
pub(crate) struct Held<'a> {
    living: MutexGuard<'a, Option<Living>>,
    changed: &'a Condvar,
}

impl Patient {
    pub(crate) fn start(clock: impl Clock + 'static) -> std::io::Result<Patient> {
        let shared = Shared {
            living: Mutex::new(None),
            changed: Condvar::new(),
            sink: Mutex::new(None),
            closed: Mutex::new(false),
        };
        let patient = Patient { shared: Arc::new(shared) };
        let on_its_own = patient.clone();
        thread::Builder::new().name("patient".into()).spawn(move || on_its_own.live(&clock))?;
        Ok(patient)
    }

    pub(crate) fn hold(&self) -> Held<'_> {
        Held { living: lock(&self.shared.living), changed: &self.shared.changed }
    }

    /// The newest page takes the place of the one before.
    pub(crate) fn watch(&self, sink: StripSink) {
        *lock(&self.shared.sink) = Some(sink);
    }

    /// The thread ends.
    pub(crate) fn close(&self) {
        *lock(&self.shared.closed) = true;
        self.shared.changed.notify_all();
    }

    /// Shows the strip around one act of an ended run, in one piece, from a thread of its own.
    pub(crate) fn show_moment(
        &self,
        staged: &Staged,
        entries: &[domain::practice::Entry],
        run: Uuid,
        act: u8,
        at_us: u64,
    ) {
        let (staged, entries, patient) = (staged.clone(), entries.to_vec(), self.clone());
        let stream = stream_of_moment(run, act);
        let shown = thread::Builder::new().name("moment".into()).spawn(move || {
            match moment::around(&staged, &entries, at_us, stream) {
                Ok(batches) => patient.send(batches),
                Err(fault) => eprintln!("Holdfast: the strip of that moment cannot be made: {fault}"),
            }
        });
        if let Err(fault) = shown {
            eprintln!("Holdfast: no thread for the strip of that moment: {fault}");
        }
    }

    fn live(&self, clock: &impl Clock) {
        while !*lock(&self.shared.closed) {
            let mut living = lock(&self.shared.living);
            let batches = match living.as_mut().filter(|living| living.goes_on()) {
                Some(living) => living.live_until(clock.read().boot_ms, clock.patience_ms()),
                None => {
                    drop(self.shared.changed.wait_timeout(living, REST));
                    continue;
                }
            };
            drop(living);
            self.send(batches);
            thread::sleep(clock.wait(LOOK_EVERY_MS));
        }
    }

    /// Outside the patient's own lock: a slow page must not hold up a command.
    fn send(&self, batches: Vec<Vec<u8>>) {
        let mut sink = lock(&self.shared.sink);
        for batch in batches {
            let heard = sink.as_mut().is_some_and(|sink| sink(batch));
            if !heard {
                *sink = None;
            }
        }
    }
}

impl Held<'_> {
    /// The instant of whatever is asked now; `None` without a patient.
    pub(crate) fn at_us(&self) -> Option<u64> {
        self.living.as_ref().map(Living::now_us)
    }

    /// Why it has come to stand still by itself, and for how long, said once. `unseen_ms`: the strip has been on
    /// no glass for so long.
    pub(crate) fn stood_still(
        &mut self,
        now_ms: i64,
        patience_ms: i64,
        unseen_ms: Option<i64>,
    ) -> Option<Command> {
        self.living.as_mut()?.stood_still(now_ms, patience_ms, unseen_ms)
    }

    /// What has befallen it since this was last asked.
    pub(crate) fn befallen(&mut self) -> Vec<Command> {
        self.living.as_mut().map(Living::befallen).unwrap_or_default()
    }

    /// Does what the state says: begins, turns, stands still, goes on, ends.
    pub(crate) fn follow(&mut self, state: &State, now_ms: i64) -> Result<(), practice::Fault> {
        let Some(open) = state.practice.as_deref() else {
            *self.living = None;
            return Ok(());
        };
        let same = self.living.as_ref().is_some_and(|living| living.id == open.id);
        if !same {
            *self.living = Some(Living::replayed(open)?);
        }
        if let Some(living) = self.living.as_mut() {
            living.follow(open, now_ms)?;
        }
        self.changed.notify_all();
        Ok(())
    }
}

fn lock<T>(of: &Mutex<T>) -> MutexGuard<'_, T> {
    of.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The exercise with all that its run depends on.
pub(crate) fn staged(exercise: domain::practice::ExerciseId, guided: bool, seed: u64) -> Option<Staged> {
    let found = shipped(exercise)?;
    Some(Staged {
        exercise,
        hash: found.hash.clone(),
        engine: practice::ENGINE.to_owned(),
        seed,
        guided,
        chamber: found.chamber,
        generator: found.profile.id.clone(),
        found: found.found,
        rules: Box::new(found.rules.clone()),
    })
}

/// The engine and the exercise's file are those of this version: only then is what was on the glass made again.
pub(crate) fn can_be_replayed(staged: &Staged) -> bool {
    let same_file = |exercise: &practice::Exercise| exercise.hash == staged.hash;
    staged.engine == practice::ENGINE && shipped(staged.exercise).is_some_and(same_file)
}

/// `None` where a shipped file is broken, which its own tests keep from being so.
pub(crate) fn shipped(id: domain::practice::ExerciseId) -> Option<&'static practice::Exercise> {
    practice::exercises().ok()?.iter().find(|exercise| exercise.id == id)
}
