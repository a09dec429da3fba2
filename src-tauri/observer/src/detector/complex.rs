//! A QRS complex: steeper than any other wave; a paced one wide and downward behind its spike.

use simulator::strip::SAMPLE_US;

use super::trace::Trace;
use crate::strip::Look;

/// 10 ms.
const STEEP_OVER: usize = 5;
const STEEP_UV: i32 = 160;
/// A paced complex shows itself this soon behind its spike, and is over after [`PACED_WIDE`].
const PACED_SHOWS: usize = 35;
pub const PACED_WIDE: usize = 88;
/// Deepest there; compared with where it is over.
const DEEP: std::ops::RangeInclusive<usize> = 40..=70;
const DEEP_UV: i32 = 220;
/// An upright complex has its top this soon, and is over after [`WIDE`].
const TOP_WITHIN: usize = 40;
pub const WIDE: usize = 60;
const TALL_UV: i32 = 400;
/// From the beginning of a narrow complex to its top.
const TOP_AFTER_US: u64 = 38_000;
/// From the beginning of a wide upright complex to its top.
const WIDE_TOP_AFTER_US: u64 = 65_000;
/// Wider than this at half its height: no own beat.
const NARROW: usize = 20;

/// Wide upright complexes are taller than any wave of fibrillation.
const WIDE_TALL_UV: i32 = 1_050;
/// Of a trace that beats some samples are level, or one stands far out.
const LOOKED_BACK: usize = 150;
const LOOKED_AHEAD: usize = 85;
const LEVEL_UV: i32 = 3;
const LEVEL_LEAST: usize = 6;
const FAR_OUT_UV: i32 = 950;

/// Never level and never tall: the ventricle fibrillates.
pub fn is_fibrillating(ecg: &Trace, at: usize) -> bool {
    let around = || at.saturating_sub(LOOKED_BACK)..at + LOOKED_AHEAD;
    let level = |sample: &usize| (ecg.at(sample + STEEP_OVER) - ecg.at(*sample)).abs() <= LEVEL_UV;
    around().filter(level).count() < LEVEL_LEAST && around().all(|sample| ecg.at(sample).abs() < FAR_OUT_UV)
}

pub fn is_steep(ecg: &Trace, at: usize) -> bool {
    (ecg.at(at + STEEP_OVER) - ecg.at(at)).abs() > STEEP_UV
}

pub fn is_paced(ecg: &Trace, spike: usize, at: usize) -> bool {
    let shows = spike <= at + STEEP_OVER && at <= spike + PACED_SHOWS;
    let deep: i32 = DEEP.map(|after| ecg.at(spike + after)).sum();
    let parts = i32::try_from(DEEP.count()).unwrap_or(1);
    shows && ecg.at(spike + PACED_WIDE) - deep / parts > DEEP_UV
}

/// When it began, µs, and how it looks.
pub fn upright(ecg: &Trace, at: usize) -> Option<(u64, Look)> {
    let top = (at..at + TOP_WITHIN).max_by_key(|sample| (ecg.at(*sample), usize::MAX - sample))?;
    let (height, foot) = (ecg.at(top), ecg.at(at));
    if height - foot < TALL_UV {
        return None;
    }
    let half = foot + (height - foot) / 2;
    let wide = (at..at + WIDE).filter(|sample| ecg.at(*sample) > half).count();
    let (look, after_us) =
        if wide <= NARROW { (Look::Own, TOP_AFTER_US) } else { (Look::Extra, WIDE_TOP_AFTER_US) };
    if look == Look::Extra && height - foot < WIDE_TALL_UV {
        return None;
    }
    Some((top_us(ecg, top).saturating_sub(after_us), look))
}

/// The top of the curve through the three highest samples.
fn top_us(ecg: &Trace, top: usize) -> u64 {
    let (before, here, after) = (ecg.at(top - 1), ecg.at(top), ecg.at(top + 1));
    let bend = i64::from(before - 2 * here + after);
    let shift_us =
        if bend == 0 { 0 } else { i64::from(before - after) * SAMPLE_US.cast_signed() / (2 * bend) };
    (top as u64 * SAMPLE_US).saturating_add_signed(shift_us)
}
