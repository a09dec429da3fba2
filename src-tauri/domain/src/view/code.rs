//! The handover code of a wire: a QR code of plain lines that any phone reads, and the same lines.

use qrcode::{Color, EcLevel, QrCode};

use super::pieces::{go, plain, wire_head};
use super::{Screenful, beds};
use crate::contract::{Code, Row, Shape, Tone};
use crate::handover_lines::{HandoverLine, handover_lines, text_of};
use crate::moment::Moment;
use crate::say::{Say, figure};
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;

pub fn code(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    match state.bed(bed).zip(state.wire(bed, wire)) {
        Some((bed, wire)) => screen(state, bed, wire, now),
        None => beds::beds(state, now),
    }
}

fn screen(state: &State, bed: &Bed, wire: &Wire, now: Moment) -> Screenful {
    let open = wire.check.is_some();
    let elsewhere = wire.standing.is_some();
    let lines = if open || elsewhere { Vec::new() } else { handover_lines(state, wire, now) };
    let modules = if lines.is_empty() { Vec::new() } else { modules(&text_of(&lines)) };
    let note = match (lines.is_empty(), modules.is_empty()) {
        _ if open => Say::CodeCheckOpen,
        _ if elsewhere => Say::CodeDialsDiffer,
        (true, _) => Say::CodeNothing,
        (false, true) => Say::CodeTooLong,
        (false, false) => Say::CodeNote,
    };
    let code = Code { modules, rows: lines.into_iter().map(row).collect(), note: note.clone() };
    Screenful {
        answers: vec![go("bed", Say::Back, Tone::Strong, Screen::Bed { bed: bed.id })],
        ..plain(wire_head(bed, wire, Say::ScreenHandOver, now), Shape::Code(code), note)
    }
}

fn row(line: HandoverLine) -> Row<Say> {
    Row { label: figure(line.label), value: figure(line.value), note: None }
}

/// Square rows of '0' and '1' without the quiet zone; empty when the text is too long for any code.
pub fn modules(text: &str) -> Vec<String> {
    let code = QrCode::with_error_correction_level(text.as_bytes(), EcLevel::M);
    code.map(|code| rows_of(&code)).unwrap_or_default()
}

fn rows_of(code: &QrCode) -> Vec<String> {
    let dark = |color: &Color| if *color == Color::Dark { '1' } else { '0' };
    code.to_colors().chunks(code.width()).map(|row| row.iter().map(dark).collect()).collect()
}
