//! Comma-separated values (RFC 4180): one check a row, and in a second table what befell the wires between their
//! checks, for a spreadsheet or a quality audit.
//!
//! Names that people typed stay on the tablet. Column names and words are frozen; new columns come at the end.

mod between;
mod flags;

pub use between::{BETWEEN_COLUMNS, between_csv};

use csv::{Terminator, WriterBuilder};
use domain::check::facts::Found;
use domain::record::Record;
use domain::units::{MICRO_PER_MILLI, shortest};

use crate::care::{Care, chamber_word, kind_word, polarity_word};
use crate::time::{stamp, stamp_at};

/// The first row.
pub const COLUMNS: [&str; 25] = [
    "check",
    "ended",
    "chamber",
    "wire",
    "polarity",
    "generator",
    "pulse_width_ms",
    "rules",
    "example_rules",
    "dials_read",
    "rate_per_min",
    "output",
    "output_unit",
    "sensitivity_mV",
    "asynchronous",
    "own_slowest_per_min",
    "own_fastest_per_min",
    "sensing",
    "sensing_mV",
    "capture",
    "capture_low",
    "capture_high",
    "margin_multiple",
    "next_check",
    "flags",
];

/// Why there is no file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CsvFault {
    /// A time outside the range of calendar dates.
    Time,
    /// The rows could not be written.
    Write,
}

/// UTF-8 with CRLF, a header row, figures with a point.
///
/// # Errors
/// See `CsvFault`.
pub fn csv(checks: &[Care<'_>]) -> Result<Vec<u8>, CsvFault> {
    let rows: Option<Vec<[String; COLUMNS.len()]>> = checks.iter().map(row).collect();
    table(&COLUMNS, &rows.ok_or(CsvFault::Time)?)
}

fn table<const N: usize>(columns: &[&str; N], rows: &[[String; N]]) -> Result<Vec<u8>, CsvFault> {
    let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(columns).map_err(|_| CsvFault::Write)?;
    for row in rows {
        writer.write_record(row.iter().map(|cell| without_formula(cell))).map_err(|_| CsvFault::Write)?;
    }
    writer.into_inner().map_err(|_| CsvFault::Write)
}

fn row(check: &Care<'_>) -> Option<[String; COLUMNS.len()]> {
    let record = check.record();
    let stays = record.stays.as_ref();
    let own =
        |rate: fn((u8, u8)) -> u8| record.own.map(rate).map(|rate| rate.to_string()).unwrap_or_default();
    let text = |text: Option<&String>| text.cloned().unwrap_or_default();
    let (low, high) = capture_ends(record);
    Some([
        record.id.to_string(),
        stamp(record.ended)?,
        chamber_word(check.wire()).to_owned(),
        kind_word(check.wire()).to_owned(),
        polarity_word(check.wire()).to_owned(),
        record.generator.clone(),
        shortest(record.pulse_width_us, MICRO_PER_MILLI),
        record.rules_id.clone(),
        yes_no(record.example_rules),
        yes_no(record.read),
        text(stays.map(|dials| &dials.rate)),
        text(stays.map(|dials| &dials.output)),
        record.unit.symbol().to_owned(),
        text(stays.and_then(|dials| dials.mv.as_ref())),
        stays.map(|dials| yes_no(dials.mv.is_none())).unwrap_or_default(),
        own(|(slowest, _)| slowest),
        own(|(_, fastest)| fastest),
        found_word(record.sensing).to_owned(),
        text(sensed(record)),
        found_word(record.capture).to_owned(),
        low,
        high,
        text(record.multiple.as_ref()),
        stamp_at(record.due_ms, record.ended.offset_min)?,
        flags::words(&record.flags),
    ])
}

/// A threshold going up has one end; a bracket two; "at most" only an upper one; no test none.
fn capture_ends(record: &Record) -> (String, String) {
    let (low, high) = (record.capture_low_text.as_ref(), record.capture_text.as_ref());
    let (low, high) = match record.capture {
        Found::Exact => (high, high),
        Found::Bracket => (low, high),
        Found::AtMost => (None, high),
        Found::Nothing | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone => (None, None),
    };
    (low.cloned().unwrap_or_default(), high.cloned().unwrap_or_default())
}

fn sensed(record: &Record) -> Option<&String> {
    match record.sensing {
        Found::Exact | Found::AtLeast | Found::SeenWhereItStood => record.sensing_text.as_ref(),
        Found::Nothing | Found::AtMost | Found::Bracket | Found::SeenAtNone => None,
    }
}

fn found_word(found: Found) -> &'static str {
    match found {
        Found::Nothing => "not_tested",
        Found::Exact => "threshold",
        Found::AtLeast => "at_least",
        Found::AtMost => "at_most",
        Found::Bracket => "bracket",
        Found::SeenWhereItStood => "at_least_as_found",
        Found::SeenAtNone => "none_saw",
    }
}

fn yes_no(is: bool) -> String {
    if is { "yes" } else { "no" }.to_owned()
}

/// A spreadsheet reads a cell that begins like this as a formula: ids of rules and generators are typed by people.
fn without_formula(cell: &str) -> String {
    let formula = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
    if formula { format!("'{cell}") } else { cell.to_owned() }
}
