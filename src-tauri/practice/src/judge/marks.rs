//! What the generator made of the heart's own beats.

use simulator::{Chamber, MarkKind, Origin, What};

use crate::seen::Seen;

/// A mark belongs to a beat that began so shortly before it: in the ventricle, and with the QRS behind a P wave.
const MARKED_WITHIN_US: u64 = 60_000;
const MARKED_WITH_QRS_US: u64 = 250_000;
/// So close behind a spike the generator looks away.
const LOOKS_AWAY_US: u64 = 300_000;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Marked {
    Yes,
    No,
    LookedAway,
}

/// Each own beat of the wire's chamber.
pub fn own_beats(seen: &Seen<'_>) -> Vec<(u64, Marked)> {
    let within_us = match seen.first_heart().wire {
        Chamber::Atrium => MARKED_WITH_QRS_US,
        Chamber::Ventricle => MARKED_WITHIN_US,
    };
    let spikes: Vec<u64> = seen.spikes().map(|(at, _)| at).collect();
    let marks = sense_marks(seen);
    let marked = |at: u64| match () {
        () if among(&marks, at, at + within_us) => Marked::Yes,
        () if among(&spikes, at.saturating_sub(LOOKS_AWAY_US), at + within_us) => Marked::LookedAway,
        () => Marked::No,
    };
    let own = seen.wire_beats().filter(|(_, origin)| *origin == Origin::Own);
    own.map(|(at, _)| (at, marked(at))).collect()
}

/// One of these times, in order, lies from here to there.
fn among(times: &[u64], from_us: u64, until_us: u64) -> bool {
    let next = times.partition_point(|at| *at < from_us);
    times.get(next).is_some_and(|at| *at <= until_us)
}

fn sense_marks(seen: &Seen<'_>) -> Vec<u64> {
    let sense = seen.events.iter().filter(|event| match event.what {
        What::Mark(mark) => mark.kind != MarkKind::Pace,
        What::Beat { .. }
        | What::Spike { .. }
        | What::Pulse { .. }
        | What::NoPulse
        | What::VentricularFibrillation => false,
    });
    sense.map(|event| event.at_us).collect()
}
