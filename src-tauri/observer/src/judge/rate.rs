//! The own rate, as the monitor counts it.

use simulator::Chamber;

use crate::strip::{Look, Strip};

/// Slowest and fastest, beats a minute, of the own beats of the last 30 s; equal where they are regular.
/// `None` before there are three.
pub fn own_rate(strip: &Strip, wire: Chamber, now_us: u64) -> Option<(u64, u64)> {
    const LOOK_BACK_US: u64 = 30_000_000;
    let beats = strip.beats(wire, now_us.saturating_sub(LOOK_BACK_US));
    let intervals: Vec<u64> = beats
        .windows(2)
        .filter(|pair| pair.iter().all(|(_, look)| *look == Look::Own))
        .map(|pair| pair[1].0 - pair[0].0)
        .collect();
    let (shortest, longest) = (*intervals.iter().min()?, *intervals.iter().max()?);
    let (slowest, fastest) = (per_minute(longest), per_minute(shortest));
    if intervals.len() < 2 {
        return None;
    }
    Some(if fastest - slowest <= REGULAR {
        (average(&intervals), average(&intervals))
    } else {
        (slowest, fastest)
    })
}

/// What the monitor shows where own beats never come two in a row: all beats, paced or not.
pub fn shown_rate(strip: &Strip, wire: Chamber, now_us: u64) -> Option<u64> {
    const LOOK_BACK_US: u64 = 10_000_000;
    let beats = strip.beats(wire, now_us.saturating_sub(LOOK_BACK_US));
    let (first, last) = (beats.first()?.0, beats.last()?.0);
    (beats.len() > 2).then(|| per_minute((last - first) / (beats.len() as u64 - 1)))
}

/// A monitor calls a rhythm regular that differs by no more, beats a minute.
const REGULAR: u64 = 4;

fn average(intervals: &[u64]) -> u64 {
    per_minute(intervals.iter().sum::<u64>() / intervals.len() as u64)
}

fn per_minute(interval_us: u64) -> u64 {
    (60_000_000 + interval_us / 2) / interval_us.max(1)
}
