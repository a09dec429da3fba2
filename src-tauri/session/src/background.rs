//! Slow work beside the desk: two threads. What comes of it returns through the inbox; a job that is no longer
//! wanted is told to stop, and nothing of it is taken.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, SyncSender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;

use domain::Job;
use domain::command::Command;
use domain::practice::Judgement;
use uuid::Uuid;

use crate::handle::spawn;
use crate::input::Input;
use crate::trouble::OpenFault;

const THREADS: usize = 2;

type Task = Box<dyn FnOnce() -> Done + Send>;

/// What came of a task.
pub(crate) enum Done {
    Job(Job, Option<Command>),
    /// A picture of the camera was looked at.
    Frame(Option<Command>),
    /// A PIN was tried, or a file written.
    Worked(Command),
    /// What the judge found in an ended run.
    Judged(Uuid, Result<Box<Judgement>, practice::Fault>),
}

/// Takes tasks for the threads.
#[derive(Clone)]
pub(crate) struct Hands(Sender<Task>);

impl Hands {
    pub(crate) fn put(&self, task: impl FnOnce() -> Done + Send + 'static) {
        if self.0.send(Box::new(task)).is_err() {
            eprintln!("Holdfast: no worker is left");
        }
    }
}

pub(crate) struct Background {
    hands: Hands,
    inbox: SyncSender<Input>,
    /// Begun and still wanted, finished ones among them: none is done twice.
    begun: BTreeMap<Job, Arc<AtomicBool>>,
    looking: bool,
    ended: Arc<AtomicBool>,
}

/// The threads, for whoever waits until the last task is done.
pub(crate) struct Workers(Vec<JoinHandle<()>>);

impl Workers {
    /// Once the desk and its inbox are gone: a task that outlived its session would write into a folder that may be
    /// another's by then.
    pub(crate) fn join(self) {
        for thread in self.0 {
            if thread.join().is_err() {
                eprintln!("Holdfast: a worker broke off");
            }
        }
    }
}

impl Drop for Background {
    /// What waits is not begun, what can be stopped is: the next start takes it up.
    fn drop(&mut self) {
        self.ended.store(true, Ordering::Relaxed);
        self.begun.values().for_each(|stop| stop.store(true, Ordering::Relaxed));
    }
}

impl Background {
    pub(crate) fn start(inbox: &SyncSender<Input>) -> Result<(Background, Workers), OpenFault> {
        let (tasks, waiting) = channel::<Task>();
        let waiting = Arc::new(Mutex::new(waiting));
        let ended = Arc::new(AtomicBool::new(false));
        let mut threads = Vec::new();
        for _ in 0..THREADS {
            let (waiting, inbox, ended) = (Arc::clone(&waiting), inbox.clone(), Arc::clone(&ended));
            threads.push(spawn("worker", move || work(&waiting, &inbox, &ended))?);
        }
        let (hands, inbox) = (Hands(tasks), inbox.clone());
        Ok((Background { hands, inbox, begun: BTreeMap::new(), looking: false, ended }, Workers(threads)))
    }

    pub(crate) fn hands(&self) -> Hands {
        self.hands.clone()
    }

    /// For a worker that tells how far it is.
    pub(crate) fn inbox(&self) -> SyncSender<Input> {
        self.inbox.clone()
    }

    /// Stops what is no longer wanted; what is left of `wanted` is to be begun.
    pub(crate) fn keep(&mut self, wanted: Vec<Job>) -> Vec<Job> {
        self.begun.retain(|job, stop| {
            let keep = wanted.contains(job);
            stop.store(!keep, Ordering::Relaxed);
            keep
        });
        wanted.into_iter().filter(|job| !self.begun.contains_key(job)).collect()
    }

    pub(crate) fn begin(
        &mut self,
        job: Job,
        task: impl FnOnce(&AtomicBool) -> Option<Command> + Send + 'static,
    ) {
        let stop = Arc::new(AtomicBool::new(false));
        self.begun.insert(job.clone(), Arc::clone(&stop));
        self.hands.put(move || Done::Job(job, task(&stop)));
    }

    /// One picture of the camera at a time; those that come meanwhile are let go.
    pub(crate) fn look(&mut self, task: impl FnOnce() -> Option<Command> + Send + 'static) {
        if !self.looking {
            self.looking = true;
            self.hands.put(move || Done::Frame(task()));
        }
    }

    /// Lets these be begun again.
    pub(crate) fn forget(&mut self, which: impl Fn(&Job) -> bool) {
        self.begun.retain(|job, _| !which(job));
    }

    /// Whether what came of a job is still wanted.
    pub(crate) fn wants(&self, job: &Job) -> bool {
        self.begun.contains_key(job)
    }

    pub(crate) fn looked(&mut self) {
        self.looking = false;
    }
}

fn work(waiting: &Mutex<Receiver<Task>>, inbox: &SyncSender<Input>, ended: &AtomicBool) {
    loop {
        let next = waiting.lock().unwrap_or_else(PoisonError::into_inner).recv();
        let Ok(task) = next else { return };
        if ended.load(Ordering::Relaxed) {
            return;
        }
        // Nobody hears it when the session has ended meanwhile: the next start takes it up.
        if inbox.send(Input::Done(task())).is_err() {
            return;
        }
    }
}
