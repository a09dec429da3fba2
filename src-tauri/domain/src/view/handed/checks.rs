//! A check of another tablet as rows, as one row of a history, and as lines of a bed.

use super::compared::{lost, sees};
use crate::contract::Row;
use crate::handover::compare::{Margin, Seeing};
use crate::handover::history::{Arrival, HandedCheck, standing};
use crate::handover::stamp::Minute;
use crate::handover::summary::{Capture, Check, DialsAt, Mention, OwnBeats, Sensing};
use crate::moment::Moment;
use crate::say::{Say, figure};
use crate::state::bed::Wire;
use crate::units::OutputUnit;
use crate::view::figures::output_unit;
use crate::view::pieces::{boxed, clock_of, milli_volt, row, when};

pub fn wall_ms(minute: Minute) -> i64 {
    i64::from(minute) * 60_000
}

/// In the order of a result.
pub fn rows(check: &Check, now: Moment) -> Vec<Row<Say>> {
    let mut rows = vec![row(Say::RowHandedRead, read_at(check, now), None)];
    rows.extend(check.dials.as_ref().map(|dials| dials_row(check, dials)));
    rows.push(row(Say::RowCapture, capture(check), capture_note(check)));
    rows.extend(
        check.margin.as_ref().map(|margin| row(Say::RowMargin, multiple(check, margin.text()), None)),
    );
    rows.push(row(Say::RowSensing, sensing(&check.sensing), None));
    rows.push(row(Say::RowOwnBeats, own(&check.own, check, now), None));
    rows
}

fn read_at(check: &Check, now: Moment) -> Say {
    let at = |minute| boxed(when(wall_ms(minute), now));
    match check.read_later {
        _ if check.read => Say::HandedRead { time: at(check.ended) },
        Some(later) => Say::HandedReadLater { time: at(check.ended.saturating_add(later)) },
        None => Say::HandedNotRead { time: at(check.ended) },
    }
}

fn dials_row(check: &Check, dials: &DialsAt) -> Row<Say> {
    let value = Say::HandedDials {
        output: boxed(in_unit(dials.output.text(), check.unit)),
        rate: dials.rate.to_string(),
        mv: boxed(dials.mv.as_ref().map_or(Say::Asynchronous, |mv| figure(mv.text()))),
    };
    row(Say::RowHandedDials, value, None)
}

pub fn in_unit(text: &str, unit: OutputUnit) -> Say {
    Say::FigureUnit { figure: text.to_owned(), unit: boxed(output_unit(unit)) }
}

fn capture(check: &Check) -> Say {
    let said = |text: &str| boxed(in_unit(text, check.unit));
    match &check.capture {
        Capture::NotTested | Capture::Held { .. } => Say::NotTested,
        Capture::Exact { at } => *said(at.text()),
        Capture::Bracket { low, high } => Say::Between { low: low.to_string(), high: said(high.text()) },
        Capture::AtMost { at } => Say::AtMost { figure: said(at.text()) },
    }
}

fn capture_note(check: &Check) -> Option<Say> {
    match &check.capture {
        Capture::NotTested => None,
        Capture::Held { at } => Some(Say::GoingDown { figure: at.to_string() }),
        Capture::Exact { .. } | Capture::Bracket { .. } | Capture::AtMost { .. } => Some(Say::SmallIsGood),
    }
}

fn multiple(check: &Check, text: &str) -> Say {
    let multiple = text.to_owned();
    match check.capture {
        Capture::AtMost { .. } => Say::AtLeastMultiple { multiple },
        Capture::NotTested | Capture::Held { .. } | Capture::Exact { .. } | Capture::Bracket { .. } => {
            Say::Multiple { multiple }
        }
    }
}

fn sensing(sensing: &Sensing) -> Say {
    match sensing {
        Sensing::NotTested => Say::NotTested,
        Sensing::Exact { at } => milli_volt(at.text()),
        Sensing::AtLeast { at } => Say::AtLeast { figure: boxed(milli_volt(at.text())) },
        Sensing::AsFound { at } => Say::SeenAtFound { figure: boxed(milli_volt(at.text())) },
        Sensing::NoneSaw => Say::SeenAtNone,
    }
}

fn own(own: &OwnBeats, check: &Check, now: Moment) -> Say {
    match own {
        OwnBeats::NotLooked => Say::OwnNotLooked,
        OwnBeats::Unmeasured => Say::OwnNotMeasured,
        OwnBeats::NoneSeen { limit } => {
            Say::OwnNotSeen { limit: limit.to_string(), time: clock_of(wall_ms(check.ended), now) }
        }
        OwnBeats::Seen { slowest, fastest } => rates(*slowest, *fastest),
        OwnBeats::ThenLost { slowest, fastest } => Say::OwnThenLost { own: boxed(rates(*slowest, *fastest)) },
    }
}

fn rates(slowest: u8, fastest: u8) -> Say {
    if slowest == fastest {
        return Say::OwnRate { rate: slowest.to_string() };
    }
    Say::OwnRange { slowest: slowest.to_string(), fastest: fastest.to_string() }
}

/// What the other team must have known, in this tablet's words.
pub fn flag(mention: &Mention, check: &Check) -> Say {
    match mention {
        Mention::NoCaptureAtMaximum => Say::FlagNoCaptureAtMaximum,
        Mention::NoRuleSatisfied => Say::FlagNoRuleSatisfied,
        Mention::StillBlind => Say::FlagStillBlind,
        Mention::SeesNothing => Say::FlagSeesNothing,
        Mention::WrongChamber => Say::FlagWrongChamber,
        Mention::NoBeats => Say::FlagNoBeats,
        Mention::Shock => Say::FlagShock,
        Mention::Fibrillation => Say::FlagFibrillation,
        Mention::LostUnsought => Say::FlagLostUnsought,
        Mention::NotPacedOver => Say::FlagNotPacedOver,
        Mention::NumberBelowLowest => Say::FlagNumberBelowLowest,
        Mention::FoundDidNotCapture => Say::FlagFoundDidNotCapture,
        Mention::DidNotSeeAsFound => Say::FlagDidNotSeeAsFound,
        Mention::NumberRefused => Say::FlagNumberRefused,
        Mention::CaptureAboveLimit { limit } => {
            Say::FlagHandedAboveLimit { limit: boxed(in_unit(limit.text(), check.unit)) }
        }
        Mention::SignalBelowLimit { limit } => Say::FlagHandedBelowLimit { limit: limit.to_string() },
        Mention::FoundMargin { multiple } => Say::FlagFoundMarginBelowRule { multiple: multiple.to_string() },
        Mention::LeftAsRead => Say::FlagLeftAsRead,
        Mention::BlockFromRate => Say::FlagBlockFromRate,
        Mention::Pauses => Say::FlagPauses,
        Mention::ExtraBeatUnmarked => Say::FlagExtraBeatUnmarked,
        Mention::MarksWithoutBeats => Say::FlagMarksWithoutBeats,
        Mention::Doubled { was } => Say::FlagHandedDoubled { was: boxed(in_unit(was.text(), check.unit)) },
        Mention::SignalHalved { was } => Say::FlagHandedSignal { was: was.to_string() },
        Mention::FoundAsynchronous => Say::FlagFoundAsynchronous,
        Mention::NotTolerated => Say::FlagNotTolerated,
        Mention::SpikeAtMinimum => Say::FlagSpikeAtMinimum,
    }
}

/// Among the checks of this tablet, with where it comes from.
pub fn history_row(handed: &HandedCheck, name: Option<&str>, now: Moment) -> (i64, Row<Say>) {
    let at = wall_ms(handed.check.ended);
    let time =
        Say::HistoryWhen { date: crate::moment::date_text(at, now.offset_min), time: clock_of(at, now) };
    let value = Say::HistoryValue {
        capture: boxed(capture(&handed.check)),
        sensing: boxed(sensing(&handed.check.sensing)),
    };
    let tablet = name.map_or_else(|| handed.tablet.short(), crate::say::isolated);
    (at, row(time, value, Some(Say::HistoryFrom { tablet })))
}

/// A handover newer than the last check here, as lines of its wire on the bed.
pub fn summary_lines(wire: &Wire) -> Option<Vec<Say>> {
    standing(wire).map(lines)
}

fn lines(arrival: &Arrival) -> Vec<Say> {
    let Some(compared) = &arrival.compared else {
        return vec![Say::HandedNotCompared { time: arrival.at.clock() }];
    };
    let output = boxed(in_unit(&compared.printed.output, compared.unit));
    let margin = match compared.margin.clone() {
        Margin::Unknown => Say::SummaryOutput { output },
        Margin::Times { multiple, threshold, at_least: false, .. } => {
            Say::SummaryMargin { output, multiple, threshold }
        }
        Margin::Times { multiple, threshold, at_least: true, .. } => {
            Say::SummaryMarginAtMost { output, multiple, threshold }
        }
        Margin::Lost { threshold, at_most } => lost(output, threshold, at_most),
    };
    let seeing = match (compared.printed.mv.clone(), compared.seeing.clone()) {
        (None, _) => Say::SummaryAsynchronous,
        (Some(number), Seeing::Sees { signal, at_least }) => sees(number, signal, at_least),
        (Some(number), Seeing::Untried { signal }) => Say::NumberUntried { number, signal },
        (Some(number), Seeing::Blind { signal }) => Say::SeesNowBlind { number, signal },
        (Some(number), Seeing::NotTested | Seeing::Asynchronous) => Say::SummarySeesOnly { number },
    };
    vec![margin, seeing]
}
