//! Time without beats, and spikes on T waves.

use domain::practice::SpikeOnT;
use simulator::{Chamber, Origin, SpikeOutcome};

use crate::seen::Seen;

/// A shorter pause is not counted: common practice, no source.
const PAUSE_US: u64 = 3_000_000;
/// A spike this long after a ventricular beat falls on its T wave: from memory, wide.
const T_WAVE_US: std::ops::RangeInclusive<u64> = 200_000..=400_000;

#[derive(Debug, Default)]
pub struct Harm {
    pub without_beats_us: u64,
    pub longest_pause_us: u64,
    pub spikes_on_t: Vec<SpikeOnT>,
}

pub fn harm(seen: &Seen<'_>) -> Harm {
    let pauses = pauses(seen);
    Harm {
        without_beats_us: pauses.iter().map(|(_, us)| us).sum(),
        longest_pause_us: pauses.iter().map(|(_, us)| *us).max().unwrap_or(0),
        spikes_on_t: spikes_on_t(seen),
    }
}

/// Beginning and length of each pause of the ventricle, the one still open at the end among them.
pub fn pauses(seen: &Seen<'_>) -> Vec<(u64, u64)> {
    let mut beats: Vec<u64> = seen.beats(Chamber::Ventricle).map(|(at, _)| at).collect();
    beats.insert(0, 0);
    beats.push(seen.ended_us);
    let gaps = beats.windows(2).map(|pair| (pair[0], pair[1].saturating_sub(pair[0])));
    gaps.filter(|(_, us)| *us > PAUSE_US).collect()
}

/// Behind beats that were not paced; a spike that met refractory muscle did nothing, and is listed too.
fn spikes_on_t(seen: &Seen<'_>) -> Vec<SpikeOnT> {
    if seen.first_heart().wire != Chamber::Ventricle {
        return Vec::new();
    }
    let beats: Vec<_> = seen.beats(Chamber::Ventricle).collect();
    let on_t = |at_us: u64| {
        let before = beats.partition_point(|(at, _)| *at < at_us);
        let last = before.checked_sub(1).and_then(|at| beats.get(at));
        last.is_some_and(|(at, origin)| *origin != Origin::Paced && T_WAVE_US.contains(&(at_us - at)))
    };
    let spikes = seen.spikes().filter(|(at, _)| on_t(*at));
    spikes.map(|(at_us, outcome)| SpikeOnT { at_us, captured: outcome == SpikeOutcome::Captured }).collect()
}
