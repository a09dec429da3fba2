//! Where the spike falls that follows missed beats, in sensing: why RATE goes further below own than the offset
//! ("at least 10": CTS, COMP).

use crate::profile::{Position, Profile};

/// A spike so long after a beat is behind its T wave, µs: from memory, as the share below. A fast rhythm's T wave
/// ends sooner; it is given no less. A spike that made a beat comes once more, one set interval later, before a hand
/// can be at the dial: the own beat behind it may be late by what pacing puts off, hence 20 ms of room.
const BEHIND_T_US: u64 = 440_000;
/// In a slow rhythm the T wave ends later: two fifths of the own interval.
const BEHIND_T_FIFTHS: u64 = 2;
/// More missed beats than this before one spike are not reckoned with: the own rate is typed in whole beats.
const MISSED_MOST: u64 = 4;

/// The highest RATE at or below `highest` whose spike comes late, if the dial has one.
pub fn late_rate(profile: &Profile, highest: Position, own_slowest: u8, own_fastest: u8) -> Option<Position> {
    (0..=highest).rev().find(|rate| spike_comes_late(profile.rate_at(*rate), own_slowest, own_fastest))
}

/// The timer runs from the last beat that was marked. At this RATE its spike comes late behind the last missed
/// beat and before the next: on excitable muscle and on no T wave, so that the first spike tells whether it
/// captures. Each own interval may be any from the slowest to the fastest, and a rate that was typed is up to half
/// a beat a minute off: where they lie far apart, no RATE is late.
pub fn spike_comes_late(rate: u16, own_slowest: u8, own_fastest: u8) -> bool {
    let set_us = 60_000_000 / u64::from(rate.max(1));
    let longest_us = 120_000_000_u64.div_ceil(2 * u64::from(own_slowest.max(1)) - 1);
    let shortest_us = 120_000_000 / (2 * u64::from(own_fastest) + 1);
    let late_us = BEHIND_T_US.max(longest_us * BEHIND_T_FIFTHS / 5);
    (1..=MISSED_MOST)
        .any(|missed| missed * longest_us + late_us <= set_us && set_us <= (missed + 1) * shortest_us)
}
