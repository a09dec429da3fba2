//! A moment of an ended run, made again from its exercise, seed and entries: byte for byte what was on the glass.

use domain::practice::{Entry, Staged};
use practice::{Fault, Run};

use super::{batch, shipped};

const BEFORE_US: u64 = 7_000_000;
const AFTER_US: u64 = 4_000_000;

pub fn around(staged: &Staged, entries: &[Entry], at_us: u64, stream: u32) -> Result<Vec<Vec<u8>>, Fault> {
    let exercise =
        shipped(staged.exercise).ok_or_else(|| Fault::NotShipped { id: staged.exercise.id().to_owned() })?;
    let mut run = Run::new(exercise, staged.seed)?;
    // Nothing was on the glass after the end.
    let ended_us = entries.last().map_or(0, Entry::at_us);
    let (from_us, until_us) = (at_us.saturating_sub(BEFORE_US), (at_us + AFTER_US).min(ended_us));
    let mut left = entries.iter().peekable();
    let mut batches = Vec::new();
    while run.now_us() < until_us {
        while let Some(entry) = left.next_if(|entry| entry.at_us() <= run.now_us()) {
            super::living::go_through(&mut run, *entry)?;
        }
        let made = run.next_batch()?;
        if made.at_us() >= from_us {
            batches.push(batch::bytes(stream, &made, &run, batches.is_empty()));
        }
    }
    Ok(batches)
}
