//! One wire in a line: what its dials stand at and what the last check found.

use super::figures::output_unit;
use super::handed::summary_lines;
use super::pieces::{boxed, output, wire_name};
use crate::check::facts::{Found, Own};
use crate::flags::Flag;
use crate::record::{Printed, Record};
use crate::say::{Say, figure};
use crate::state::bed::{Standing, Wire};

/// On the bed list: named, with the flag that asks somebody to act at once.
pub fn in_list(wire: &Wire) -> Vec<Say> {
    let name = boxed(wire_name(wire));
    if let Some(lines) = summary_lines(wire) {
        let first = lines.into_iter().next();
        return first.map(|what| Say::WireAnd { wire: name, what: boxed(what) }).into_iter().collect();
    }
    let Some((last, stays)) = last(wire) else { return vec![unchecked(wire)] };
    if let Some(standing) = &wire.standing {
        return vec![Say::WireAnd { wire: name, what: boxed(elsewhere(standing)) }];
    }
    let (output, sensing) = (boxed(output_line(last, stays)), boxed(sensing_line(last, stays)));
    let urgent = last.flags.first().filter(|flag| flag.asks_to_act_at_once());
    let line = Say::WireSummary { wire: name, output, sensing };
    [line].into_iter().chain(urgent.map(Flag::say)).collect()
}

/// On its bed's screen, under its name: with the first flag, whatever it asks.
pub fn of_wire(wire: &Wire) -> Vec<Say> {
    if let Some(lines) = summary_lines(wire) {
        return lines;
    }
    let Some((last, stays)) = last(wire) else { return Vec::new() };
    if let Some(standing) = &wire.standing {
        return vec![elsewhere(standing)];
    }
    let lines = [output_line(last, stays), sensing_line(last, stays)];
    lines.into_iter().chain(last.flags.first().map(Flag::say)).collect()
}

/// What the last check found holds no more where the dials were read to stand otherwise.
fn elsewhere(standing: &Standing) -> Say {
    let printed = &standing.printed;
    Say::StandsSince {
        time: standing.at.clock(),
        output: printed.output.clone(),
        rate: printed.rate.clone(),
        mv: boxed(printed.mv.as_deref().map_or(Say::Asynchronous, figure)),
    }
}

fn last(wire: &Wire) -> Option<(&Record, &Printed)> {
    let last = wire.records.last()?;
    Some((last, last.stays.as_ref()?))
}

fn unchecked(wire: &Wire) -> Say {
    let wire_name = boxed(wire_name(wire));
    if wire.check.is_some() {
        Say::WireCheckOpen { wire: wire_name }
    } else {
        Say::WireNotChecked { wire: wire_name }
    }
}

fn output_line(record: &Record, stays: &Printed) -> Say {
    let set = boxed(output(record, &stays.output));
    let Some((multiple, threshold)) = record.multiple.clone().zip(record.capture_text.clone()) else {
        return Say::SummaryOutput { output: set };
    };
    if record.capture == Found::AtMost {
        return Say::SummaryMarginAtMost { output: set, multiple, threshold };
    }
    Say::SummaryMargin { output: set, multiple, threshold }
}

fn sensing_line(record: &Record, stays: &Printed) -> Say {
    let Some(number) = stays.mv.clone() else { return Say::SummaryAsynchronous };
    match (record.sensing, record.sensing_text.clone()) {
        (Found::Exact, Some(signal)) => Say::SummarySees { number, signal },
        (Found::AtLeast, Some(signal)) => Say::SummarySeesAtLeast { number, signal },
        _ => Say::SummarySeesOnly { number },
    }
}

/// Own beats as the check saw them; what was shown and then lost is said with its doubt.
pub fn own_beats(record: &Record) -> Say {
    let Some((slowest, fastest)) = record.own else { return no_own_rate(record) };
    let rate = if slowest == fastest {
        Say::OwnRate { rate: slowest.to_string() }
    } else {
        Say::OwnRange { slowest: slowest.to_string(), fastest: fastest.to_string() }
    };
    if record.facts.own == Own::Cleared { Say::OwnThenLost { own: boxed(rate) } } else { rate }
}

fn no_own_rate(record: &Record) -> Say {
    match record.facts.own {
        _ if record.facts.own_was_seen() => Say::OwnNotMeasured,
        Own::NotSeen => Say::OwnNotSeen { limit: record.limit.clone(), time: record.ended.clock() },
        Own::NotLooked | Own::Shown | Own::Cleared => Say::OwnNotLooked,
    }
}

/// The unit of the record's output dial.
pub fn unit(record: &Record) -> Box<Say> {
    boxed(output_unit(record.unit))
}
