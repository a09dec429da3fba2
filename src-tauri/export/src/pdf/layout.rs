//! Where each text stands on the page.

use krilla::geom::PathBuilder;
use krilla::paint::Stroke;
use krilla::surface::Surface;

use super::typeface::{Typefaces, Weight};

const MARGIN: f32 = 56.0;
/// Where the values of rows begin.
const VALUES: f32 = 230.0;
const PADDING: f32 = 6.0;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Style {
    Title,
    Subtitle,
    Plain,
    /// A mark or a flag: never overlooked.
    Framed,
    Row,
    Note,
}

/// One text, or a label and a value.
#[derive(Clone, Debug)]
pub struct Line {
    style: Style,
    label: Option<String>,
    text: String,
}

impl Line {
    fn of(style: Style, text: &str) -> Line {
        Line { style, label: None, text: text.to_owned() }
    }

    pub fn title(text: &str) -> Line {
        Line::of(Style::Title, text)
    }

    pub fn subtitle(text: &str) -> Line {
        Line::of(Style::Subtitle, text)
    }

    pub fn plain(text: &str) -> Line {
        Line::of(Style::Plain, text)
    }

    pub fn framed(text: &str) -> Line {
        Line::of(Style::Framed, text)
    }

    pub fn note(text: &str) -> Line {
        Line::of(Style::Note, text)
    }

    pub fn row(label: &str, value: &str) -> Line {
        Line { label: Some(label.to_owned()), ..Line::of(Style::Row, value) }
    }
}

impl Style {
    /// Size in points, weight, and the room above.
    fn look(self) -> (f32, Weight, f32) {
        match self {
            Style::Title => (24.0, Weight::Bold, 0.0),
            Style::Subtitle => (15.0, Weight::Bold, 8.0),
            Style::Plain => (11.0, Weight::Regular, 8.0),
            Style::Framed => (12.0, Weight::Bold, 8.0),
            Style::Row => (13.0, Weight::Bold, 10.0),
            Style::Note => (10.5, Weight::Regular, 2.0),
        }
    }

    fn left(self) -> f32 {
        match self {
            Style::Row | Style::Note => VALUES,
            Style::Framed => MARGIN + PADDING,
            Style::Title | Style::Subtitle | Style::Plain => MARGIN,
        }
    }
}

/// A piece with its place: the base line's left end, in points from the top left corner.
#[derive(Clone, Debug)]
pub enum Placed {
    Text { x: f32, y: f32, text: String, weight: Weight, size: f32 },
    Frame { x: f32, y: f32, width: f32, height: f32 },
}

impl Placed {
    pub fn draw(&self, surface: &mut Surface<'_>, faces: &Typefaces) {
        match self {
            Placed::Text { x, y, text, weight, size } => faces.draw(surface, (*x, *y), text, *weight, *size),
            Placed::Frame { x, y, width, height } => draw_frame(surface, (*x, *y), (*width, *height)),
        }
    }
}

fn draw_frame(surface: &mut Surface<'_>, (x, y): (f32, f32), (width, height): (f32, f32)) {
    let mut path = PathBuilder::new();
    path.move_to(x, y);
    path.line_to(x + width, y);
    path.line_to(x + width, y + height);
    path.line_to(x, y + height);
    path.close();
    let Some(path) = path.finish() else { return };
    surface.set_fill(None);
    surface.set_stroke(Some(Stroke { width: 1.5, ..Stroke::default() }));
    surface.draw_path(&path);
    surface.set_stroke(None);
    surface.set_fill(Some(krilla::paint::Fill::default()));
}

/// Every line from the top down, sizes times `scale`; `None` when they do not fit on one page.
pub fn laid_out(
    lines: &[Line],
    faces: &Typefaces,
    scale: f32,
    width: f32,
    height: f32,
) -> Option<Vec<Placed>> {
    let mut placed = Vec::new();
    let mut y = MARGIN;
    for line in lines {
        y = place(line, faces, scale, y, width, &mut placed);
    }
    (y <= height - MARGIN).then_some(placed)
}

/// Returns the lower end of the line.
fn place(line: &Line, faces: &Typefaces, scale: f32, top: f32, width: f32, placed: &mut Vec<Placed>) -> f32 {
    let (size, weight, above) = line.style.look();
    let (size, left) = (size * scale, line.style.left());
    let framed = line.style == Style::Framed;
    let top = top + above * scale;
    let padding = if framed { PADDING * scale } else { 0.0 };
    let text = faces.printable(&line.text);
    let values = wrapped(&text, faces, weight, size, width - MARGIN - left - padding);
    let label = faces.printable(line.label.as_deref().unwrap_or_default());
    let labels = wrapped(&label, faces, Weight::Regular, size, VALUES - MARGIN - PADDING);
    let mut put = |texts: &[String], x: f32, weight: Weight| {
        for (row, text) in texts.iter().enumerate() {
            let y = top + padding + size * (1.0 + 1.25 * row as f32);
            placed.push(Placed::Text { x, y, text: text.clone(), weight, size });
        }
    };
    put(&labels, MARGIN, Weight::Regular);
    put(&values, left, weight);
    let rows = labels.len().max(values.len()) as f32;
    let height = size * 1.25 * rows + 2.0 * padding;
    if framed {
        placed.push(Placed::Frame { x: MARGIN, y: top, width: width - 2.0 * MARGIN, height });
    }
    top + height
}

/// Broken at blanks; a word wider than the column stands alone and is broken inside.
fn wrapped(text: &str, faces: &Typefaces, weight: Weight, size: f32, most: f32) -> Vec<String> {
    let fits = |text: &str| faces.width(text, weight, size) <= most;
    let mut rows: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let joined = rows.last().map(|row| format!("{row} {word}")).filter(|row| fits(row));
        match (joined, rows.last_mut()) {
            (Some(joined), Some(row)) => *row = joined,
            _ => rows.extend(broken(word, &fits)),
        }
    }
    rows
}

fn broken(word: &str, fits: &impl Fn(&str) -> bool) -> Vec<String> {
    let mut rows = vec![String::new()];
    for letter in word.chars() {
        let longer = rows.last().map(|row| format!("{row}{letter}")).unwrap_or_default();
        match rows.last_mut() {
            Some(row) if fits(&longer) || row.is_empty() => *row = longer,
            _ => rows.push(letter.to_string()),
        }
    }
    rows
}
