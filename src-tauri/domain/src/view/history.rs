//! A wire over days: charts, rows, words; like with like.

use super::handed::history_row;
use super::pieces::{boxed, clock_of, dial_of, go, plain, row, wire_head};
use super::result::{capture_value, sensing_value};
use super::{Screenful, beds, charts};
use crate::check::facts::Dial;
use crate::contract::{Row, Shape, Tone, Trend};
use crate::moment::{Moment, date_text};
use crate::record::Record;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;

mod moved;
mod slope;

pub use moved::rows as befell;

/// Rows of one page, newest first, under the one that says the slope.
const ROWS_MOST: usize = 19;
/// So many of them may tell what befell the wire between its checks.
const BEFELL_MOST: usize = 7;

pub fn history(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    match state.bed(bed).zip(state.wire(bed, wire)) {
        Some((bed, wire)) => screen(state, bed, wire, now),
        None => beds::beds(state, now),
    }
}

fn screen(state: &State, bed: &Bed, wire: &Wire, now: Moment) -> Screenful {
    let befell = newest(moved::rows(state, bed, wire, now), BEFELL_MOST);
    let checks = checks(state, wire, now);
    let room = ROWS_MOST - befell.len();
    let headline = headline(wire, checks.len() > room);
    let rows = newest([newest(checks, room), befell].concat(), ROWS_MOST);
    let trend = Trend {
        headline: headline.clone(),
        charts: [charts::capture(wire, now), charts::signal(wire, now)].into_iter().flatten().collect(),
        rows: slope::row(wire).into_iter().chain(rows.into_iter().map(|(_, row)| row)).collect(),
    };
    let export = go("export", Say::ExportName, Tone::Strong, Screen::Export { bed: bed.id, wire: wire.id });
    let back = go("bed", Say::Back, Tone::Strong, Screen::Bed { bed: bed.id });
    Screenful {
        answers: [Some(back), (!wire.records.is_empty()).then_some(export)].into_iter().flatten().collect(),
        ..plain(wire_head(bed, wire, Say::ScreenHistory, now), Shape::Chart(trend), headline)
    }
}

type Dated = (i64, Row<Say>);

/// Checks of other tablets stand among this one's, each with where it comes from.
fn checks(state: &State, wire: &Wire, now: Moment) -> Vec<Dated> {
    let own = wire.records.iter().map(|record| (record.ended.wall_ms, line(record, now)));
    own.chain(wire.handed.iter().map(|one| history_row(one, state.name_of(&one.tablet), now))).collect()
}

fn newest(mut rows: Vec<Dated>, most: usize) -> Vec<Dated> {
    rows.sort_by_key(|(at, _)| std::cmp::Reverse(*at));
    rows.truncate(most);
    rows
}

/// The most urgent flag of the newest check says it best.
fn headline(wire: &Wire, cut: bool) -> Say {
    let flag = wire.records.last().and_then(|record| record.flags.first());
    match flag {
        Some(flag) => flag.say(),
        None if wire.records.is_empty() => Say::HistoryEmpty,
        None if cut => {
            let count = wire.records.len() + wire.handed.len();
            Say::HistoryKept { count: u32::try_from(count).unwrap_or(u32::MAX) }
        }
        None => Say::HistoryTitle,
    }
}

fn line(record: &Record, now: Moment) -> Row<Say> {
    let at = record.ended.wall_ms;
    let when = Say::HistoryWhen { date: date_text(at, now.offset_min), time: clock_of(at, now) };
    let value =
        Say::HistoryValue { capture: boxed(capture_value(record)), sensing: boxed(sensing_value(record)) };
    row(when, value, set_line(record))
}

/// Output found, output left.
fn set_line(record: &Record) -> Option<Say> {
    if !record.read {
        return Some(Say::HistoryNotRead);
    }
    let output = |printed| boxed(dial_of(record, printed, Dial::Output));
    let (found, set) = record.found.as_ref().zip(record.stays.as_ref())?;
    Some(Say::HistorySet { found: output(found), set: output(set) })
}
