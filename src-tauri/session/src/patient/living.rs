//! The run under way. Its time is the session's, in whole batches: what is asked falls between two of them.

use domain::command::Command;
use domain::practice::{Entry, Pause, Practice, stream_of_run};
use practice::{Fault, Run};
use uuid::Uuid;

use super::{batch, shipped};

const BATCH_MS: i64 = 50;
/// More at once is a patient that stood still.
const STALL_PARTS: i64 = 5;
const STALL_OF: i64 = 2;

pub struct Living {
    pub id: Uuid,
    stream: u32,
    run: Run,
    /// Entries that the run has gone through.
    applied: usize,
    going: Option<Going>,
    /// Why, and since when.
    stood: Option<(Pause, i64)>,
    /// Happenings told to the session.
    told: usize,
    /// The next batch joins nothing.
    apart: bool,
}

/// Since the patient last began to go.
struct Going {
    since_ms: i64,
    batches: i64,
    seen_ms: i64,
}

impl Living {
    /// From the entries, as far as they say.
    pub fn replayed(open: &Practice) -> Result<Living, Fault> {
        let exercise = shipped(open.staged.exercise)
            .ok_or_else(|| Fault::NotShipped { id: open.staged.exercise.id().to_owned() })?;
        let mut run = Run::new(exercise, open.staged.seed)?;
        for entry in &open.entries {
            go_through(&mut run, *entry)?;
        }
        let told = run.happened().len();
        let (id, applied) = (open.id, open.entries.len());
        Ok(Living {
            id,
            stream: stream_of_run(id),
            run,
            applied,
            going: None,
            stood: None,
            told,
            apart: true,
        })
    }

    pub fn now_us(&self) -> u64 {
        self.run.now_us()
    }

    pub fn goes_on(&self) -> bool {
        self.going.is_some()
    }

    /// New turns, and whether it stands still.
    pub fn follow(&mut self, open: &Practice, now_ms: i64) -> Result<(), Fault> {
        for entry in open.entries.iter().skip(self.applied) {
            go_through(&mut self.run, *entry)?;
        }
        self.applied = open.entries.len();
        if open.paused.is_some() {
            self.going = None;
            self.stood = None;
        } else if self.going.is_none() && self.stood.is_none() {
            self.going = Some(Going { since_ms: now_ms, batches: 0, seen_ms: now_ms });
            self.apart = true;
        }
        Ok(())
    }

    /// The batches up to now; none, and a stop, after a time in which nobody could watch.
    pub fn live_until(&mut self, now_ms: i64, patience_ms: i64) -> Vec<Vec<u8>> {
        if self.stall(now_ms, patience_ms) {
            return Vec::new();
        }
        let Some(going) = self.going.as_mut() else { return Vec::new() };
        going.seen_ms = now_ms;
        let due = (now_ms - going.since_ms) / BATCH_MS;
        let wanted = due - going.batches;
        going.batches = due;
        (0..wanted).filter_map(|_| self.batch()).collect()
    }

    fn batch(&mut self) -> Option<Vec<u8>> {
        match self.run.next_batch() {
            Ok(made) => Some(batch::bytes(self.stream, &made, &self.run, std::mem::take(&mut self.apart))),
            Err(fault) => {
                eprintln!("Holdfast: the simulated patient stands still: {fault}");
                let since_ms = self.going.take().map_or(0, |going| going.seen_ms);
                self.stood = Some((Pause::Stall, since_ms));
                None
            }
        }
    }

    pub fn stood_still(&mut self, now_ms: i64, patience_ms: i64) -> Option<Command> {
        self.stall(now_ms, patience_ms);
        self.stood.take().map(|(why, since_ms)| Command::StoodStill { why, for_ms: now_ms - since_ms })
    }

    fn stall(&mut self, now_ms: i64, patience_ms: i64) -> bool {
        let Some(going) = &self.going else { return false };
        let gap_ms = now_ms - going.seen_ms;
        if gap_ms <= patience_ms / STALL_PARTS * STALL_OF {
            return false;
        }
        let why = if gap_ms > patience_ms { Pause::Sleep } else { Pause::Stall };
        self.stood = Some((why, going.seen_ms));
        self.going = None;
        true
    }

    pub fn befallen(&mut self) -> Vec<Command> {
        let dials = self.run.dials();
        let new = self.run.happened().get(self.told..).unwrap_or_default();
        let commands =
            new.iter().map(|(_, happened)| Command::Befell { happened: *happened, dials }).collect();
        self.told = self.run.happened().len();
        commands
    }
}

/// The run up to the entry's instant, and what was done then.
pub fn go_through(run: &mut Run, entry: Entry) -> Result<(), Fault> {
    while run.now_us() < entry.at_us() {
        run.next_batch()?;
    }
    match entry {
        Entry::Turned { dial, to, .. } => run.turn(dial, to),
        Entry::Answered { .. } | Entry::Said { .. } | Entry::Paused { .. } | Entry::Ended { .. } => Ok(()),
    }
}
