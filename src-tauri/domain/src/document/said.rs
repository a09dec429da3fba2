//! A fault in words: what, where, what is allowed, which source.

use super::fault::{Fault, Kind, Why};
use crate::nbg::NotACode;
use crate::say::{Say, figure};

/// Characters of a file that are repeated to the person.
const ECHO: usize = 48;

impl Fault {
    /// One sentence for whoever wrote the file.
    pub fn say(&self) -> Say {
        let what = self.why.say();
        if self.place.is_empty() {
            return what;
        }
        Say::FaultAt { place: echo(&self.place), what: Box::new(what) }
    }
}

impl Why {
    fn say(&self) -> Say {
        match self {
            Why::FileTooLong { most } => Say::FaultTooLong { most: (most / 1024).to_string() },
            Why::NotJson { line, column } => {
                Say::FaultNotJson { line: line.to_string(), column: column.to_string() }
            }
            Why::RepeatedField { line, .. } => Say::FaultRepeated { line: line.to_string() },
            Why::Missing => Say::FaultMissing,
            Why::NoSuchField { allowed } => Say::FaultNoSuchName { allowed: allowed.join(", ") },
            Why::WrongKind { found, wanted } => {
                Say::FaultWrongKind { found: Box::new(stands(found)), wanted: Box::new(kind(*wanted)) }
            }
            Why::TextLength { most } => Say::FaultTextLength { most: most.to_string() },
            Why::NotOneOf { found, allowed } => {
                Say::FaultNotOneOf { found: echo(found), allowed: allowed.join(", ") }
            }
            Why::NotAsPrinted { found } => Say::FaultNotAsPrinted { found: echo(found) },
            Why::NotPositive { found } => Say::FaultNotPositive { found: echo(found) },
            Why::Unsorted { found, after } => Say::FaultUnsorted { found: echo(found), after: echo(after) },
            Why::Duplicate { found } => Say::FaultDuplicate { found: echo(found) },
            Why::Count { found, least, most } => {
                Say::FaultCount { found: found.to_string(), least: least.to_string(), most: most.to_string() }
            }
            Why::SpanMissesEnd { from, to, step } => {
                Say::FaultSpan { from: echo(from), to: echo(to), step: echo(step) }
            }
            Why::NotAMode { found, why } => {
                Say::FaultNotAMode { found: echo(found), why: Box::new(not_a_code(why)) }
            }
            Why::NoDemandMode => Say::FaultNoDemandMode,
            Why::OutOfRange { found, least, greatest, unit, source } => Say::FaultOutOfRange {
                found: echo(found),
                least: least.clone(),
                greatest: greatest.clone(),
                unit: Box::new(figure(unit)),
                source: Box::new(range_source(source)),
            },
            Why::NotAFigure { found, least, greatest, unit, source } => Say::FaultNotAFigure {
                found: Box::new(stands(found)),
                least: least.clone(),
                greatest: greatest.clone(),
                unit: Box::new(figure(unit)),
                source: Box::new(range_source(source)),
            },
            Why::BandReversed { low, high } => {
                Say::FaultBandReversed { low: low.clone(), high: high.clone() }
            }
            Why::AimOutsideBand { aim, low, high } => {
                Say::FaultAim { aim: aim.clone(), low: low.clone(), high: high.clone() }
            }
            Why::BelowDoubleUnapproved { low } => Say::FaultBelowDouble { low: low.clone() },
            Why::BelowOther { found, other, least } => {
                Say::FaultBelowOther { found: echo(found), other: other.clone(), least: least.clone() }
            }
            Why::AboveOther { found, other, greatest } => {
                Say::FaultAboveOther { found: echo(found), other: other.clone(), greatest: greatest.clone() }
            }
            Why::Contradicts { other } => Say::FaultContradicts { other: other.clone() },
            Why::NotADate { found } => Say::FaultNotADate { found: echo(found) },
            Why::NotAllowed => Say::FaultNotAllowed,
        }
    }
}

fn kind(kind: Kind) -> Say {
    match kind {
        Kind::Text => Say::KindText,
        Kind::WholeNumber => Say::KindWholeNumber,
        Kind::WholeTo(greatest) => Say::KindWholeTo { greatest: greatest.to_string() },
        Kind::NotNegative => Say::KindNotNegative,
        Kind::Figure => Say::KindFigure,
        Kind::Printed => Say::KindPrinted,
        Kind::NameOrGroup => Say::KindNameOrGroup,
        Kind::YesNo => Say::KindYesNo,
        Kind::List => Say::KindList,
        Kind::Object => Say::KindGroup,
    }
}

/// A list or a group is named, not repeated.
fn stands(found: &str) -> Say {
    match found.chars().next() {
        Some('{') => Say::KindGroup,
        Some('[') => Say::KindList,
        _ => figure(echo(found)),
    }
}

fn not_a_code(why: &NotACode) -> Say {
    match why {
        NotACode::Length { .. } => Say::CodeLength,
        NotACode::DigitZero { place } => Say::CodeDigitZero { place: place.to_string() },
        NotACode::MakersLetter { place } => Say::CodeMakersLetter { place: place.to_string() },
        NotACode::Letter { place, found, allowed } => Say::CodeLetter {
            place: place.to_string(),
            found: echo(&found.to_string()),
            allowed: allowed.clone(),
        },
    }
}

fn range_source(keys: &str) -> Say {
    if keys.is_empty() { Say::RangeNoSource } else { Say::RangeSource { keys: keys.to_owned() } }
}

/// What stands in the file, short, and without marks that would turn the reading direction.
fn echo(found: &str) -> String {
    let kept: String = found.chars().filter(|c| !crate::say::is_invisible(*c)).take(ECHO + 1).collect();
    if kept.chars().count() <= ECHO {
        return kept;
    }
    kept.chars().take(ECHO).chain(['…']).collect()
}
