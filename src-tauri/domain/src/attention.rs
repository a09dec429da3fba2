//! What each wire and bed needs from a person, most urgent first.

use crate::moment::Moment;
use crate::state::bed::{Bed, DueNow, Wire};

const MINUTE_MS: i64 = 60 * 1000;

/// Ranked: earlier variants come first on the bed list, and within one the longer wait.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Attention {
    /// Dials were turned in a check that is still open, or a check ended without a reading.
    DialsNotRead {
        since_ms: i64,
    },
    /// Something has happened that makes a check due before its time.
    DueNow {
        since_ms: i64,
        why: DueNow,
    },
    /// A check is open in which no dial has been turned.
    CheckLeftOpen {
        since_ms: i64,
    },
    /// A check is due by its time.
    Overdue {
        since_ms: i64,
    },
    NotYetChecked {
        added_ms: i64,
    },
    DueAt {
        at_ms: i64,
    },
    NoWire,
}

impl Attention {
    /// A person is wanted now.
    pub fn is_urgent(self) -> bool {
        match self {
            Attention::DialsNotRead { .. }
            | Attention::DueNow { .. }
            | Attention::CheckLeftOpen { .. }
            | Attention::Overdue { .. } => true,
            Attention::DueAt { .. } | Attention::NotYetChecked { .. } | Attention::NoWire => false,
        }
    }
}

pub fn of_wire(wire: &Wire, now: Moment) -> Attention {
    let last = wire.records.last();
    if let Some(open) = &wire.check {
        let since_ms = open.opened.wall_ms;
        let turned = open.facts.touched || wire.owed.is_some();
        return if turned {
            Attention::DialsNotRead { since_ms }
        } else {
            Attention::CheckLeftOpen { since_ms }
        };
    }
    if let Some(owed) = wire.owed {
        return Attention::DialsNotRead { since_ms: owed.wall_ms };
    }
    if let Some(due) = due_now(wire, now) {
        return due;
    }
    match last {
        Some(last) if last.due_ms <= now.wall_ms => Attention::Overdue { since_ms: last.due_ms },
        Some(last) => Attention::DueAt { at_ms: last.due_ms },
        None => Attention::NotYetChecked { added_ms: wire.added.wall_ms },
    }
}

/// A first check that was left is not yet done: it waits like one that was never begun.
fn due_now(wire: &Wire, now: Moment) -> Option<Attention> {
    let why = wire.due_now.filter(|why| *why != DueNow::NotFinished || !wire.records.is_empty())?;
    let since = wire.due_since.or(wire.records.last().map(|last| last.ended)).unwrap_or(wire.added);
    Some(Attention::DueNow { since_ms: since.wall_ms.min(now.wall_ms), why })
}

/// The most urgent of its wires.
pub fn of_bed(bed: &Bed, now: Moment) -> Attention {
    bed.wires.iter().map(|wire| of_wire(wire, now)).min().unwrap_or(Attention::NoWire)
}

/// What needs a person first comes first; alike beds stay in the order in which they were added.
pub fn beds_in_order(beds: &[Bed], now: Moment) -> Vec<&Bed> {
    let mut order: Vec<&Bed> = beds.iter().collect();
    order.sort_by_key(|bed| (of_bed(bed, now), bed.id));
    order
}

/// Whole minutes since; 0 where the clock has gone back.
pub fn minutes_since(since_ms: i64, now: Moment) -> u32 {
    u32::try_from((now.wall_ms - since_ms).max(0) / MINUTE_MS).unwrap_or(u32::MAX)
}
