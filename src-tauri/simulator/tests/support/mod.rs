//! Ways to read an event list, shared by the tests.
#![allow(dead_code, reason = "each test binary uses its own part of this file")]
#![allow(clippy::expect_used, reason = "a test's own mistake may stop the test")]

pub mod any_heart;
pub mod naive;

use simulator::{Chamber, Dials, Event, Generator, Heart, MarkKind, Origin, Patient, SpikeOutcome, What};

pub const SECOND: u64 = 1_000_000;

pub fn dials(rate_per_min: u16, output_micro: u32, sensitivity_uv: u32) -> Dials {
    Dials { rate_per_min, output_micro, sensitivity_uv: Some(sensitivity_uv) }
}

pub fn asynchronous(rate_per_min: u16, output_micro: u32) -> Dials {
    Dials { rate_per_min, output_micro, sensitivity_uv: None }
}

pub fn patient(heart: Heart, generator: Generator) -> Patient {
    Patient::new(heart, generator, 1).expect("the test's heart is possible")
}

pub fn ventricular(heart: Heart, dials: Dials) -> Patient {
    patient(heart, Generator::ventricular(dials))
}

pub fn beats(events: &[Event], chamber: Chamber, origin: Origin) -> Vec<u64> {
    let wanted = What::Beat { chamber, origin };
    times(events, |what| what == wanted)
}

pub fn spikes(events: &[Event]) -> Vec<u64> {
    times(events, |what| matches!(what, What::Spike { .. }))
}

pub fn marks(events: &[Event], kind: MarkKind) -> Vec<u64> {
    times(events, |what| matches!(what, What::Mark(mark) if mark.kind == kind))
}

pub fn outcomes(events: &[Event]) -> Vec<SpikeOutcome> {
    let shown = |event: &Event| spike(event).map(|(_, outcome)| outcome);
    events.iter().filter_map(shown).collect()
}

/// Whether the monitor shows the spike, and what came of it.
pub fn spike(event: &Event) -> Option<(bool, SpikeOutcome)> {
    let What::Spike { visible, outcome } = event.what else {
        return None;
    };
    Some((visible, outcome))
}

pub fn letters(event: &Event) -> Option<&'static str> {
    let What::Mark(mark) = event.what else {
        return None;
    };
    Some(mark.letters())
}

/// Refuses to judge a rhythm by fewer than three beats: what holds for all of none says nothing.
pub fn intervals(times: &[u64]) -> impl Iterator<Item = u64> {
    assert!(times.len() >= 3, "too few to judge: {times:?}");
    gaps(times)
}

pub fn gaps(times: &[u64]) -> impl Iterator<Item = u64> {
    times.windows(2).map(|pair| pair[1] - pair[0])
}

fn times(events: &[Event], wanted: impl Fn(What) -> bool) -> Vec<u64> {
    events.iter().filter(|event| wanted(event.what)).map(|event| event.at_us).collect()
}
