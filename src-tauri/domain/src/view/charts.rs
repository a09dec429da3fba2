//! A quantity over days: geometry from 0 to 1, made here so that the page computes nothing.

use super::pieces::{boxed, wire_name};
use super::summary::unit;
use crate::contract::Chart;
use crate::record::Record;
use crate::say::{Say, figure};
use crate::state::bed::Wire;

/// Points drawn at most: the newest.
const POINTS_MOST: usize = 20;
/// On the bed list, where many charts share one view.
const SMALL_POINTS_MOST: usize = 8;
/// Room above the highest value.
const HEADROOM_PERCENT: u64 = 115;

struct Series<'a> {
    /// Wall clock and value, oldest first.
    points: Vec<(i64, u32)>,
    first: &'a str,
    last: &'a str,
    set: Option<(u32, String)>,
}

/// Capture thresholds that compare with the newest one; `None` below two.
pub fn capture(wire: &Wire) -> Option<Chart<Say>> {
    let last = newest_captured(wire)?;
    let title = Say::ChartCapture { unit: unit(last) };
    Some(draw(&capture_series(wire, last, POINTS_MOST)?, title, *unit(last)))
}

/// The same, small, named by its wire.
pub fn small_capture(wire: &Wire) -> Option<Chart<Say>> {
    let last = newest_captured(wire)?;
    let title = Say::ChartCaptureOf { wire: boxed(wire_name(wire)), unit: unit(last) };
    Some(draw(&capture_series(wire, last, SMALL_POINTS_MOST)?, title, *unit(last)))
}

/// Sensing thresholds found on this wire; `None` below two.
pub fn signal(wire: &Wire) -> Option<Chart<Say>> {
    let measured: Vec<&Record> = wire.records.iter().filter(|r| r.signal_uv().is_some()).collect();
    let newest = newest(&measured, POINTS_MOST);
    let (first, last) = (newest.first()?, newest.last()?);
    let series = Series {
        points: newest.iter().filter_map(|r| Some((r.ended.wall_ms, r.signal_uv()?))).collect(),
        first: first.sensing_text.as_deref()?,
        last: last.sensing_text.as_deref()?,
        set: last.mv_uv.zip(last.stays.as_ref().and_then(|stays| stays.mv.clone())),
    };
    (series.points.len() >= 2).then(|| draw(&series, Say::ChartSignal, Say::MilliVolt))
}

fn newest_captured(wire: &Wire) -> Option<&Record> {
    wire.records.iter().rev().find(|record| record.direction().is_some())
}

fn newest<'a>(records: &[&'a Record], most: usize) -> Vec<&'a Record> {
    records.iter().skip(records.len().saturating_sub(most)).copied().collect()
}

fn capture_series<'a>(wire: &'a Wire, last: &'a Record, most: usize) -> Option<Series<'a>> {
    let alike: Vec<&Record> = wire.records.iter().filter(|record| record.compares_with(last)).collect();
    let drawn = newest(&alike, most);
    let points: Vec<_> = drawn.iter().filter_map(|r| Some((r.ended.wall_ms, r.capture_micro?))).collect();
    (points.len() >= 2).then_some(())?;
    Some(Series {
        points,
        first: drawn.first()?.capture_text.as_deref()?,
        last: last.capture_text.as_deref()?,
        set: last.stays.as_ref().map(|stays| (last.output_micro, stays.output.clone())),
    })
}

fn draw(series: &Series<'_>, title: Say, unit: Say) -> Chart<Say> {
    let set = series.set.as_ref();
    let values = series.points.iter().map(|(_, value)| *value).chain(set.map(|(value, _)| *value));
    let top = u64::from(values.max().unwrap_or(1)).max(1) * HEADROOM_PERCENT / 100;
    let from = series.points.first().map_or(0, |(at, _)| *at);
    let span = series.points.last().map_or(1, |(at, _)| *at - from).max(1);
    Chart {
        title,
        line: series
            .points
            .iter()
            .map(|(at, value)| (part(*at - from, span), part(i64::from(*value), top as i64)))
            .collect(),
        set: set.map(|(value, text)| (part(i64::from(*value), top as i64), figure(text.clone()))),
        last: Some(figure(series.last)),
        marks: Vec::new(),
        words: Say::ChartWords {
            first: series.first.to_owned(),
            last: series.last.to_owned(),
            set: set.map(|(_, text)| text.clone()).unwrap_or_default(),
            unit: boxed(unit),
        },
    }
}

/// A share of the whole in whole ten-thousandths, so that the number is short and the same everywhere.
pub fn part(value: i64, whole: i64) -> f32 {
    let share = value.clamp(0, whole).saturating_mul(10_000) / whole.max(1);
    i16::try_from(share).map_or(1.0, |share| f32::from(share) / 10_000.0)
}
