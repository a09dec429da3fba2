//! The dials beside a handover: read, not shown beforehand; then what differs and what it means.

use super::checks::in_unit;
use crate::check::facts::Dial;
use crate::command::Command;
use crate::contract::{Act, Form, Outcome, Row, Shape, Tone};
use crate::decide;
use crate::handover::compare::{Beside, Compared, Margin, Seeing};
use crate::moment::Moment;
use crate::say::{Say, dial_name, figure};
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;
use crate::view::card::dial_fields;
use crate::view::pieces::{boxed, go, milli_volt, plain, row, wire_head};
use crate::view::{Screenful, act, act_with_fields, beds};

/// What the code says is not shown: it would prompt the reading.
pub fn compare(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    let known = state.bed(bed).zip(state.wire(bed, wire)).filter(|(_, wire)| decide::may_compare(wire));
    let profile = known.and_then(|(_, wire)| state.generator(&wire.generator));
    let Some(((bed, wire), profile)) = known.zip(profile) else { return beds::beds(state, now) };
    let form =
        Form { question: Say::CompareTitle, lines: vec![Say::CompareLine], fields: dial_fields(profile) };
    let command = Command::CompareDials { bed: bed.id, wire: wire.id };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, Screen::Bed { bed: bed.id }),
            act_with_fields("done", Say::CompareDone, Tone::Good, command),
        ],
        ..plain(wire_head(bed, wire, Say::ScreenHandOver, now), Shape::Form(form), Say::CompareTitle)
    }
}

pub fn compared(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    let known = state.bed(bed).zip(state.wire(bed, wire));
    let done = known.and_then(|(_, wire)| wire.arrival.as_ref()?.compared.as_ref());
    match known.zip(done) {
        Some(((bed, wire), done)) => screen(bed, wire, done, now),
        None => beds::beds(state, now),
    }
}

fn screen(bed: &Bed, wire: &Wire, compared: &Compared, now: Moment) -> Screenful {
    let headline = headline(compared);
    let outcome = Outcome {
        headline: headline.clone(),
        rows: rows(compared),
        scales: Vec::new(),
        flags: warnings(compared),
        note: Some(Say::ComparedNote),
    };
    Screenful {
        answers: answers(bed, wire),
        aside: vec![go(
            "again",
            Say::CompareAgain,
            Tone::Plain,
            Screen::Compare { bed: bed.id, wire: wire.id },
        )],
        ..plain(wire_head(bed, wire, Say::ScreenHandOver, now), Shape::Result(outcome), headline)
    }
}

fn answers(bed: &Bed, wire: &Wire) -> Vec<Act<Say>> {
    let begin = Command::Begin { bed: bed.id, wire: wire.id };
    vec![
        go("bed", Say::Back, Tone::Strong, Screen::Bed { bed: bed.id }),
        act(format!("start-{}", wire.id), Say::StartCheck, Tone::Good, begin),
    ]
}

fn headline(compared: &Compared) -> Say {
    let all = [&compared.output, &compared.rate, &compared.mv];
    if compared.is_same() {
        Say::ComparedSame
    } else if all.into_iter().all(|beside| *beside == Beside::NotSaid) {
        Say::ComparedNotSaid
    } else {
        Say::ComparedDiffers
    }
}

/// Each dial as it stands with what was said of it; then what it means.
pub fn rows(compared: &Compared) -> Vec<Row<Say>> {
    let printed = &compared.printed;
    let output = in_unit(&printed.output, compared.unit);
    let rate = Say::FigureUnit { figure: printed.rate.clone(), unit: boxed(Say::PerMinute) };
    let mv = printed.mv.as_deref().map_or(Say::Asynchronous, figure);
    let said_output = |text: &str| in_unit(text, compared.unit);
    let mut rows = vec![
        dial_row(Dial::Output, output, &compared.output, said_output),
        dial_row(Dial::Rate, rate, &compared.rate, |text| figure(text)),
        dial_row(Dial::Mv, mv, &compared.mv, |text| figure(text)),
    ];
    rows.extend(margin_row(&compared.margin));
    rows.extend(signal_row(&compared.seeing));
    rows
}

fn dial_row(dial: Dial, stands: Say, beside: &Beside, said_as: impl Fn(&str) -> Say) -> Row<Say> {
    let note = match beside {
        Beside::NotSaid => Say::BesideNotSaid,
        Beside::Same => Say::BesideSame,
        Beside::Differs { said } => {
            Say::BesideDiffers { said: boxed(said.as_deref().map_or(Say::Asynchronous, said_as)) }
        }
        Beside::OtherUnit { said, unit } => Say::BesideOtherUnit { said: boxed(in_unit(said, *unit)) },
    };
    row(*dial_name(dial), stands, Some(note))
}

fn margin_row(margin: &Margin) -> Option<Row<Say>> {
    let (value, threshold) = match margin.clone() {
        Margin::Unknown => return Some(row(Say::RowMargin, Say::MarginUnknown, None)),
        Margin::Times { multiple, threshold, at_least: false, .. } => (Say::Multiple { multiple }, threshold),
        Margin::Times { multiple, threshold, at_least: true, .. } => {
            (Say::AtLeastMultiple { multiple }, threshold)
        }
        Margin::Lost { .. } => return None,
    };
    Some(row(Say::RowMargin, value, Some(Say::ThresholdAt { figure: threshold })))
}

fn signal_row(seeing: &Seeing) -> Option<Row<Say>> {
    let value = match seeing {
        Seeing::Sees { signal, at_least: false } => milli_volt(signal),
        Seeing::Sees { signal, at_least: true } | Seeing::Untried { signal } => {
            Say::AtLeast { figure: boxed(milli_volt(signal)) }
        }
        Seeing::NotTested => Say::NotTested,
        Seeing::Asynchronous | Seeing::Blind { .. } => return None,
    };
    Some(row(Say::RowSensing, value, None))
}

/// The number as it stands, beside the signal that it sees.
pub fn sees(number: String, signal: String, at_least: bool) -> Say {
    if at_least { Say::SummarySeesAtLeast { number, signal } } else { Say::SummarySees { number, signal } }
}

/// Below the threshold, or below what was shown to capture.
pub fn lost(output: Box<Say>, threshold: String, at_most: bool) -> Say {
    if at_most {
        Say::MarginNowUntried { output, threshold }
    } else {
        Say::MarginNowLost { output, threshold }
    }
}

/// What it means where the dials stand now, most urgent first.
pub fn warnings(compared: &Compared) -> Vec<Say> {
    let output = boxed(in_unit(&compared.printed.output, compared.unit));
    let margin = match compared.margin.clone() {
        Margin::Lost { threshold, at_most } => Some(lost(output, threshold, at_most)),
        Margin::Times { multiple, threshold, below_rule: true, at_least: false } => {
            Some(Say::MarginNowBelowRule { output, multiple, threshold })
        }
        Margin::Times { multiple, threshold, below_rule: true, at_least: true } => {
            Some(Say::MarginNowMayBeBelow { output, multiple, threshold })
        }
        Margin::Times { .. } | Margin::Unknown => None,
    };
    let seeing = match (compared.seeing.clone(), compared.printed.mv.clone()) {
        (Seeing::Blind { signal }, Some(number)) => Some(Say::SeesNowBlind { number, signal }),
        (Seeing::Untried { signal }, Some(number)) => Some(Say::NumberUntried { number, signal }),
        (Seeing::Asynchronous, _) => Some(Say::SeesNowAsynchronous),
        (Seeing::Blind { .. } | Seeing::Untried { .. } | Seeing::NotTested | Seeing::Sees { .. }, _) => None,
    };
    let other = matches!(compared.output, Beside::OtherUnit { .. }).then_some(Say::OtherUnitNoMargin);
    [margin, seeing, other].into_iter().flatten().collect()
}
