//! What each wire and bed needs from a person, most urgent first.

use crate::moment::Moment;
use crate::record::Record;
use crate::state::bed::{Bed, DueNow, Wire};

const MINUTE_MS: i64 = 60 * 1000;
/// Two clocks of one device differ by less than this unless somebody set one.
const CLOCKS_APART_MS: i64 = 2 * MINUTE_MS;

/// Ranked: earlier variants come first on the bed list, and within one the longer wait.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Attention {
    /// A box or battery is being changed; first where no running box was on the patient.
    BoxChange {
        runs: bool,
        since_ms: i64,
    },
    /// A transport is being made ready, or under way.
    OnTheWay {
        since_ms: i64,
    },
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
            Attention::BoxChange { .. }
            | Attention::OnTheWay { .. }
            | Attention::DialsNotRead { .. }
            | Attention::DueNow { .. }
            | Attention::CheckLeftOpen { .. }
            | Attention::Overdue { .. } => true,
            Attention::DueAt { .. } | Attention::NotYetChecked { .. } | Attention::NoWire => false,
        }
    }
}

pub fn of_wire(wire: &Wire, now: Moment) -> Attention {
    if let Some(open) = &wire.swap {
        return Attention::BoxChange { runs: !open.facts.is_off(), since_ms: open.opened.wall_ms };
    }
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
        Some(last) => by_time(due_at_ms(last, now), now),
        None => Attention::NotYetChecked { added_ms: wire.added.wall_ms },
    }
}

fn by_time(at_ms: i64, now: Moment) -> Attention {
    if at_ms <= now.wall_ms { Attention::Overdue { since_ms: at_ms } } else { Attention::DueAt { at_ms } }
}

/// When the next check is due by today's wall clock. A clock that was set back since does not put it off: within one
/// boot the clock that nobody can set counts, and a wall clock before the end of the check says nothing, so it is due.
pub fn due_at_ms(last: &Record, now: Moment) -> i64 {
    let left_ms = match now.since(last.ended) {
        Some(elapsed_ms) => last.due_ms - last.ended.wall_ms - elapsed_ms,
        None if now.wall_ms < last.ended.wall_ms => 0,
        None => return last.due_ms,
    };
    let by_boot_ms = now.wall_ms + left_ms;
    if by_boot_ms + CLOCKS_APART_MS < last.due_ms { by_boot_ms } else { last.due_ms }
}

/// A first check that was left is not yet done: it waits like one that was never begun.
fn due_now(wire: &Wire, now: Moment) -> Option<Attention> {
    let why = wire.due_now.filter(|why| *why != DueNow::NotFinished || !wire.records.is_empty())?;
    let since = wire.due_since.or(wire.records.last().map(|last| last.ended)).unwrap_or(wire.added);
    Some(Attention::DueNow { since_ms: since.wall_ms.min(now.wall_ms), why })
}

/// The most urgent of its wires.
pub fn of_bed(bed: &Bed, now: Moment) -> Attention {
    let way = bed.transport.as_ref().map(|open| Attention::OnTheWay { since_ms: open.began.wall_ms });
    bed.wires.iter().map(|wire| of_wire(wire, now)).chain(way).min().unwrap_or(Attention::NoWire)
}

/// What needs a person first comes first; alike beds stay in the order in which they were added.
pub fn beds_in_order(beds: &[Bed], now: Moment) -> Vec<&Bed> {
    let mut order: Vec<&Bed> = beds.iter().collect();
    order.sort_by_key(|bed| (of_bed(bed, now), bed.id));
    order
}

/// The most pressing bed whose check has come due, other than these.
pub fn first_due(beds: &[Bed], now: Moment, other_than: Option<u32>) -> Option<&Bed> {
    let is_due =
        |bed: &&Bed| matches!(of_bed(bed, now), Attention::DueNow { .. } | Attention::Overdue { .. });
    beds_in_order(beds, now).into_iter().filter(|bed| Some(bed.id) != other_than).find(is_due)
}

/// Whole minutes since; 0 where the clock has gone back.
pub fn minutes_since(since_ms: i64, now: Moment) -> u32 {
    u32::try_from((now.wall_ms - since_ms).max(0) / MINUTE_MS).unwrap_or(u32::MAX)
}
