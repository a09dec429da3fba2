//! The app's fonts (SIL Open Font License): the text face, and a zero without a slash, which blurred reads as 8.

use krilla::geom::Point;
use krilla::surface::Surface;
use krilla::text::{Font, TextDirection};
use ttf_parser::Face;

const REGULAR: &[u8] = include_bytes!("../../fonts/regular.ttf");
const BOLD: &[u8] = include_bytes!("../../fonts/bold.ttf");
const ZERO_REGULAR: &[u8] = include_bytes!("../../../../ui/fonts/zero-400.ttf");
const ZERO_BOLD: &[u8] = include_bytes!("../../../../ui/fonts/zero-700.ttf");

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    Regular,
    Bold,
}

pub struct Typefaces {
    regular: Typeface,
    bold: Typeface,
}

struct Typeface {
    text: Font,
    zero: Font,
    text_face: Face<'static>,
    zero_face: Face<'static>,
}

impl Typefaces {
    /// `None` when the bytes are no font.
    pub fn new() -> Option<Typefaces> {
        let typeface = |text: &'static [u8], zero: &'static [u8]| {
            Some(Typeface {
                text: Font::new(text.to_vec().into(), 0)?,
                zero: Font::new(zero.to_vec().into(), 0)?,
                text_face: Face::parse(text, 0).ok()?,
                zero_face: Face::parse(zero, 0).ok()?,
            })
        };
        Some(Typefaces { regular: typeface(REGULAR, ZERO_REGULAR)?, bold: typeface(BOLD, ZERO_BOLD)? })
    }

    fn of(&self, weight: Weight) -> &Typeface {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }

    /// The text with a mark in place of every letter that the font does not have, and without the marks that
    /// part a name's writing direction from its surroundings.
    pub fn printable(&self, text: &str) -> String {
        let has = |letter: char| self.regular.text_face.glyph_index(letter).is_some();
        let isolates = |letter: &char| !('\u{2066}'..='\u{2069}').contains(letter);
        text.chars().filter(isolates).map(|letter| if has(letter) { letter } else { '?' }).collect()
    }

    /// Points.
    pub fn width(&self, text: &str, weight: Weight, size: f32) -> f32 {
        text.chars().map(|letter| self.of(weight).advance(letter)).sum::<f32>() * size
    }

    /// Word by word: letters are drawn closer than `width` counts them, and over a line that would part a figure
    /// before its zero ("1 0").
    pub fn draw(&self, surface: &mut Surface<'_>, (x, y): (f32, f32), text: &str, weight: Weight, size: f32) {
        let face = self.of(weight);
        let mut from = x;
        for run in text.split_inclusive(' ').flat_map(runs) {
            let font = if run.starts_with('0') { &face.zero } else { &face.text };
            surface.draw_text(
                Point::from_xy(from, y),
                font.clone(),
                size,
                run,
                false,
                TextDirection::LeftToRight,
            );
            from += self.width(run, weight, size);
        }
    }
}

impl Typeface {
    /// In sizes of the font.
    fn advance(&self, letter: char) -> f32 {
        let face = if letter == '0' { &self.zero_face } else { &self.text_face };
        let advance = face.glyph_index(letter).and_then(|glyph| face.glyph_hor_advance(glyph));
        f32::from(advance.unwrap_or(0)) / f32::from(face.units_per_em())
    }
}

/// Zeros, and all between them.
fn runs(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        let zeros = rest.starts_with('0');
        let end = rest.find(|letter: char| (letter == '0') != zeros).unwrap_or(rest.len());
        let (run, after) = rest.split_at(end);
        rest = after;
        (!run.is_empty()).then_some(run)
    })
}
