//! One wire in a line: what its dials stand at and what the last check found.

use super::figures::output_unit;
use super::pieces::{boxed, output, wire_name};
use crate::check::facts::{Found, Own};
use crate::record::{Printed, Record};
use crate::say::Say;
use crate::state::bed::Wire;

pub fn lines(wire: &Wire) -> Vec<Say> {
    let name = boxed(wire_name(wire));
    let Some(last) = wire.records.last() else {
        let untested = Say::WireNotChecked { wire: name.clone() };
        return vec![if wire.check.is_some() { Say::WireCheckOpen { wire: name } } else { untested }];
    };
    let mut lines = vec![summary(name, last)];
    lines.extend(last.flags.first().map(|flag| flag.say()));
    lines
}

fn summary(wire: Box<Say>, record: &Record) -> Say {
    let stays = record.stays.as_ref();
    match stays {
        Some(stays) => Say::WireSummary {
            wire,
            output: boxed(output_line(record, stays)),
            sensing: boxed(sensing_line(record, stays)),
        },
        None => Say::WireNotChecked { wire },
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

/// Own beats as the check saw them.
pub fn own_beats(record: &Record) -> Say {
    match (record.own, record.facts.own) {
        (Some((slowest, fastest)), _) if slowest == fastest => Say::OwnRate { rate: slowest.to_string() },
        (Some((slowest, fastest)), _) => {
            Say::OwnRange { slowest: slowest.to_string(), fastest: fastest.to_string() }
        }
        (None, Own::NotSeen) => Say::OwnNotSeen { limit: record.limit.clone(), time: record.ended.clock() },
        (None, Own::NotLooked | Own::Shown | Own::Cleared) => Say::OwnNotLooked,
    }
}

/// The unit of the record's output dial.
pub fn unit(record: &Record) -> Box<Say> {
    boxed(output_unit(record.unit))
}
