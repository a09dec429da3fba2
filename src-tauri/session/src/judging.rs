//! Runs waiting for the judge: one at a time.

use std::collections::BTreeSet;

use domain::practice::PracticeRun;
use uuid::Uuid;

use crate::background::{Done, Hands};
use crate::patient::{can_be_replayed, shipped};

pub(crate) struct Judging {
    hands: Hands,
    under_way: bool,
    given_up: BTreeSet<Uuid>,
}

impl Judging {
    pub(crate) fn new(hands: Hands) -> Judging {
        Judging { hands, under_way: false, given_up: BTreeSet::new() }
    }

    /// A run of another engine, or of another file, is not judged by this one.
    pub(crate) fn wants(&self, run: &PracticeRun) -> bool {
        let ours = can_be_replayed(&run.staged);
        !self.under_way && ours && run.is_unjudged() && !self.given_up.contains(&run.id)
    }

    pub(crate) fn begin(&mut self, run: &PracticeRun) {
        let (id, staged, entries) = (run.id, run.staged.clone(), run.entries.clone());
        self.under_way = true;
        self.hands.put(move || {
            let exercise = shipped(staged.exercise)
                .ok_or_else(|| practice::Fault::NotShipped { id: staged.exercise.id().to_owned() });
            let found = exercise.and_then(|exercise| practice::judge(exercise, staged.seed, &entries));
            Done::Judged(id, found.map(Box::new))
        });
    }

    pub(crate) fn done(&mut self) {
        self.under_way = false;
    }

    pub(crate) fn gave_up(&mut self, run: Uuid) {
        self.under_way = false;
        self.given_up.insert(run);
    }
}
