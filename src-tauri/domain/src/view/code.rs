//! The codes of a wire as they were made and signed: two faces of one card.

use super::pieces::{go, plain, row, wire_head};
use super::{Screenful, beds};
use crate::contract::{Act, Code, Row, Shape, Tone};
use crate::handover::code::MadeCode;
use crate::handover::drawing::{Drawing, Level, MOST_VERSION_COPY, MOST_VERSION_LINES, draw};
use crate::handover::summary::{NoSummary, Summary};
use crate::moment::Moment;
use crate::say::{Say, figure};
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;

/// Plain lines that any phone shows.
pub fn lines(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    screen(state, bed, wire, Face::Lines, now)
}

/// With the checks before, for another tablet.
pub fn copy(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    screen(state, bed, wire, Face::Copy, now)
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Face {
    Lines,
    Copy,
}

fn screen(state: &State, bed: u32, wire: u32, face: Face, now: Moment) -> Screenful {
    let Some((bed, wire)) = state.bed(bed).zip(state.wire(bed, wire)) else { return beds::beds(state, now) };
    let code = match made(state, wire) {
        Ok(made) => shown(made, face),
        Err(note) => Code { across: 0, modules: Vec::new(), rows: Vec::new(), note },
    };
    let note = code.note.clone();
    Screenful {
        answers: answers(bed, wire, face, !code.rows.is_empty()),
        ..plain(wire_head(bed, wire, Say::ScreenHandOver, now), Shape::Code(code), note)
    }
}

/// The code of the newest check; or why there is none.
fn made<'s>(state: &State, wire: &'s Wire) -> Result<&'s MadeCode, Say> {
    let last = Summary::last(wire).map_err(why_no_code)?;
    if !state.own_key.is_there() {
        return Err(Say::CodeNoKey);
    }
    let made = wire.code.as_ref().filter(|made| made.check == last.id && !state.code_wanted);
    made.ok_or(Say::CodeBeingMade)
}

/// The sentence for it.
pub fn why_no_code(why: NoSummary) -> Say {
    match why {
        NoSummary::NoCheck => Say::CodeNothing,
        NoSummary::CheckOpen => Say::CodeCheckOpen,
        NoSummary::DialsElsewhere => Say::CodeDialsDiffer,
        NoSummary::HandedOverSince => Say::CodeHandedSince,
        NoSummary::Unreadable => Say::CodeTooLong,
    }
}

fn shown(made: &MadeCode, face: Face) -> Code<Say> {
    let signed = row(Say::CodeSignedBy, figure(made.tablet.short()), None);
    let (drawing, mut rows, note) = match face {
        Face::Lines => {
            let text = made.lines.as_deref();
            let rows = made.readable().into_iter().map(line).collect();
            (text.and_then(|text| draw(text, Level::M, MOST_VERSION_LINES)), rows, Say::CodeNote)
        }
        Face::Copy => {
            let text = made.copy.as_deref();
            (text.and_then(|text| draw(text, Level::Q, MOST_VERSION_COPY)), Vec::new(), Say::CodeCopyNote)
        }
    };
    rows.push(signed);
    let note = if drawing.is_some() { note } else { Say::CodeTooLong };
    let across = drawing.as_ref().map_or(0, |drawing| drawing.width);
    Code {
        across: u16::try_from(across).unwrap_or(0),
        modules: drawing.as_ref().map(Drawing::packed).unwrap_or_default(),
        rows,
        note,
    }
}

/// "label: value"
fn line(text: &str) -> Row<Say> {
    let (label, value) = text.split_once(": ").unwrap_or((text, ""));
    row(figure(label), figure(value), None)
}

fn answers(bed: &Bed, wire: &Wire, face: Face, is_made: bool) -> Vec<Act<Say>> {
    let (bed, wire) = (bed.id, wire.id);
    let other = match face {
        Face::Lines => go("copy", Say::CodeForTablet, Tone::Strong, Screen::CodeCopy { bed, wire }),
        Face::Copy => go("lines", Say::CodeForPhone, Tone::Strong, Screen::Code { bed, wire }),
    };
    let back = go("bed", Say::Back, Tone::Strong, Screen::Bed { bed });
    [Some(back), is_made.then_some(other)].into_iter().flatten().collect()
}
