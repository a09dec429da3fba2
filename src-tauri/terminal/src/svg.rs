//! A drawing in millimetres, as SVG.

use std::fmt::Write as _;

#[derive(Debug)]
pub struct Drawing {
    svg: String,
}

/// What a text's place is of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    Start,
    Middle,
    End,
}

impl Drawing {
    pub fn begun(wide_mm: f64, high_mm: f64) -> Drawing {
        let size =
            format!("width=\"{wide_mm}mm\" height=\"{high_mm}mm\" viewBox=\"0 0 {wide_mm} {high_mm}\"");
        Drawing { svg: format!("<svg xmlns=\"http://www.w3.org/2000/svg\" {size}>\n") }
    }

    /// `points` as [`points`] writes them, this far down; `look` is of the line.
    pub fn polyline(&mut self, down_mm: f64, look: &str, points: &str) {
        let line = "fill=\"none\" stroke=\"black\" stroke-width=\"0.25\"";
        let points = points.trim_end();
        put(
            &mut self.svg,
            format_args!(
                "<polyline transform=\"translate(0 {down_mm})\" {line}{look} points=\"{points}\"/>\n"
            ),
        );
    }

    pub fn text(&mut self, (x, y): (f64, f64), anchor: Anchor, text: &str) {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let look = format!("font-family=\"sans-serif\" font-size=\"4\" text-anchor=\"{anchor}\"");
        let text = text.replace('&', "&amp;").replace('<', "&lt;");
        put(&mut self.svg, format_args!("<text x=\"{x:.2}\" y=\"{y:.2}\" {look}>{text}</text>\n"));
    }

    pub fn circle(&mut self, (x, y): (f64, f64)) {
        put(&mut self.svg, format_args!("<circle cx=\"{x:.2}\" cy=\"{y:.2}\" r=\"1.2\"/>\n"));
    }

    pub fn square(&mut self, (x, y): (f64, f64)) {
        let corner = format!("x=\"{:.2}\" y=\"{:.2}\"", x - 1.1, y - 1.1);
        put(&mut self.svg, format_args!("<rect {corner} width=\"2.2\" height=\"2.2\"/>\n"));
    }

    pub fn end(self) -> String {
        self.svg + "</svg>\n"
    }
}

/// One more point of a line.
pub fn point(points: &mut String, (x, y): (f64, f64)) {
    put(points, format_args!("{x:.2},{y:.2} "));
}

/// Writing to a text cannot fail.
pub fn put(text: &mut String, what: std::fmt::Arguments<'_>) {
    let written = text.write_fmt(what);
    debug_assert!(written.is_ok());
}
