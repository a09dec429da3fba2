//! One page for the chart: what the result screen says, in black on white, with the app's own font inside.

mod layout;
mod typeface;

use domain::State;
use domain::contract::{Outcome, Row, Shape, View};
use domain::say::Say;
use domain::state::bed::{Bed, Wire};
use domain::state::screen::Screen;
use krilla::Document;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use words::Language;

use crate::care::Care;
use crate::time::stamp;
use layout::{Line, laid_out};
use typeface::Typefaces;

/// ISO 216 A4 in points of 1/72 inch.
const WIDTH: f32 = 595.28;
const HEIGHT: f32 = 841.89;
/// Sizes tried until the page is full and not more.
const SCALES: [f32; 4] = [1.0, 0.9, 0.8, 0.7];
/// For what the check found alone: small print rather than no page, and no other file with it.
const SMALL: [f32; 3] = [0.6, 0.5, 0.46];

/// Why there is no page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PdfFault {
    /// The check is not on this tablet (any more).
    NoSuchCheck,
    /// A sentence cannot be said in this language.
    Words,
    /// More text than one page holds at the smallest size.
    TooLong,
    /// The fonts or the file could not be made.
    File,
}

/// The page of one check.
///
/// # Errors
/// See `PdfFault`.
pub fn pdf(state: &State, check: &Care<'_>, language: Language) -> Result<Vec<u8>, PdfFault> {
    let view = result_view(state, check)?;
    let view = words::render(&view, language).map_err(|_| PdfFault::Words)?;
    let caution = words::say(&Say::CautionLocalRules, language).map_err(|_| PdfFault::Words)?;
    let at = stamp(check.record().ended).ok_or(PdfFault::NoSuchCheck)?;
    let Shape::Result(outcome) = &view.shape else { return Err(PdfFault::NoSuchCheck) };
    let mut lines = lines(&view, outcome, &at.replace('T', " "));
    let caution = Line::plain(&caution);
    let faces = Typefaces::new().ok_or(PdfFault::File)?;
    let at_scale = |lines: &[Line], scale: f32| laid_out(lines, &faces, scale, WIDTH, HEIGHT);
    let before = befell_before(state, check);
    let told =
        [lines.clone(), told(&before, language).ok_or(PdfFault::Words)?, vec![caution.clone()]].concat();
    if let Some(placed) = SCALES.into_iter().find_map(|scale| at_scale(&told, scale)) {
        return written(&placed, &faces, &view.head.title);
    }
    // What the check found comes first; that more happened is still said.
    let count = u32::try_from(before.len()).unwrap_or(u32::MAX);
    let more = words::say(&Say::PageMoreBefore { count }, language).map_err(|_| PdfFault::Words)?;
    lines.extend((count > 0).then(|| Line::plain(&more)));
    lines.push(caution);
    let placed = SCALES.into_iter().chain(SMALL).find_map(|scale| at_scale(&lines, scale));
    written(&placed.ok_or(PdfFault::TooLong)?, &faces, &view.head.title)
}

/// What befell the wire since the check before this one: nothing that comes later changes the page.
fn befell_before(state: &State, check: &Care<'_>) -> Vec<Row<Say>> {
    let record = check.record();
    let Some((bed, wire)) = place(state, check) else { return Vec::new() };
    let earlier = wire.records.iter().take_while(|one| one.id != record.id).last();
    let from = earlier.map_or(i64::MIN, |one| one.ended.wall_ms);
    let mut rows = domain::befell(state, bed, wire, record.ended);
    rows.retain(|(at, _)| *at > from && *at <= record.ended.wall_ms);
    rows.sort_by_key(|(at, _)| *at);
    rows.into_iter().map(|(_, row)| row).collect()
}

fn place<'a>(state: &'a State, check: &Care<'_>) -> Option<(&'a Bed, &'a Wire)> {
    let mut places = state.beds.iter().flat_map(|bed| bed.wires.iter().map(move |wire| (bed, wire)));
    places.find(|(_, wire)| wire.records.iter().any(|record| record.id == check.record().id))
}

fn told(rows: &[Row<Say>], language: Language) -> Option<Vec<Line>> {
    if rows.is_empty() {
        return Some(Vec::new());
    }
    let say = |said: &Say| words::say(said, language).ok();
    let mut lines = vec![Line::subtitle(&say(&Say::PageBefore)?)];
    for row in rows {
        lines.push(Line::row(&say(&row.label)?, &say(&row.value)?));
        lines.extend(match &row.note {
            Some(note) => Some(Line::note(&say(note)?)),
            None => None,
        });
    }
    Some(lines)
}

/// The result screen of this check, seen when it ended: no time on the page depends on when it was printed.
fn result_view(state: &State, check: &Care<'_>) -> Result<View<Say>, PdfFault> {
    let id = check.record().id;
    let place = place(state, check).and_then(|(bed, wire)| {
        let back = wire.records.iter().rev().position(|record| record.id == id)?;
        Some(Screen::Result { bed: bed.id, wire: wire.id, back: u32::try_from(back).ok()? })
    });
    let shown = State { screen: place.ok_or(PdfFault::NoSuchCheck)?, ..state.clone() };
    Ok(domain::view(&shown, check.record().ended))
}

fn lines(view: &View<String>, outcome: &Outcome<String>, at: &str) -> Vec<Line> {
    let mut lines = vec![Line::title(&view.head.title)];
    lines.extend(view.head.subtitle.as_deref().map(Line::subtitle));
    lines.push(Line::plain(at));
    lines.extend(view.marks.iter().map(|mark| Line::framed(mark)));
    lines.push(Line::subtitle(&outcome.headline));
    lines.extend(outcome.flags.iter().map(|flag| Line::framed(flag)));
    for row in &outcome.rows {
        lines.push(Line::row(&row.label, &row.value));
        lines.extend(row.note.as_deref().map(Line::note));
    }
    lines.extend(outcome.note.as_deref().map(Line::plain));
    lines
}

fn written(placed: &[layout::Placed], faces: &Typefaces, title: &str) -> Result<Vec<u8>, PdfFault> {
    let mut document = Document::new();
    document.set_metadata(Metadata::new().title(title.to_owned()));
    let mut page = document.start_page_with(PageSettings::from_wh(WIDTH, HEIGHT).ok_or(PdfFault::File)?);
    let mut surface = page.surface();
    placed.iter().for_each(|placed| placed.draw(&mut surface, faces));
    surface.finish();
    page.finish();
    document.finish().map_err(|_| PdfFault::File)
}
