//! How a threshold moves over days: the Theil-Sen slope (the median of the slopes between all pairs) and its
//! interval (Sen 1968, equation 2.6), so that one odd check does not make a trend.
//!
//! Whole numbers throughout: a slope is an exact fraction, since it may bring a check forward.

use std::cmp::Ordering;

/// The newest points are looked at, no more.
pub const MOST_POINTS: usize = 64;
/// From this many points the interval is narrower than the range of all slopes and says something.
pub const FEWEST_POINTS: usize = 5;

/// One result in time. Only results that compare stand in one series: one unit, direction and pulse width.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Point {
    /// Since any fixed instant.
    pub minute: i64,
    /// µA or µV.
    pub value: i64,
}

/// Micro-units per minute, as an exact fraction.
#[derive(Clone, Copy, Debug)]
pub struct Slope {
    rise: i128,
    /// Minutes, above 0.
    run: i128,
}

/// The median slope, and the interval that holds the true one in 95 of 100 such series.
#[derive(Clone, Copy, Debug)]
pub struct Trend {
    pub slope: Slope,
    pub low: Slope,
    pub high: Slope,
    pub points: usize,
}

/// Of the newest `MOST_POINTS`, oldest first. `None` without two different times.
pub fn theil_sen(points: &[Point]) -> Option<Trend> {
    let points = &points[points.len().saturating_sub(MOST_POINTS)..];
    let mut slopes = pairs(points);
    slopes.sort_by(Slope::order);
    let (low, high) = interval(points, slopes.len())?;
    Some(Trend { slope: median(&slopes)?, low: slopes[low], high: slopes[high], points: points.len() })
}

fn pairs(points: &[Point]) -> Vec<Slope> {
    let later = |at: usize| points.iter().skip(at + 1);
    let pairs = points.iter().enumerate().flat_map(|(at, a)| later(at).map(move |b| (a, b)));
    pairs.filter_map(|(a, b)| Slope::between(*a, *b)).collect()
}

fn median(sorted: &[Slope]) -> Option<Slope> {
    let (low, high) = (sorted.get(sorted.len().checked_sub(1)? / 2)?, sorted.get(sorted.len() / 2)?);
    Some(Slope { rise: low.rise * high.run + high.rise * low.run, run: 2 * low.run * high.run })
}

/// Indices into the sorted slopes. `None` without slopes.
fn interval(points: &[Point], slopes: usize) -> Option<(usize, usize)> {
    let last = slopes.checked_sub(1)?;
    let width = width(points);
    // Rounded to the nearest whole index; half the width is never whole, but where it is 0.
    let high = (slopes + 1 + width) / 2;
    let low = (slopes + 1).saturating_sub(width + usize::from(width > 0)) / 2;
    Some((low.saturating_sub(1).min(last), high.min(last)))
}

/// z·σ, rounded down: z² = 3.841458820694124 for 95 %; σ² of Kendall's statistic with ties (Sen 1968).
fn width(points: &[Point]) -> usize {
    const Z_SQUARED: u128 = 3_841_458_820_694_124;
    const SCALE: u128 = 1_000_000_000_000_000;
    let weight = |count: u128| count * count.saturating_sub(1) * (2 * count + 5);
    let ties = |values: Vec<i64>| repeats(values).into_iter().map(weight).sum::<u128>();
    let all = weight(points.len() as u128);
    let tied =
        ties(points.iter().map(|p| p.minute).collect()) + ties(points.iter().map(|p| p.value).collect());
    let squared = all.saturating_sub(tied) * Z_SQUARED / (18 * SCALE);
    usize::try_from(squared.isqrt()).unwrap_or(usize::MAX / 4)
}

/// How often each value that stands there more than once does so.
fn repeats(mut values: Vec<i64>) -> Vec<u128> {
    values.sort_unstable();
    let runs = values.chunk_by(|a, b| a == b).map(|run| run.len() as u128);
    runs.filter(|count| *count > 1).collect()
}

impl Slope {
    /// `None` at one and the same time.
    fn between(a: Point, b: Point) -> Option<Slope> {
        let run = i128::from(b.minute) - i128::from(a.minute);
        let rise = i128::from(b.value) - i128::from(a.value);
        (run != 0).then(|| Slope { rise: rise * run.signum(), run: run.abs() })
    }

    fn order(&self, other: &Slope) -> Ordering {
        (self.rise * other.run).cmp(&(other.rise * self.run))
    }

    /// Micro-units over minutes; the minutes are above 0.
    pub fn fraction(&self) -> (i128, i128) {
        (self.rise, self.run)
    }

    pub fn is_rising(&self) -> bool {
        self.rise > 0
    }

    pub fn is_falling(&self) -> bool {
        self.rise < 0
    }

    /// Micro-units per day, rounded away from 0: never shown smaller than it is.
    pub fn per_day(&self) -> i64 {
        let day = self.rise * 24 * 60;
        let away = (day.abs() + self.run - 1) / self.run * day.signum();
        i64::try_from(away).unwrap_or(if away < 0 { i64::MIN } else { i64::MAX })
    }

    /// Minutes until a value rises to `limit`, rounded down; 0 when it is there, `None` when it never will be.
    pub fn minutes_to(&self, value: i64, limit: i64) -> Option<i64> {
        let left = i128::from(limit) - i128::from(value);
        if left <= 0 {
            return Some(0);
        }
        self.is_rising().then(|| i64::try_from(left * self.run / self.rise).unwrap_or(i64::MAX))
    }
}

impl Trend {
    /// The whole interval rises, on enough points to say so.
    pub fn rises(&self) -> bool {
        self.points >= FEWEST_POINTS && self.low.is_rising()
    }

    /// Minutes until `limit` is reached if the threshold climbs as fast as the interval allows: the unsafe side.
    /// `None` without a rise that can be told from chance. May only bring a check forward.
    pub fn minutes_to(&self, value: i64, limit: i64) -> Option<i64> {
        self.rises().then(|| self.high.minutes_to(value, limit)).flatten()
    }
}
