//! The rows of a result, in the order in which they are handed over.

use crate::check::facts::{Dial, Found};
use crate::contract::Row;
use crate::moment::Moment;
use crate::plan::miss_bound_percent;
use crate::record::Record;
use crate::say::{Say, dial_name};
use crate::units::shortest;
use crate::view::pieces::{boxed, dial_of, isolated, milli_volt, output, row, when};
use crate::view::summary::own_beats;
use crate::view::why::of_record as why;

pub fn rows(record: &Record, now: Moment) -> Vec<Row<Say>> {
    let mut rows = vec![
        row(Say::RowOwnBeats, own_beats(record), None),
        row(Say::RowSensing, sensing_value(record), sensing_note(record)),
        row(Say::RowCapture, capture_value(record), capture_note(record)),
    ];
    rows.extend(margin(record));
    rows.extend([Dial::Output, Dial::Rate, Dial::Mv].into_iter().filter_map(|dial| stays(record, dial)));
    rows.push(row(Say::RowNextCheck, next_check(record, now), None));
    rows.extend(beats(record));
    rows.extend(names(record));
    rows
}

pub fn sensing_value(record: &Record) -> Say {
    let figure = record.sensing_text.as_deref().map(milli_volt).map(boxed);
    match (record.sensing, figure) {
        (Found::Exact, Some(figure)) => *figure,
        (Found::AtLeast, Some(figure)) => Say::AtLeast { figure },
        (Found::SeenWhereItStood, Some(figure)) => Say::SeenAtFound { figure },
        (Found::SeenAtNone, _) => Say::SeenAtNone,
        _ => Say::NotTested,
    }
}

fn sensing_note(record: &Record) -> Option<Say> {
    match record.sensing {
        Found::Nothing | Found::SeenWhereItStood => why(record, record.why_sensing),
        Found::SeenAtNone => None,
        Found::Exact | Found::AtLeast | Found::AtMost | Found::Bracket => Some(Say::BigIsGood),
    }
}

pub fn capture_value(record: &Record) -> Say {
    let figure = record.capture_text.as_deref().map(|text| boxed(output(record, text)));
    match (record.capture, figure, record.capture_low_text.clone()) {
        (Found::Bracket, Some(high), Some(low)) => Say::Between { low, high },
        (Found::AtMost, Some(figure), _) => Say::AtMost { figure },
        (Found::Exact | Found::Bracket, Some(figure), _) => *figure,
        _ => Say::NotTested,
    }
}

fn capture_note(record: &Record) -> Option<Say> {
    if record.capture == Found::Nothing {
        return match (why(record, record.why_capture), record.held_going_down()) {
            (Some(why), Some(figure)) => Some(Say::WhyAndHeld { why: boxed(why), figure: figure.to_owned() }),
            (None, Some(figure)) => Some(Say::GoingDown { figure: figure.to_owned() }),
            (why, None) => why,
        };
    }
    let direction = match (record.capture, record.held_going_down()) {
        (Found::Exact, None) => Some(Say::GoingUp),
        (_, Some(figure)) => Some(Say::GoingDown { figure: figure.to_owned() }),
        _ => None,
    };
    Some(match direction {
        Some(second) => Say::BothNotes { first: boxed(Say::SmallIsGood), second: boxed(second) },
        None => Say::SmallIsGood,
    })
}

fn margin(record: &Record) -> Option<Row<Say>> {
    let multiple = record.multiple.clone()?;
    let value = if record.capture == Found::AtMost {
        Say::AtLeastMultiple { multiple }
    } else {
        Say::Multiple { multiple }
    };
    let before = record.found_multiple.clone().filter(|found| Some(found) != record.multiple.as_ref());
    Some(row(Say::RowMargin, value, before.map(|multiple| Say::FoundMultiple { multiple })))
}

/// N13: where the dial stays, and where it was found if that is elsewhere.
fn stays(record: &Record, dial: Dial) -> Option<Row<Say>> {
    let value = dial_of(record, record.stays.as_ref()?, dial);
    let found = record.found.as_ref().map(|found| dial_of(record, found, dial));
    let note = match found {
        Some(found) if found == value => Say::AsFound,
        Some(found) => Say::FoundAt { figure: boxed(found) },
        None => return Some(row(Say::RowStays { dial: dial_name(dial) }, value, None)),
    };
    Some(row(Say::RowStays { dial: dial_name(dial) }, value, Some(note)))
}

fn next_check(record: &Record, now: Moment) -> Say {
    if record.due_ms <= record.ended.wall_ms { Say::DueNow } else { when(record.due_ms, now) }
}

/// What "all of n beats" leaves possible (RULE3, calculated).
fn beats(record: &Record) -> Option<Row<Say>> {
    let counted = matches!(record.capture, Found::Exact | Found::Bracket);
    let percent = shortest(u32::from(miss_bound_percent(record.beats)), 10);
    let value = Say::BeatsOf { beats: u32::from(record.beats) };
    counted.then(|| row(Say::RowBeats, value, Some(Say::BeatsMissed { percent })))
}

fn names(record: &Record) -> Vec<Row<Say>> {
    let names = &record.names;
    let person = |label: Say, name: &Option<String>| {
        name.as_deref().map(|name| row(label, Say::NamedPerson { name: isolated(name) }, None))
    };
    let told = names.told.as_deref().map(|name| {
        let reason = isolated(names.reason.as_deref().unwrap_or_default());
        row(Say::RowReason, Say::ToldPerson { reason, name: isolated(name) }, None)
    });
    let rules = record.rules_id.clone();
    let rules =
        if record.example_rules { Say::ExampleRulesNamed { rules } } else { Say::RulesNamed { rules } };
    [
        Some(row(Say::RowRules, rules, None)),
        person(Say::RowAccepted, &names.accepted_by),
        person(Say::RowClinician, &names.clinician),
        person(Say::RowOrdered, &names.ordered_by),
        told,
    ]
    .into_iter()
    .flatten()
    .collect()
}
