//! What the dials as read mean: what differs, the margin on the newest threshold, the number beside the signal.

use super::Card;
use super::shapes::plain;
use crate::check::facts::Dial;
use crate::contract::Shape;
use crate::handover::compare::{Beside, Compared, Margin, Seeing};
use crate::handover::known::Source;
use crate::say::{Say, dial_name, figure};
use crate::state::transport::Reading;
use crate::view::handed::{in_unit, sees};
use crate::view::pieces::boxed;

pub fn shape(card: &Card<'_>) -> Shape<Say> {
    match card.reading() {
        Some(reading) => plain(title(reading), lines(&reading.compared), None),
        None => plain(Say::MarginFirst, vec![Say::WayMarginUnknown], None),
    }
}

fn title(reading: &Reading) -> Say {
    let compared = &reading.compared;
    let said_nothing = compared.output == Beside::NotSaid;
    match (reading.by, compared.is_same()) {
        (None, _) => Say::MarginFirst,
        (Some(_), _) if said_nothing => Say::MarginFirst,
        (Some(Source::Code), true) => Say::ComparedSame,
        (Some(Source::Code), false) => Say::ComparedDiffers,
        (Some(Source::Check | Source::Reading), true) => Say::MarginSame,
        (Some(Source::Check | Source::Reading), false) => Say::MarginDiffers,
    }
}

fn lines(compared: &Compared) -> Vec<Say> {
    let mut lines = differs(compared);
    lines.extend(output(compared));
    lines.extend(number(compared));
    lines
}

/// Each dial that stands elsewhere than it was said to.
pub fn differs(compared: &Compared) -> Vec<Say> {
    let printed = &compared.printed;
    let output = |text: &str| in_unit(text, compared.unit);
    let rate = |text: &str| Say::FigureUnit { figure: text.to_owned(), unit: boxed(Say::PerMinute) };
    let mv = printed.mv.as_deref().map_or(Say::Asynchronous, figure);
    [
        line(Dial::Output, output(&printed.output), &compared.output, output),
        line(Dial::Rate, rate(&printed.rate), &compared.rate, rate),
        line(Dial::Mv, mv, &compared.mv, |text| figure(text)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn line(dial: Dial, read: Say, beside: &Beside, written: impl Fn(&str) -> Say) -> Option<Say> {
    let Beside::Differs { said } = beside else { return None };
    let expected = boxed(said.as_deref().map_or(Say::Asynchronous, written));
    Some(Say::DiffersLine { dial: dial_name(dial), read: boxed(read), expected })
}

/// On a box whose threshold nobody has taken the margin is not known, and that is said.
fn output(compared: &Compared) -> Vec<Say> {
    let output = boxed(in_unit(&compared.printed.output, compared.unit));
    let other_unit = matches!(compared.output, Beside::OtherUnit { .. });
    match compared.margin.clone() {
        Margin::Unknown if other_unit => vec![Say::WayOtherUnit],
        Margin::Unknown => vec![Say::WayMarginUnknown],
        Margin::Lost { threshold, at_most: false } => vec![Say::WayMarginLost { output, threshold }],
        Margin::Lost { threshold, at_most: true } => vec![Say::WayMarginUntried { output, threshold }],
        Margin::Times { multiple, threshold, at_least, below_rule } => {
            let margin = if at_least {
                Say::SummaryMarginAtMost { output, multiple, threshold }
            } else {
                Say::SummaryMargin { output, multiple, threshold }
            };
            std::iter::once(margin).chain(below_rule.then_some(Say::MarginBelowRule)).collect()
        }
    }
}

/// That own beats are seen is said where nothing else is to be read.
fn number(compared: &Compared) -> Option<Say> {
    let number = compared.printed.mv.clone();
    match (compared.seeing.clone(), number) {
        (Seeing::Sees { signal, at_least }, Some(number)) if compared.is_same() => {
            Some(sees(number, signal, at_least))
        }
        (Seeing::Blind { signal }, Some(number)) => Some(Say::MarginBlind { number, signal }),
        (Seeing::Untried { signal }, Some(number)) => Some(Say::NumberUntried { number, signal }),
        (Seeing::Asynchronous, _) => Some(Say::WayAsynchronous),
        (Seeing::Sees { .. } | Seeing::Blind { .. } | Seeing::Untried { .. } | Seeing::NotTested, _) => None,
    }
}
