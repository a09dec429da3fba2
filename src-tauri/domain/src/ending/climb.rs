//! A threshold that climbs over days: when it will have eaten the margin, if it climbs as fast as the interval
//! of its slope allows.

use crate::check::facts::Found;
use crate::check::setup::Setup;
use crate::record::Record;
use crate::trend::{Point, Trend, theil_sen};

const MINUTE_MS: i64 = 60 * 1000;

/// A climb that can be told from chance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Climb {
    /// µA or µV a day: the median slope, rounded up.
    pub per_day: u32,
    /// Wall clock, ms: the margin may be gone from here on.
    pub gone_ms: i64,
}

/// `None` where the thresholds that compare with this one do not rise as a whole, or nothing is left to eat.
pub fn climb(setup: &Setup<'_>, record: &Record, history: &[Record]) -> Option<Climb> {
    let threshold = i64::from(measured(record)?);
    let trend = trend(record, history)?;
    let minutes = trend.minutes_to(threshold, limit(setup, record, threshold)?)?;
    let gone_ms = record.ended.wall_ms.saturating_add(minutes.saturating_mul(MINUTE_MS));
    Some(Climb { per_day: u32::try_from(trend.slope.per_day()).ok()?, gone_ms })
}

/// Of the thresholds that compare with this one: one unit, direction, pulse width and wire. This one is the newest.
pub fn trend(record: &Record, history: &[Record]) -> Option<Trend> {
    let alike = history.iter().filter(|earlier| earlier.compares_with(record)).chain([record]);
    theil_sen(&alike.filter_map(point).collect::<Vec<_>>())
}

fn point(record: &Record) -> Option<Point> {
    let minute = record.ended.wall_ms.div_euclid(MINUTE_MS);
    Some(Point { minute, value: i64::from(measured(record)?) })
}

/// "At most" says nothing of how low the threshold was.
fn measured(record: &Record) -> Option<u32> {
    matches!(record.capture, Found::Exact | Found::Bracket).then_some(record.capture_micro).flatten()
}

/// The threshold at which the set output is the unit's narrow multiple of it; where it is that narrow already, the
/// output itself, at which capture is lost.
fn limit(setup: &Setup<'_>, record: &Record, threshold: i64) -> Option<i64> {
    let output = i64::from(record.output_micro);
    let narrow = output * 100 / i64::from(setup.rules.narrow_multiple_percent.max(1));
    [narrow, output].into_iter().find(|limit| *limit > threshold)
}
