//! The lines of a handover code: one fact a line, with units and times, in one frozen wording that
//! does not follow the tablet's language. No name, no record number.

use crate::check::facts::{Found, Own};
use crate::flags::Flag;
use crate::moment::{Moment, clock_text, date_text};
use crate::record::{Direction, Record};
use crate::rules::Chamber;
use crate::state::State;
use crate::state::bed::{Polarity, Wire, WireKind};
use crate::units::{MICRO_PER_MILLI, shortest};

/// One line; `label: value` in the code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HandoverLine {
    pub label: &'static str,
    pub value: String,
}

impl HandoverLine {
    fn new(label: &'static str, value: impl Into<String>) -> HandoverLine {
        HandoverLine { label, value: value.into() }
    }

    pub fn text(&self) -> String {
        format!("{}: {}", self.label, self.value)
    }
}

/// Bytes of a code of version 15 at error level M, the largest whose drawing and lines make one view.
const TEXT_MOST: usize = 412;

/// What the code holds: the lines, one below the other.
pub fn text_of(lines: &[HandoverLine]) -> String {
    lines.iter().map(HandoverLine::text).collect::<Vec<_>>().join("\n")
}

/// The newest record of the wire as lines; none before its first check.
pub fn handover_lines(state: &State, wire: &Wire, now: Moment) -> Vec<HandoverLine> {
    let Some(record) = wire.records.last() else { return Vec::new() };
    let mut lines = vec![HandoverLine::new("HOLDFAST 1", wire_text(wire))];
    if record.example_rules {
        lines.push(HandoverLine::new("EXAMPLE RULES", "local rules come first"));
    }
    lines.push(HandoverLine::new("Dials", read_text(record, now)));
    lines.extend(dials(record));
    lines.push(HandoverLine::new("Capture threshold", capture_text(record)));
    lines.extend(record.multiple.as_ref().map(|m| HandoverLine::new("Margin", margin_text(record, m))));
    lines.push(HandoverLine::new("Sensing threshold", sensing_text(record)));
    lines.push(HandoverLine::new("Own beats", own_text(record)));
    lines.extend(generator_text(state, record));
    lines.push(HandoverLine::new("Next check", due_text(wire, record)));
    let room = TEXT_MOST.saturating_sub(text_of(&lines).len());
    lines.extend(flags_line(record, room));
    lines
}

fn wire_text(wire: &Wire) -> String {
    let chamber = match wire.chamber {
        Chamber::Atrium => "atrial",
        Chamber::Ventricle => "ventricular",
    };
    let kind = match wire.kind {
        WireKind::Epicardial => "epicardial wire",
        WireKind::Transvenous => "transvenous lead",
    };
    let polarity = match wire.polarity {
        Polarity::Bipolar => "bipolar",
        Polarity::Unipolar => "unipolar",
    };
    format!("{chamber} {kind}, {polarity}")
}

/// When, and how long ago at the time the code was made.
fn read_text(record: &Record, now: Moment) -> String {
    let at = stamp(record.ended.wall_ms, record.ended.offset_min);
    let offset = offset_text(record.ended.offset_min);
    let minutes = (now.wall_ms - record.ended.wall_ms).max(0) / 60_000;
    let verb = if record.read { "read" } else { "NOT read" };
    format!("{verb} {at} {offset}, {} old", age(minutes))
}

fn age(minutes: i64) -> String {
    if minutes < 120 { format!("{minutes} min") } else { format!("{} h", minutes / 60) }
}

fn stamp(wall_ms: i64, offset_min: i16) -> String {
    format!("{} {}", date_text(wall_ms, offset_min), clock_text(wall_ms, offset_min))
}

/// "+01:00", as RFC 3339 writes it.
fn offset_text(offset_min: i16) -> String {
    let sign = if offset_min < 0 { '-' } else { '+' };
    let minutes = offset_min.unsigned_abs();
    format!("{sign}{:02}:{:02}", minutes / 60, minutes % 60)
}

fn dials(record: &Record) -> Vec<HandoverLine> {
    let Some(stays) = &record.stays else { return Vec::new() };
    let number = match &stays.mv {
        Some(number) => number.clone(),
        None => "asynchronous".to_owned(),
    };
    vec![
        HandoverLine::new("RATE", format!("{} /min", stays.rate)),
        HandoverLine::new("OUTPUT", format!("{} {}", stays.output, record.unit.symbol())),
        HandoverLine::new("mV", number),
    ]
}

fn capture_text(record: &Record) -> String {
    let unit = record.unit.symbol();
    let direction = match record.direction() {
        Some(Direction::GoingUp) => "going up",
        Some(Direction::GoingDown) => "going down",
        None => "",
    };
    match (record.capture, &record.capture_text, &record.capture_low_text) {
        (Found::Bracket, Some(high), Some(low)) => format!("{low} to {high} {unit}, {direction}"),
        (Found::AtMost, Some(at), _) => format!("at most {at} {unit}, {direction}"),
        (Found::Exact | Found::Bracket, Some(at), _) => format!("{at} {unit}, {direction}"),
        _ => "not tested".to_owned(),
    }
}

fn margin_text(record: &Record, multiple: &str) -> String {
    let least = if record.capture == Found::AtMost { "at least " } else { "" };
    format!("{least}{multiple} x")
}

fn sensing_text(record: &Record) -> String {
    match (record.sensing, &record.sensing_text) {
        (Found::Exact, Some(at)) => format!("{at} mV"),
        (Found::AtLeast, Some(at)) => format!("at least {at} mV"),
        (Found::SeenWhereItStood, Some(at)) => format!("at least {at} mV, as found"),
        (Found::SeenAtNone, _) => "no number saw".to_owned(),
        _ => "not tested".to_owned(),
    }
}

fn own_text(record: &Record) -> String {
    match (record.own, record.facts.own) {
        (Some(own), Own::Cleared) => format!("{}, then lost", rates(own)),
        (Some(own), Own::Shown | Own::NotSeen | Own::NotLooked) => rates(own),
        (None, Own::NotSeen) => format!("none seen down to {} /min", record.limit),
        (None, Own::NotLooked | Own::Shown | Own::Cleared) => "not looked for".to_owned(),
    }
}

fn rates((slowest, fastest): (u8, u8)) -> String {
    if slowest == fastest { format!("{slowest} /min") } else { format!("{slowest} to {fastest} /min") }
}

fn generator_text(state: &State, record: &Record) -> Option<HandoverLine> {
    let profile = state.generator(&record.generator)?;
    let width = shortest(profile.pulse_width_us, MICRO_PER_MILLI);
    Some(HandoverLine::new("Pulse width", format!("{width} ms")))
}

fn due_text(wire: &Wire, record: &Record) -> String {
    if wire.due_now.is_some() || record.due_ms <= record.ended.wall_ms {
        return "now".to_owned();
    }
    stamp(record.due_ms, record.ended.offset_min)
}

/// Flags in one line, most urgent first, as many as there is room for.
fn flags_line(record: &Record, room: usize) -> Option<HandoverLine> {
    let with = |text: String| HandoverLine::new("Flags", text);
    let said: Vec<String> = record.flags.iter().filter_map(flag_text).collect();
    let fits = |count: &usize| with(said[..*count].join(", ")).text().len() < room;
    let count = (1..=said.len()).rev().find(fits)?;
    Some(with(said[..count].join(", ")))
}

/// `None` for what concerns only the tablet, or stands in another line.
fn flag_text(flag: &Flag) -> Option<String> {
    let fixed = match flag {
        Flag::Doubled { was, .. } => return Some(format!("threshold doubled from {was}")),
        Flag::HalfSignalGone { was, .. } => return Some(format!("signal halved from {was}")),
        Flag::FoundMarginBelowRule { multiple } => return Some(format!("found at {multiple} x")),
        Flag::NotRead | Flag::Away | Flag::Slip => return None,
        Flag::NoCaptureAtMaximum => "no capture at maximum",
        Flag::NoRuleSatisfied => "no position fits the rule",
        Flag::StillBlind => "own beats not seen",
        Flag::WrongChamber => "atrial spike, wide beat",
        Flag::NoBeats => "no beats in check",
        Flag::Shock => "shock given",
        Flag::FoundDidNotCapture => "found output failed",
        Flag::DidNotSeeAsFound => "found mV did not see",
        Flag::NumberRefused => "no lower mV allowed",
        Flag::BlockFromRate => "block at faster rate",
        Flag::Pauses => "pauses seen",
        Flag::ExtraBeatUnmarked => "extra beats not seen",
        Flag::FoundAsynchronous => "found asynchronous",
        Flag::NotTolerated => "not tolerated",
        Flag::SpikeAtMinimumMadeABeat => "captures at minimum",
    };
    Some(fixed.to_owned())
}
