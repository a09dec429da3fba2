//! Slow work beside the desk: two threads. What comes of it returns through the inbox; a job that is no longer
//! wanted is told to stop, and nothing of it is taken.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, SyncSender, channel};
use std::sync::{Arc, Mutex, PoisonError};

use domain::Job;
use domain::command::Command;

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
}

pub(crate) struct Background {
    tasks: Sender<Task>,
    /// Begun and still wanted, finished ones among them: none is done twice.
    begun: BTreeMap<Job, Arc<AtomicBool>>,
    looking: bool,
}

impl Background {
    pub(crate) fn start(inbox: &SyncSender<Input>) -> Result<Background, OpenFault> {
        let (tasks, waiting) = channel::<Task>();
        let waiting = Arc::new(Mutex::new(waiting));
        for _ in 0..THREADS {
            let (waiting, inbox) = (Arc::clone(&waiting), inbox.clone());
            spawn("worker", move || work(&waiting, &inbox))?;
        }
        Ok(Background { tasks, begun: BTreeMap::new(), looking: false })
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
        self.put(Box::new(move || Done::Job(job, task(&stop))));
    }

    /// One picture of the camera at a time; those that come meanwhile are let go.
    pub(crate) fn look(&mut self, task: impl FnOnce() -> Option<Command> + Send + 'static) {
        if !self.looking {
            self.looking = true;
            self.put(Box::new(move || Done::Frame(task())));
        }
    }

    /// What is to be done with it now; nothing where it is no longer wanted.
    pub(crate) fn taken(&mut self, done: Done) -> Option<Command> {
        match done {
            Done::Job(job, command) => command.filter(|_| self.begun.contains_key(&job)),
            Done::Frame(command) => {
                self.looking = false;
                command
            }
        }
    }

    fn put(&self, task: Task) {
        if self.tasks.send(task).is_err() {
            eprintln!("Holdfast: no worker is left");
        }
    }
}

fn work(waiting: &Mutex<Receiver<Task>>, inbox: &SyncSender<Input>) {
    loop {
        let next = waiting.lock().unwrap_or_else(PoisonError::into_inner).recv();
        let Ok(task) = next else { return };
        if inbox.send(Input::Done(task())).is_err() {
            return;
        }
    }
}
