//! The run under way. Its time is the session's, in whole batches: what is asked falls between two of them.

use domain::command::Command;
use domain::practice::{Entry, Pause, Practice, stream_of_run};
use practice::{Fault, Run};
use uuid::Uuid;

use super::{batch, shipped};

const BATCH_MS: i64 = 50;
const BATCH_US: u64 = 50_000;
/// More at once is a patient that stood still.
const STALL_PARTS: i64 = 5;
const STALL_OF: i64 = 2;

pub struct Living {
    pub id: Uuid,
    stream: u32,
    run: Run,
    /// Entries that the run has gone through, and the instant of the last.
    applied: usize,
    last_us: u64,
    going: Option<Going>,
    /// Why, and since when.
    stood: Option<(Pause, i64)>,
    /// The run has gone on beyond this while nobody could see it: there it stands still.
    back_us: Option<u64>,
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
        let run = run_until(open, 0)?;
        let told = run.happened().len();
        let (id, applied) = (open.id, open.entries.len());
        Ok(Living {
            id,
            stream: stream_of_run(id),
            run,
            applied,
            last_us: last_us(open),
            going: None,
            stood: None,
            back_us: None,
            told,
            apart: true,
        })
    }

    pub fn now_us(&self) -> u64 {
        self.back_us.unwrap_or_else(|| self.run.now_us())
    }

    pub fn goes_on(&self) -> bool {
        self.going.is_some()
    }

    /// New turns, and whether it stands still.
    pub fn follow(&mut self, open: &Practice, now_ms: i64) -> Result<(), Fault> {
        for entry in open.entries.iter().skip(self.applied) {
            go_through(&mut self.run, *entry)?;
        }
        (self.applied, self.last_us, self.back_us) = (open.entries.len(), last_us(open), None);
        if let Some(paused) = open.paused {
            if paused.at_us < self.run.now_us() {
                self.run = run_until(open, paused.at_us)?;
            }
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

    pub fn stood_still(&mut self, now_ms: i64, patience_ms: i64, unseen_ms: Option<i64>) -> Option<Command> {
        if !self.stall(now_ms, patience_ms)
            && let Some(unseen_ms) = unseen_ms
        {
            self.go_back(unseen_ms);
        }
        self.stood.take().map(|(why, since_ms)| Command::StoodStill { why, for_ms: now_ms - since_ms })
    }

    /// To where the strip was last on the glass; never to before the learner's last act, nor to before what is
    /// told already.
    fn go_back(&mut self, unseen_ms: i64) {
        let Some(going) = self.going.take() else { return };
        let now_us = self.run.now_us();
        let unseen_us = u64::try_from(unseen_ms).unwrap_or(0).saturating_mul(1_000);
        let seen_us = now_us.saturating_sub(unseen_us) / BATCH_US * BATCH_US;
        let told_us = self.run.happened().last().map_or(0, |(at_us, _)| at_us + BATCH_US);
        let back_us = seen_us.max(self.last_us).max(told_us).min(now_us);
        let behind_ms = i64::try_from((now_us - back_us) / 1_000).unwrap_or(i64::MAX);
        self.back_us = Some(back_us);
        self.stood = Some((Pause::Stall, going.seen_ms.saturating_sub(behind_ms)));
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

/// The run with all its entries, and on to `until_us`.
fn run_until(open: &Practice, until_us: u64) -> Result<Run, Fault> {
    let exercise = shipped(open.staged.exercise)
        .ok_or_else(|| Fault::NotShipped { id: open.staged.exercise.id().to_owned() })?;
    let mut run = Run::new(exercise, open.staged.seed)?;
    for entry in &open.entries {
        go_through(&mut run, *entry)?;
    }
    while run.now_us() < until_us {
        run.next_batch()?;
    }
    Ok(run)
}

fn last_us(open: &Practice) -> u64 {
    open.entries.last().map_or(0, Entry::at_us)
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
