//! How the capture threshold moves over days, in words.

use crate::contract::Row;
use crate::ending::trend;
use crate::record::Record;
use crate::say::Say;
use crate::state::bed::Wire;
use crate::trend::{FEWEST_POINTS, Slope, Trend};
use crate::units::shortest;
use crate::view::figures::output_unit;
use crate::view::pieces::{boxed, row as plain_row};

/// `None` before the first check that found a threshold.
pub fn row(wire: &Wire) -> Option<Row<Say>> {
    let (last, before) = wire.alike().split_last()?;
    last.direction()?;
    let trend = trend(last, before);
    let points = trend.as_ref().map_or(1, |trend| trend.points);
    let enough = trend.filter(|trend| trend.points >= FEWEST_POINTS);
    let value = enough.map_or(Say::SlopeTooFew, |trend| moves(&trend, last));
    let count = u32::try_from(points).unwrap_or(u32::MAX);
    let fewest = u32::try_from(FEWEST_POINTS).unwrap_or(u32::MAX);
    Some(plain_row(Say::RowSlope, value, Some(Say::SlopeOf { count, fewest })))
}

/// Told from chance by the whole interval, or not at all.
fn moves(trend: &Trend, last: &Record) -> Say {
    let a_day = |slope: &Slope| {
        let micro = u32::try_from(slope.per_day().unsigned_abs()).unwrap_or(u32::MAX);
        let figure = shortest(micro.div_ceil(last.unit.scale() / 100), 100);
        boxed(Say::FigureUnit { figure, unit: boxed(output_unit(last.unit)) })
    };
    if trend.low.is_rising() {
        Say::SlopeRises { per_day: a_day(&trend.slope), most: a_day(&trend.high) }
    } else if trend.high.is_falling() {
        Say::SlopeFalls { per_day: a_day(&trend.slope) }
    } else {
        Say::SlopeSteady
    }
}
