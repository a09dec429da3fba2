//! Pieces that several screens share: heads, ways back, figures of a record as sentences.

use std::borrow::Cow;

use super::{Screenful, act, figures};
use crate::check::facts::Dial;
use crate::command::Command;
use crate::contract::{Act, Field, FieldKind, Head, Row, Shape, Tone};
use crate::moment::{Moment, clock_text, date_text};
use crate::record::{Printed, Record};
use crate::rules::Chamber;
pub use crate::say::isolated;
use crate::say::{Say, figure};
use crate::state::bed::{Bed, Wire, WireKind};
use crate::state::screen::Screen;

pub fn boxed(say: Say) -> Box<Say> {
    Box::new(say)
}

pub fn wire_name(wire: &Wire) -> Say {
    match (wire.chamber, wire.kind) {
        (Chamber::Atrium, WireKind::Epicardial) => Say::AtrialWire,
        (Chamber::Atrium, WireKind::Transvenous) => Say::AtrialLead,
        (Chamber::Ventricle, WireKind::Epicardial) => Say::VentricularWire,
        (Chamber::Ventricle, WireKind::Transvenous) => Say::VentricularLead,
    }
}

/// A head with the wall clock.
pub fn head(title: Say, now: Moment) -> Head<Say> {
    Head { title, subtitle: None, clock: None, wall: Some(Say::WallClock { time: now.clock() }) }
}

pub fn bed_head(bed: &Bed, now: Moment) -> Head<Say> {
    head(Say::Local { text: bed.label.clone() }, now)
}

pub fn wire_head(bed: &Bed, wire: &Wire, what: Say, now: Moment) -> Head<Say> {
    let subtitle = Say::WireAnd { wire: boxed(wire_name(wire)), what: boxed(what) };
    Head { subtitle: Some(subtitle), ..bed_head(bed, now) }
}

/// A screen of no check: no rail, nothing that touches a dial.
pub fn plain(head: Head<Say>, shape: Shape<Say>, spoken: Say) -> Screenful {
    Screenful {
        head,
        rail: None,
        shape,
        answers: Vec::new(),
        aside: Vec::new(),
        safety: None,
        notice: None,
        spoken,
    }
}

/// What is read out when the card comes.
pub fn spoken(shape: &Shape<Say>) -> Say {
    match shape {
        Shape::Turn(turn) => Say::SpokenTurn {
            instruction: boxed(turn.instruction.clone()),
            figure: boxed(turn.figure.clone()),
            unit: boxed(turn.unit.clone()),
            question: boxed(turn.question.clone()),
        },
        Shape::Ask(ask) => ask.question.clone(),
        Shape::List(list) => list.instruction.clone(),
        Shape::Form(form) => form.question.clone(),
        Shape::Result(result) => result.headline.clone(),
        Shape::Code(code) => code.note.clone(),
        Shape::Chart(chart) => chart.headline.clone(),
        Shape::Beds(beds) => beds.empty.clone(),
    }
}

/// An empty field. `max_chars` counts characters; 0 where nothing is typed.
pub fn field(id: &str, label: Say, kind: FieldKind, max_chars: usize) -> Field<Say> {
    Field {
        id: id.to_owned(),
        label,
        unit: None,
        kind,
        value: String::new(),
        error: None,
        choices: Vec::new(),
        max_chars: u16::try_from(max_chars).unwrap_or(u16::MAX),
    }
}

pub fn go(key: impl Into<Cow<'static, str>>, label: Say, tone: Tone, screen: Screen) -> Act<Say> {
    act(key, label, tone, Command::Go(screen))
}

pub fn row(label: Say, value: Say, note: Option<Say>) -> Row<Say> {
    Row { label, value, note }
}

/// The time of day at the offset the tablet had when it happened.
pub fn clock_of(wall_ms: i64, like: Moment) -> String {
    clock_text(wall_ms, like.offset_min)
}

/// The time of day, with its date where that is not the present day.
pub fn when(wall_ms: i64, now: Moment) -> Say {
    let date = date_text(wall_ms, now.offset_min);
    let time = clock_of(wall_ms, now);
    if date == date_text(now.wall_ms, now.offset_min) { figure(time) } else { Say::DueOn { date, time } }
}

/// "3.6 mA", in the unit of the record's generator.
pub fn output(record: &Record, text: &str) -> Say {
    let unit = boxed(figures::output_unit(record.unit));
    Say::FigureUnit { figure: text.to_owned(), unit }
}

pub fn milli_volt(text: &str) -> Say {
    Say::FigureUnit { figure: text.to_owned(), unit: boxed(Say::MilliVolt) }
}

pub fn dial_of(record: &Record, printed: &Printed, dial: Dial) -> Say {
    match dial {
        Dial::Output => output(record, &printed.output),
        Dial::Rate => Say::FigureUnit { figure: printed.rate.clone(), unit: boxed(Say::PerMinute) },
        Dial::Mv => printed.mv.as_deref().map_or(Say::Asynchronous, milli_volt),
    }
}
