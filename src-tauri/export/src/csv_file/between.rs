//! The second table: what befell the wires between their checks, one a row.

use domain::moment::Moment;
use domain::record::Printed;
use domain::state::bed::{Bed, Wire};
use domain::state::swap::{Outcome, SwapRecord};
use domain::state::transport::TransportRecord;
use domain::units::OutputUnit;

use super::{CsvFault, table, yes_no};
use crate::between::{Between, differed, outcome_word, target_word, work_word};
use crate::care::{chamber_word, kind_word, polarity_word};
use crate::time::stamp;

/// The first row. `differed` holds dial strings; names, initials and the place stay on the tablet.
pub const BETWEEN_COLUMNS: [&str; 24] = [
    "id",
    "kind",
    "began",
    "ended",
    "outcome",
    "chamber",
    "wire",
    "polarity",
    "generator_before",
    "generator_after",
    "output_before",
    "output_before_unit",
    "output_after",
    "output_after_unit",
    "own_beats",
    "shared_box",
    "to",
    "left",
    "arrived",
    "handovers",
    "dials_read",
    "differed",
    "no_beats",
    "shock",
];

type Row = [String; BETWEEN_COLUMNS.len()];

/// As the table of checks.
///
/// # Errors
/// See `CsvFault`.
pub fn between_csv(all: &[Between<'_>]) -> Result<Vec<u8>, CsvFault> {
    let rows: Option<Vec<Row>> = all.iter().map(row).collect();
    table(&BETWEEN_COLUMNS, &rows.ok_or(CsvFault::Time)?)
}

fn row(one: &Between<'_>) -> Option<Row> {
    let cells = match one {
        Between::Change { wire, record, units } => change(wire, record, *units)?,
        Between::Way { bed, record } => way(bed, record)?,
    };
    Some(BETWEEN_COLUMNS.map(|column| {
        let cell = cells.iter().find(|(name, _)| *name == column);
        cell.map(|(_, text)| text.clone()).unwrap_or_default()
    }))
}

/// What is not named stays empty.
type Cells = Vec<(&'static str, String)>;

fn change(
    wire: &Wire,
    record: &SwapRecord,
    (before, after): (Option<OutputUnit>, Option<OutputUnit>),
) -> Option<Cells> {
    let (old, left) = (record.old.as_ref(), record.left.as_ref());
    let output = |printed: Option<&Printed>| printed.map(|dials| dials.output.clone()).unwrap_or_default();
    let unit = |unit: Option<OutputUnit>, printed: Option<&Printed>| {
        unit.filter(|_| printed.is_some()).map(OutputUnit::symbol).unwrap_or_default().to_owned()
    };
    let is_asked = record.outcome != Outcome::NothingChanged || left.is_some();
    Some(vec![
        ("id", record.id.to_string()),
        ("kind", work_word(record.work).to_owned()),
        ("began", stamp(record.opened)?),
        ("ended", stamp(record.ended)?),
        ("outcome", outcome_word(record.outcome).to_owned()),
        ("chamber", chamber_word(wire).to_owned()),
        ("wire", kind_word(wire).to_owned()),
        ("polarity", polarity_word(wire).to_owned()),
        ("generator_before", record.from.clone()),
        ("generator_after", record.to.clone()),
        ("output_before", output(old)),
        ("output_before_unit", unit(before, old)),
        ("output_after", output(left)),
        ("output_after_unit", unit(after, left)),
        ("own_beats", yes_no(record.own_beats)),
        ("shared_box", yes_no(record.shared)),
        ("dials_read", if is_asked { yes_no(left.is_some()) } else { String::new() }),
        ("no_beats", yes_no(record.no_beats)),
        ("shock", yes_no(record.shock)),
    ])
}

fn way(bed: &Bed, record: &TransportRecord) -> Option<Cells> {
    let told = &record.told;
    let time = |at: Option<Moment>| at.map_or(Some(String::new()), stamp);
    Some(vec![
        ("id", record.id.to_string()),
        ("kind", "transport".to_owned()),
        ("began", stamp(record.began)?),
        ("ended", stamp(record.ended)?),
        ("outcome", if told.left.is_some() { "moved" } else { "nobody_moved" }.to_owned()),
        ("to", told.target.map(target_word).unwrap_or_default().to_owned()),
        ("left", time(told.left)?),
        ("arrived", time(told.arrived)?),
        ("handovers", told.hands.len().to_string()),
        ("dials_read", yes_no(told.readings.iter().any(|reading| reading.seen))),
        ("differed", differed(bed, record).join("; ")),
        ("no_beats", yes_no(record.no_beats)),
        ("shock", yes_no(record.shock)),
    ])
}
