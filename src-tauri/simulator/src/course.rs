//! How a heart changes: from day to day, after a shock, with potassium. Each factor is stated with its source.

use crate::heart::Heart;
use crate::random::SplitMix64;

const WHOLE_PPM: u64 = 1_000_000;

/// Days after the operation, and what thresholds and signals are then, in parts per million of the first day.
/// Between two days a straight line; after the last the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Course {
    pub threshold: &'static [(u32, u32)],
    pub signal: &'static [(u32, u32)],
}

impl Course {
    /// ATR98, wire on the body of the atrium: 4.96, 6.67, 6.80 mA.
    pub const ATRIAL_BODY: Course =
        Course { threshold: &[(0, 1_000_000), (1, 1_344_758), (2, 1_370_968)], signal: &[(0, 1_000_000)] };
    /// ATR98, wire on the appendage: 5.98, 7.50, 8.59 mA.
    pub const ATRIAL_APPENDAGE: Course =
        Course { threshold: &[(0, 1_000_000), (1, 1_254_181), (2, 1_436_455)], signal: &[(0, 1_000_000)] };
    /// CABG51, ventricle: 1.1 to 1.5 V, R 6.2 to 4.1 mV in four days.
    pub const VENTRICLE: Course =
        Course { threshold: &[(0, 1_000_000), (4, 1_363_636)], signal: &[(0, 1_000_000), (4, 661_290)] };
    /// EGM33, unipolar: R 11.09 to 5.44 mV by day 4 to 6. The threshold stays: not told.
    pub const UNIPOLAR_SIGNAL: Course =
        Course { threshold: &[(0, 1_000_000)], signal: &[(0, 1_000_000), (5, 490_532)] };
    /// FATE236: a rise to day 5, then level. How steep is not told; a doubling is from memory.
    pub const RISING: Course =
        Course { threshold: &[(0, 1_000_000), (5, 2_000_000)], signal: &[(0, 1_000_000), (5, 700_000)] };
}

/// What becomes of a temporary wire (FATE236, 236 patients: 74, 10 and 16 of a hundred).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    RisesToDayFive,
    LostOnDay(u32),
    WorksPastDaySeven,
}

impl Fate {
    pub fn drawn(seed: u64) -> Fate {
        let mut chance = SplitMix64::new(seed);
        match chance.below(100) {
            0..74 => Fate::RisesToDayFive,
            74..84 => Fate::LostOnDay(1 + u32::try_from(chance.below(3)).unwrap_or_default()),
            _ => Fate::WorksPastDaySeven,
        }
    }
}

/// Minutes after an external shock, parts per million. Six-fold at 3 minutes, near its old value after 24 hours
/// (SHOCK, permanent unipolar leads); the way between is from memory.
const AFTER_SHOCK: &[(u32, u32)] = &[(3, 6_000_000), (30, 2_200_000), (240, 1_300_000), (1_440, 1_000_000)];
/// Potassium in tenths of mmol/l. From below 1 V at 4.0 to above 6 V at 7.1 (K65, one patient).
const BY_POTASSIUM: &[(u32, u32)] = &[(40, 1_000_000), (71, 6_500_000)];

impl Heart {
    /// This heart of the first day, `day` days later.
    #[must_use]
    pub fn on_day(&self, course: Course, day: u32) -> Heart {
        let signal = between(course.signal, day);
        let mut later = self.threshold_times(between(course.threshold, day));
        later.signal.own_uv = times(self.signal.own_uv, signal);
        later.signal.own_scatter_uv = times(self.signal.own_scatter_uv, signal).min(later.signal.own_uv);
        later
    }

    #[must_use]
    pub fn after_shock(&self, minutes: u32) -> Heart {
        self.threshold_times(between(AFTER_SHOCK, minutes))
    }

    /// Below 4.0 mmol/l nothing is told: the threshold stays.
    #[must_use]
    pub fn with_potassium(&self, tenths_mmol_l: u32) -> Heart {
        self.threshold_times(between(BY_POTASSIUM, tenths_mmol_l))
    }

    fn threshold_times(&self, ppm: u64) -> Heart {
        let mut later = self.clone();
        later.capture.going_down_micro = times(self.capture.going_down_micro, ppm);
        later.capture.going_up_micro = times(self.capture.going_up_micro, ppm);
        later
    }
}

fn times(value: u32, ppm: u64) -> u32 {
    u32::try_from((u64::from(value) * ppm).div_ceil(WHOLE_PPM)).unwrap_or(u32::MAX)
}

/// On the straight line between two points of the table; beyond its ends as at the end.
fn between(table: &[(u32, u32)], at: u32) -> u64 {
    let before = table.iter().rev().find(|(x, _)| *x <= at);
    let after = table.iter().find(|(x, _)| *x > at);
    match (before, after) {
        (Some((x0, y0)), Some((x1, y1))) => {
            let (span, gone) = (i64::from(x1 - x0), i64::from(at - x0));
            let rise = (i64::from(*y1) - i64::from(*y0)) * gone / span;
            (i64::from(*y0) + rise).unsigned_abs()
        }
        (Some((_, y)), None) | (None, Some((_, y))) => u64::from(*y),
        (None, None) => WHOLE_PPM,
    }
}
