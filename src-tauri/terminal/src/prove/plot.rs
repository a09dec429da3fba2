//! What watched beats leave open, drawn: the formula as a line, what was simulated as marks.

use proof::{Scatter, Watched, left_open};

use crate::svg::{Anchor, Drawing, point};

const WIDE: f64 = 210.0;
const HIGH: f64 = 120.0;
const LEFT: f64 = 18.0;
const RIGHT: f64 = 190.0;
const TOP: f64 = 18.0;
const BOTTOM: f64 = 100.0;
const MOST_BEATS: u8 = 30;
const FEWEST_BEATS: u8 = 5;
/// Of the scale, unless a share is greater.
const LEAST_SCALE: f64 = 0.5;

/// Where a number of beats and a share stand.
struct Scale {
    most: f64,
}

pub fn svg(scatter: &Scatter) -> String {
    let shares = scatter.rows.iter().flat_map(|row| [row.missed_by_95(), row.below_rule()]);
    let most = shares.fold(LEAST_SCALE, f64::max);
    let scale = Scale { most: (most * 10.0).ceil() / 10.0 };
    let mut drawing = Drawing::begun(WIDE, HIGH);
    let checks = scatter.rows.iter().map(|row| row.checks).max().unwrap_or(0);
    let title = format!("Simulated: {checks} checks at each number of beats; rule: double the threshold");
    drawing.text((LEFT, 8.0), Anchor::Start, &title);
    axes(&mut drawing, &scale, &scatter.rows);
    formula(&mut drawing, &scale);
    let missed: Vec<(u8, f64)> = scatter.rows.iter().map(|row| (row.beats, row.missed_by_95())).collect();
    let below: Vec<(u8, f64)> = scatter.rows.iter().map(|row| (row.beats, row.below_rule())).collect();
    line(&mut drawing, &scale, " stroke-dasharray=\"3 1.5\"", &missed);
    line(&mut drawing, &scale, " stroke-dasharray=\"0.5 1.5\"", &below);
    missed.iter().for_each(|(beats, share)| drawing.circle(scale.at(*beats, *share)));
    below.iter().for_each(|(beats, share)| drawing.square(scale.at(*beats, *share)));
    legend(&mut drawing);
    drawing.end()
}

impl Scale {
    fn at(&self, beats: u8, share: f64) -> (f64, f64) {
        let x = LEFT + f64::from(beats) / f64::from(MOST_BEATS) * (RIGHT - LEFT);
        (x, BOTTOM - share / self.most * (BOTTOM - TOP))
    }
}

fn axes(drawing: &mut Drawing, scale: &Scale, rows: &[Watched]) {
    let ends = [(LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)];
    let mut points = String::new();
    ends.iter().for_each(|end| point(&mut points, *end));
    drawing.polyline(0.0, "", &points);
    for tenth in 0..=(scale.most * 10.0).round() as u32 {
        let (_, y) = scale.at(0, f64::from(tenth) / 10.0);
        drawing.text((LEFT - 2.0, y + 1.4), Anchor::End, &format!("{}%", tenth * 10));
    }
    for row in rows {
        let (x, y) = scale.at(row.beats, 0.0);
        drawing.text((x, y + 6.0), Anchor::Middle, &row.beats.to_string());
    }
    let middle = f64::midpoint(LEFT, RIGHT);
    drawing.text((middle, BOTTOM + 13.0), Anchor::Middle, "beats watched at the threshold, none missed");
}

fn formula(drawing: &mut Drawing, scale: &Scale) {
    let each: Vec<(u8, f64)> = (FEWEST_BEATS..=MOST_BEATS).map(|beats| (beats, left_open(beats))).collect();
    line(drawing, scale, "", &each);
}

fn line(drawing: &mut Drawing, scale: &Scale, look: &str, each: &[(u8, f64)]) {
    let mut points = String::new();
    each.iter().for_each(|(beats, share)| point(&mut points, scale.at(*beats, *share)));
    drawing.polyline(0.0, look, &points);
}

/// Each line beside its name, told apart by marks and dashes.
fn legend(drawing: &mut Drawing) {
    let entries = [
        ("", "misses left open: 1 - 0.05^(1/n)"),
        (" stroke-dasharray=\"3 1.5\"", "misses of 95 of 100 thresholds found, at most"),
        (" stroke-dasharray=\"0.5 1.5\"", "plans whose real margin is below the rule"),
    ];
    let (x, first) = (85.0, TOP + 2.0);
    for (place, (look, name)) in (0_u8..).zip(entries) {
        let y = first + f64::from(place) * 7.0;
        let mut points = String::new();
        [(x, y), (x + 12.0, y)].iter().for_each(|end| point(&mut points, *end));
        drawing.polyline(0.0, look, &points);
        drawing.text((x + 15.0, y + 1.4), Anchor::Start, name);
    }
    drawing.circle((x + 6.0, first + 7.0));
    drawing.square((x + 6.0, first + 14.0));
}
