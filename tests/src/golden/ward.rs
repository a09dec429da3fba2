//! Beds with checks behind them. All of it invented.

use domain::State;
use domain::record::Record;
use domain::rules::{Chamber, Rules};
use domain::state::bed::Wire;
use domain::state::screen::Screen;

use super::worlds::{LABEL, add_bed, add_wire, at, on, tablet};

const HOUR_MS: i64 = 3_600_000;
const CHECK_EVERY_MS: i64 = 12 * HOUR_MS;
/// Eight checks, one each shift.
const CHECKS: i64 = 8;

/// One bed whose one wire has these checks behind it.
pub fn checked(records: &[Record]) -> State {
    let generators = domain::profile::shipped().unwrap();
    let generator = records.first().map_or("example-volts", |record| record.generator.as_str());
    let state = add_wire(add_bed(tablet(Rules::example(), generators), LABEL), 1, "ventricle", generator);
    with_records(state, 1, records)
}

/// Twelve beds: late, two wires, dials not read, never checked, without a wire, and seven that are not due.
pub fn ward(records: &[Record]) -> State {
    let days = history(records);
    let mut state = checked(&days);
    let late = aged(&longest(records), 14 * HOUR_MS);
    let fresh = aged(&longest(records), HOUR_MS);
    for bed in 2..=12_u32 {
        state = add_bed(state, &format!("Bay {bed}"));
        if bed != 5 {
            state = add_wire(state, bed, "ventricle", &fresh.generator);
        }
        if !(4..=5).contains(&bed) {
            state = with_records(state, bed, std::slice::from_ref(if bed == 6 { &late } else { &fresh }));
        }
    }
    state = add_wire(state, 2, "atrium", "example-fine-current");
    if let Some(wire) = state.wire_mut(3, 1) {
        wire.owed = Some(at(-25 * 60_000));
    }
    on(state, Screen::Beds)
}

/// The check that leaves most to say.
pub fn longest(records: &[Record]) -> Record {
    let tested = |record: &&Record| record.capture_text.is_some() && record.sensing_text.is_some();
    let size = |record: &&Record| serde_json::to_string(record).map_or(0, |text| text.len());
    records.iter().filter(tested).max_by_key(size).unwrap().clone()
}

/// Checks of one generator with a threshold that moves, one each shift.
fn history(records: &[Record]) -> Vec<Record> {
    let generator = longest(records).generator;
    let mut seen = Vec::new();
    let mut days: Vec<Record> = Vec::new();
    for record in
        records.iter().filter(|record| record.generator == generator && record.direction().is_some())
    {
        let fresh = days.first().is_none_or(|first| first.direction() == record.direction());
        if fresh && !seen.contains(&record.capture_text) {
            seen.push(record.capture_text.clone());
            days.push(record.clone());
        }
    }
    days.sort_by_key(|record| record.capture_micro);
    let kept = days.into_iter().take(usize::try_from(CHECKS).unwrap());
    kept.zip(1..)
        .map(|(record, number)| aged(&record, (CHECKS - number) * CHECK_EVERY_MS + HOUR_MS))
        .collect()
}

/// The same check, ended this long before the evening.
pub fn aged(record: &Record, ago_ms: i64) -> Record {
    let ended = at(-ago_ms);
    Record { opened: at(-ago_ms - 600_000), ended, due_ms: ended.wall_ms + CHECK_EVERY_MS, ..record.clone() }
}

fn with_records(mut state: State, bed: u32, records: &[Record]) -> State {
    if let Some(wire) = state.wire_mut(bed, 1) {
        let chamber = chamber_of(wire, records);
        wire.chamber = chamber;
        wire.records = records.to_vec();
    }
    state
}

/// The fine dials are an atrial wire's in this ward.
fn chamber_of(wire: &Wire, records: &[Record]) -> Chamber {
    let atrial = records.iter().any(|record| record.generator == "example-fine-current");
    if atrial { Chamber::Atrium } else { wire.chamber }
}
