//! Runs waiting for the judge: one at a time, on a thread of its own.

use std::collections::BTreeSet;
use std::sync::mpsc::SyncSender;
use std::thread;

use domain::practice::PracticeRun;
use uuid::Uuid;

use crate::input::Input;
use crate::patient::shipped;

pub(crate) struct Judging {
    inbox: SyncSender<Input>,
    under_way: bool,
    given_up: BTreeSet<Uuid>,
}

impl Judging {
    pub(crate) fn new(inbox: SyncSender<Input>) -> Judging {
        Judging { inbox, under_way: false, given_up: BTreeSet::new() }
    }

    /// A run of another engine is not judged anew by this one.
    pub(crate) fn wants(&self, run: &PracticeRun) -> bool {
        let ours = run.staged.engine == practice::ENGINE;
        !self.under_way && ours && run.is_unjudged() && !self.given_up.contains(&run.id)
    }

    pub(crate) fn begin(&mut self, run: &PracticeRun) {
        let (id, staged, entries, inbox) =
            (run.id, run.staged.clone(), run.entries.clone(), self.inbox.clone());
        let judged = move || {
            let exercise = shipped(staged.exercise)
                .ok_or_else(|| practice::Fault::NotAnExercise { why: staged.exercise.id().to_owned() });
            let found = exercise.and_then(|exercise| practice::judge(exercise, staged.seed, &entries));
            // Nobody hears it when the session has ended meanwhile; the next one judges again.
            let _ = inbox.send(Input::Judged(id, found.map(Box::new)));
        };
        match thread::Builder::new().name("judge".into()).spawn(judged) {
            Ok(_) => self.under_way = true,
            Err(fault) => eprintln!("Holdfast: no thread for the judge: {fault}"),
        }
    }

    pub(crate) fn done(&mut self) {
        self.under_way = false;
    }

    pub(crate) fn gave_up(&mut self, run: Uuid) {
        self.under_way = false;
        self.given_up.insert(run);
    }
}
