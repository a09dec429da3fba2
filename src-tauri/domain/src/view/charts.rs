//! A quantity over days: geometry from 0 to 1, made here so that the page computes nothing.

use super::pieces::{boxed, wire_name};
use super::summary::unit;
use crate::contract::Chart;
use crate::moment::{Moment, date_text};
use crate::record::Record;
use crate::say::{Say, figure};
use crate::state::bed::Wire;
use crate::units::{MICRO_PER_MILLI, shortest};

/// Points drawn at most: the newest.
const POINTS_MOST: usize = 20;
/// On the bed list, where many charts share one view.
const SMALL_POINTS_MOST: usize = 8;
/// Lines of the scale at the side at most, the ground among them.
const MARKS_MOST: u32 = 5;
/// Room above the highest value.
const HEADROOM_PERCENT: u64 = 115;

struct Series<'a> {
    /// Wall clock and value, oldest first.
    points: Vec<(i64, u32)>,
    first: &'a str,
    last: &'a str,
    set: Option<(u32, String)>,
    /// What was set at the end of each check.
    steps: Vec<(i64, u32)>,
}

/// Capture thresholds that compare with the newest one, with what was set; `None` below two.
pub fn capture(wire: &Wire, now: Moment) -> Option<Chart<Say>> {
    let last = newest_captured(wire)?;
    let title = Say::ChartCapture { unit: unit(last) };
    let series = capture_series(wire, last, POINTS_MOST)?;
    Some(over_days(&series, draw(&series, title, *unit(last)), last.unit.scale(), now))
}

/// The same, small, named by its wire.
pub fn small_capture(wire: &Wire) -> Option<Chart<Say>> {
    let last = newest_captured(wire)?;
    let title = Say::ChartCaptureOf { wire: boxed(wire_name(wire)), unit: unit(last) };
    Some(draw(&capture_series(wire, last, SMALL_POINTS_MOST)?, title, *unit(last)))
}

/// Sensing thresholds found on this wire, with what was set; `None` below two.
pub fn signal(wire: &Wire, now: Moment) -> Option<Chart<Say>> {
    let measured: Vec<&Record> = wire.alike().iter().filter(|r| r.signal_uv().is_some()).collect();
    let newest = newest(&measured, POINTS_MOST);
    let (first, last) = (newest.first()?, newest.last()?);
    let series = Series {
        points: newest.iter().filter_map(|r| Some((r.ended.wall_ms, r.signal_uv()?))).collect(),
        first: first.sensing_text.as_deref()?,
        last: last.sensing_text.as_deref()?,
        set: last.mv_uv.zip(last.stays.as_ref().and_then(|stays| stays.mv.clone())),
        steps: newest.iter().filter_map(|r| Some((r.ended.wall_ms, r.mv_uv?))).collect(),
    };
    let drawn = (series.points.len() >= 2).then(|| draw(&series, Say::ChartSignal, Say::MilliVolt));
    drawn.map(|drawn| over_days(&series, drawn, MICRO_PER_MILLI, now))
}

fn newest_captured(wire: &Wire) -> Option<&Record> {
    wire.alike().iter().rev().find(|record| record.direction().is_some())
}

fn newest<'a>(records: &[&'a Record], most: usize) -> Vec<&'a Record> {
    records.iter().skip(records.len().saturating_sub(most)).copied().collect()
}

fn capture_series<'a>(wire: &'a Wire, last: &'a Record, most: usize) -> Option<Series<'a>> {
    let alike: Vec<&Record> = wire.alike().iter().filter(|record| record.compares_with(last)).collect();
    let drawn = newest(&alike, most);
    let points: Vec<_> = drawn.iter().filter_map(|r| Some((r.ended.wall_ms, r.capture_micro?))).collect();
    (points.len() >= 2).then_some(())?;
    Some(Series {
        points,
        first: drawn.first()?.capture_text.as_deref()?,
        last: last.capture_text.as_deref()?,
        set: last.stays.as_ref().map(|stays| (last.output_micro, stays.output.clone())),
        steps: drawn.iter().map(|r| (r.ended.wall_ms, r.output_micro)).collect(),
    })
}

fn draw(series: &Series<'_>, title: Say, unit: Say) -> Chart<Say> {
    let set = series.set.as_ref();
    let top = series.top(set.map(|(value, _)| *value).into_iter());
    Chart {
        title,
        line: series.places(&series.points, top),
        steps: Vec::new(),
        set: set.map(|(value, text)| (part(i64::from(*value), top), figure(text.clone()))),
        last: Some(figure(series.last)),
        marks: Vec::new(),
        days: None,
        words: Say::ChartWords {
            first: series.first.to_owned(),
            last: series.last.to_owned(),
            set: set.map(|(_, text)| text.clone()).unwrap_or_default(),
            unit: boxed(unit),
        },
    }
}

/// The same with a scale at the side, the days under it, and what was set each time.
fn over_days(series: &Series<'_>, drawn: Chart<Say>, scale: u32, now: Moment) -> Chart<Say> {
    let top = series.top(series.steps.iter().map(|(_, value)| *value));
    let day = |at: Option<&(i64, u32)>| date_text(at.map_or(0, |(at, _)| *at), now.offset_min);
    let (from, to) = (day(series.points.first()), day(series.points.last()));
    let set = series.set.as_ref().map(|(value, text)| (part(i64::from(*value), top), figure(text.clone())));
    Chart {
        line: series.places(&series.points, top),
        steps: series.places(&series.steps, top),
        set,
        marks: scale_marks(top, scale),
        words: Say::ChartDays { line: boxed(drawn.words), from: from.clone(), to: to.clone() },
        days: Some((figure(from), figure(to))),
        ..drawn
    }
}

/// Round figures from the ground up: 1, 2 or 5 of some power of ten apart.
fn scale_marks(top: i64, scale: u32) -> Vec<(f32, Say)> {
    let top_micro = u32::try_from(top).unwrap_or(u32::MAX);
    let steps = (0..9).flat_map(|power| [1, 2, 5].map(|step| step * 10_u32.pow(power)));
    let step = steps.into_iter().find(|step| top_micro / step < MARKS_MOST).unwrap_or(top_micro.max(1));
    let label = |value: u32| figure(shortest(value, scale));
    (0..=top_micro / step).map(|n| (part(i64::from(n * step), top), label(n * step))).collect()
}

impl Series<'_> {
    /// Above everything that is drawn.
    fn top(&self, set: impl Iterator<Item = u32>) -> i64 {
        let highest = self.points.iter().map(|(_, value)| *value).chain(set).max().unwrap_or(1);
        i64::try_from(u64::from(highest).max(1) * HEADROOM_PERCENT / 100).unwrap_or(i64::MAX)
    }

    /// By time since the earliest check: the order of a clock that was set back is the clock's.
    fn places(&self, of: &[(i64, u32)], top: i64) -> Vec<(f32, f32)> {
        let from = self.points.iter().map(|(at, _)| *at).min().unwrap_or(0);
        let span = self.points.iter().map(|(at, _)| *at - from).max().unwrap_or(1).max(1);
        of.iter().map(|(at, value)| (part(*at - from, span), part(i64::from(*value), top))).collect()
    }
}

/// A share of the whole in whole ten-thousandths, so that the number is short and the same everywhere.
pub fn part(value: i64, whole: i64) -> f32 {
    let share = value.clamp(0, whole).saturating_mul(10_000) / whole.max(1);
    i16::try_from(share).map_or(1.0, |share| f32::from(share) / 10_000.0)
}
