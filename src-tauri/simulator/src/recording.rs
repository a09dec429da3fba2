//! A recorded rhythm: the beats of one chamber, with the intervals between them and the signals they left.

use crate::fault::Fault;
use crate::heart::possible;

/// One beat of a recording.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RecordedBeat {
    /// From the beginning of the recording.
    pub at_us: u64,
    /// What the wire met, where that was recorded too.
    pub signal_uv: Option<u32>,
}

/// Beats in their order. When the last has come, the first follows it after the median of the recorded intervals:
/// what lay between the end of a recording and its beginning nobody knows, and this interval is one of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Recording {
    beats: Vec<RecordedBeat>,
    join_us: u64,
    fastest_us: u64,
    slowest_us: u64,
    /// The smallest and the largest, where each beat has its own.
    signals_uv: Option<(u32, u32)>,
}

/// Why beats are no recording; the first of them is number 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoRhythm {
    TooFew {
        beats: usize,
    },
    TooLong,
    /// It comes too soon, too late, or before the one before it; the first, too long after the beginning.
    Apart {
        beat: usize,
        at_us: u64,
        before_us: u64,
    },
    /// The first of the two kinds that differs: some beats came with their signal, some without. Their smallest and
    /// largest would be of some beats only.
    SomeSignals {
        beat: usize,
    },
    Signal(Fault),
}

impl Recording {
    /// Fewer are no rhythm.
    pub const BEATS_LEAST: usize = 3;
    /// Nobody practises longer at a stretch.
    pub const LONGEST_US: u64 = 4 * 3_600_000_000;
    /// From beat to beat, as for every rhythm.
    pub const NEAREST_US: u32 = possible::FASTEST_US;
    pub const FARTHEST_US: u32 = possible::SLOWEST_US;

    /// # Errors
    /// Too few beats, beats too near to each other or too far apart, too long a recording, a signal that cannot be,
    /// or a signal with some beats only.
    pub fn new(beats: Vec<RecordedBeat>) -> Result<Recording, NoRhythm> {
        if beats.len() < Self::BEATS_LEAST {
            return Err(NoRhythm::TooFew { beats: beats.len() });
        }
        if beats.last().is_some_and(|last| last.at_us > Self::LONGEST_US) {
            return Err(NoRhythm::TooLong);
        }
        in_their_order(&beats)?;
        let has_signal = |beat: &RecordedBeat| beat.signal_uv.is_some();
        let some = beats.windows(2).position(|pair| has_signal(&pair[0]) != has_signal(&pair[1]));
        if let Some(last_alike) = some {
            return Err(NoRhythm::SomeSignals { beat: last_alike + 2 });
        }
        for signal_uv in beats.iter().filter_map(|beat| beat.signal_uv) {
            possible::signal("recorded.signal_uv", signal_uv).map_err(NoRhythm::Signal)?;
        }
        let mut intervals: Vec<u64> =
            beats.windows(2).map(|pair| pair[1].at_us.saturating_sub(pair[0].at_us)).collect();
        intervals.sort_unstable();
        let at = |place: usize| intervals.get(place).copied().unwrap_or_default();
        let (join_us, fastest_us) = (at((intervals.len() - 1) / 2), at(0));
        let slowest_us = at(intervals.len() - 1);
        let signals_uv = range(&beats);
        Ok(Recording { beats, join_us, fastest_us, slowest_us, signals_uv })
    }

    pub fn beats(&self) -> &[RecordedBeat] {
        &self.beats
    }

    /// The shortest interval; the one that joins the end to the beginning is never shorter.
    pub fn fastest_us(&self) -> u64 {
        self.fastest_us
    }

    pub fn slowest_us(&self) -> u64 {
        self.slowest_us
    }

    /// The smallest and the largest signal, where each beat has its own.
    pub fn signals_uv(&self) -> Option<(u32, u32)> {
        self.signals_uv
    }

    pub(crate) fn first_us(&self) -> u64 {
        self.beats.first().map_or(0, |beat| beat.at_us)
    }

    /// From the beat before it to the beat at this place.
    pub(crate) fn before_us(&self, place: usize) -> u64 {
        let before = place.checked_sub(1).and_then(|before| self.beats.get(before));
        before.zip(self.beats.get(place)).map_or(self.join_us, |(before, beat)| beat.at_us - before.at_us)
    }

    pub(crate) fn signal_uv(&self, place: usize) -> Option<u32> {
        self.beats.get(place).and_then(|beat| beat.signal_uv)
    }

    /// The place of the beat that follows.
    pub(crate) fn after(&self, place: usize) -> usize {
        if place + 1 < self.beats.len() { place + 1 } else { 0 }
    }
}

fn in_their_order(beats: &[RecordedBeat]) -> Result<(), NoRhythm> {
    let befores = std::iter::once(0).chain(beats.iter().map(|beat| beat.at_us));
    for (beat, (before_us, RecordedBeat { at_us, .. })) in (1..).zip(befores.zip(beats)) {
        // The first may come at once.
        let nearest = if beat == 1 { 0 } else { u64::from(Recording::NEAREST_US) };
        let within = nearest..=u64::from(Recording::FARTHEST_US);
        if !at_us.checked_sub(before_us).is_some_and(|apart| within.contains(&apart)) {
            return Err(NoRhythm::Apart { beat, at_us: *at_us, before_us });
        }
    }
    Ok(())
}

fn range(beats: &[RecordedBeat]) -> Option<(u32, u32)> {
    let signals: Option<Vec<u32>> = beats.iter().map(|beat| beat.signal_uv).collect();
    let signals = signals?;
    signals.iter().min().copied().zip(signals.iter().max().copied())
}
