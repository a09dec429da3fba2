//! From the tablet's record of a wire to what a code says of it.

use crate::check::facts::{Found, Own};
use crate::handover::figure::Figure;
use crate::handover::history::newest_handed;
use crate::handover::stamp::{Place, minute_of};
use crate::moment::Moment;
use crate::record::Record;
use crate::state::bed::Wire;
use crate::units::{MICRO_PER_MILLI, OutputUnit, shortest};

use super::{
    Capture, Check, DialsAt, MOST_CHECKS, Mention, Next, Origin, OwnBeats, Sensing, Summary, WireFacts,
};

/// Why there is nothing to hand over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoSummary {
    /// No check of this wire has ended.
    NoCheck,
    /// A check is open: the dials are being turned.
    CheckOpen,
    /// Since that check the dials were read to stand otherwise than it left them.
    DialsElsewhere,
    /// A newer check came from another tablet: this one's own is old.
    HandedOverSince,
    /// The record holds a figure that no dial prints, or a time zone that does not exist.
    Unreadable,
}

impl Summary {
    /// The check that is handed over.
    ///
    /// # Errors
    /// Why none is.
    pub fn last(wire: &Wire) -> Result<&Record, NoSummary> {
        if wire.check.is_some() {
            return Err(NoSummary::CheckOpen);
        }
        if wire.standing.is_some() {
            return Err(NoSummary::DialsElsewhere);
        }
        let record = wire.records.last().ok_or(NoSummary::NoCheck)?;
        if newest_handed(wire).is_some() {
            return Err(NoSummary::HandedOverSince);
        }
        Ok(record)
    }

    /// The newest check of the wire and those before it, as known at `now`. Checks on a patient and practice
    /// never stand in one summary.
    ///
    /// # Errors
    /// See `NoSummary`.
    pub fn of(wire: &Wire, now: Moment) -> Result<Summary, NoSummary> {
        let record = Self::last(wire)?;
        let same = wire.records.iter().rev().filter(|earlier| earlier.practice == record.practice);
        let checks: Option<Vec<Check>> = same.take(MOST_CHECKS).map(Check::of).collect();
        let mut checks = checks.ok_or(NoSummary::Unreadable)?.into_iter();
        let newest = checks.next().ok_or(NoSummary::NoCheck)?;
        Ok(Summary {
            origin: if record.practice { Origin::Practice } else { Origin::Care },
            wire: WireFacts { chamber: wire.chamber, kind: wire.kind, polarity: wire.polarity },
            place: Place::new(record.ended.offset_min).ok_or(NoSummary::Unreadable)?,
            age_min: minute_of(now.wall_ms).saturating_sub(minute_of(record.ended.wall_ms)),
            newest: Check { read_later: read_later(wire, record), ..newest },
            next: if wire.due_now.is_some() { Next::Now } else { next(record) },
            earlier: checks.collect(),
            left_out: 0,
            others: Vec::new(),
        })
    }
}

fn next(record: &Record) -> Next {
    if record.due_ms <= record.ended.wall_ms { Next::Now } else { Next::At(minute_of(record.due_ms)) }
}

/// The record is not changed by a reading that came after it.
fn read_later(wire: &Wire, record: &Record) -> Option<u32> {
    let since = wire.read_since.filter(|_| !record.read && wire.owed.is_none())?;
    Some(minute_of(since.wall_ms).saturating_sub(minute_of(record.ended.wall_ms)))
}

impl Check {
    /// `None` when the record holds a figure that no dial prints.
    pub fn of(record: &Record) -> Option<Check> {
        let [a, b, c, d, ..] = *record.id.as_bytes();
        let (dials, capture) = (maybe(record.stays.as_ref(), DialsAt::of)?, capture(record)?);
        let says_output = dials.is_some() || capture != Capture::NotTested;
        Some(Check {
            id: u32::from_be_bytes([a, b, c, d]),
            example_rules: record.example_rules,
            ended: minute_of(record.ended.wall_ms),
            read: record.read,
            read_later: None,
            dials,
            unit: if says_output { record.unit } else { OutputUnit::MilliAmp },
            capture,
            margin: maybe(record.multiple.as_deref(), Figure::new)?,
            sensing: sensing(record)?,
            own: own(record)?,
            pulse_width: Figure::new(&shortest(record.pulse_width_us, MICRO_PER_MILLI)),
            flags: record.flags.iter().filter_map(Mention::of).collect(),
        })
    }
}

fn capture(record: &Record) -> Option<Capture> {
    let at = maybe(record.capture_text.as_deref(), Figure::new)?;
    let low = maybe(record.capture_low_text.as_deref(), Figure::new)?;
    let held = maybe(record.held_going_down(), Figure::new)?;
    Some(match (record.capture, at, low) {
        (Found::Nothing, ..) => held.map_or(Capture::NotTested, |at| Capture::Held { at }),
        (Found::Exact, Some(at), _) => Capture::Exact { at },
        (Found::Bracket, Some(high), Some(low)) => Capture::Bracket { low, high },
        (Found::AtMost | Found::Bracket, Some(at), _) => Capture::AtMost { at },
        _ => Capture::NotTested,
    })
}

fn sensing(record: &Record) -> Option<Sensing> {
    let at = maybe(record.sensing_text.as_deref(), Figure::new)?;
    Some(match (record.sensing, at) {
        (Found::Exact, Some(at)) => Sensing::Exact { at },
        (Found::AtLeast, Some(at)) => Sensing::AtLeast { at },
        (Found::SeenWhereItStood, Some(at)) => Sensing::AsFound { at },
        (Found::SeenAtNone, _) => Sensing::NoneSaw,
        _ => Sensing::NotTested,
    })
}

fn own(record: &Record) -> Option<OwnBeats> {
    Some(match (record.own, record.facts.own) {
        (Some((slowest, fastest)), Own::Cleared) => OwnBeats::ThenLost { slowest, fastest },
        (Some((slowest, fastest)), Own::Shown | Own::NotSeen | Own::NotLooked) => {
            OwnBeats::Seen { slowest, fastest }
        }
        (None, _) if record.facts.own_was_seen() => OwnBeats::Unmeasured,
        (None, Own::NotSeen) => OwnBeats::NoneSeen { limit: Figure::new(&record.limit)? },
        (None, Own::NotLooked | Own::Shown | Own::Cleared) => OwnBeats::NotLooked,
    })
}

/// What is absent may stay absent; what is present must be sound.
fn maybe<A, B>(given: Option<A>, read: impl FnOnce(A) -> Option<B>) -> Option<Option<B>> {
    match given {
        None => Some(None),
        Some(value) => read(value).map(Some),
    }
}
