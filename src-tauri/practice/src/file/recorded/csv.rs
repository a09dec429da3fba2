//! From the lines of a CSV to beats.

use simulator::{FrontEnd, NoRhythm, RecordedBeat, Recording};

use super::{LARGEST_MV, RecordingFault};

const SECOND_US: u64 = 1_000_000;
const BLANK_US: u64 = 250_000;

/// The figures of one line that holds any.
struct Row {
    line: usize,
    figures: Vec<f64>,
}

/// A beat is where the generator's front end sees the signal rise to the level; then nothing is looked for during
/// 250 ms, and the largest sample in them is the beat's signal: the least sensitive number that sees it. A beat that
/// the end cuts off is left out.
pub(super) fn beats_of_signal(
    text: &str,
    hz: u32,
    level_uv: u32,
) -> Result<Vec<RecordedBeat>, RecordingFault> {
    let (mut beats, mut found) = (Vec::new(), None::<RecordedBeat>);
    let (mut front_end, mut last_uv, mut sample) = (FrontEnd::default(), None, 0_u64);
    for row in rows(text, 1) {
        let row = row?;
        let at_us = sample * SECOND_US / u64::from(hz);
        // A signal without a beat has an end too.
        if at_us > Recording::LONGEST_US {
            return Err(RecordingFault::NoRhythm(NoRhythm::TooLong));
        }
        let uv = row.figures.first().map_or(0, |mv| (mv * 1_000.0).round() as i64);
        if let Some(over) = found.take_if(|_| !front_end.is_blanked(at_us)) {
            beats.push(over);
        }
        let size = u32::try_from(uv).unwrap_or(0);
        match &mut found {
            Some(beat) => beat.signal_uv = beat.signal_uv.max(Some(size)),
            None if last_uv.is_some_and(|last| front_end.sees(last, uv, level_uv, at_us)) => {
                front_end.blank_until(at_us + BLANK_US);
                found = Some(RecordedBeat { at_us, signal_uv: Some(size) });
            }
            None => {}
        }
        last_uv = Some(uv);
        sample += 1;
    }
    match (sample, beats.len()) {
        (0, _) => Err(RecordingFault::Empty),
        (_, 0) if found.is_none() => Err(RecordingFault::NoBeat { level_uv }),
        (_, _) => Ok(beats),
    }
}

/// The second of a beat on each line, and after a comma its signal in mV.
pub(super) fn beats_of_list(text: &str) -> Result<Vec<RecordedBeat>, RecordingFault> {
    let mut beats = Vec::new();
    for row in rows(text, 2) {
        let Row { line, figures } = row?;
        let at_s = figures.first().copied().unwrap_or(0.0);
        let signal_mv = figures.get(1).copied();
        if at_s < 0.0 || signal_mv.is_some_and(|mv| mv < 0.0) {
            return Err(RecordingFault::BelowZero { line });
        }
        let at_us = (at_s * SECOND_US as f64).round() as u64;
        beats.push(RecordedBeat { at_us, signal_uv: signal_mv.map(|mv| (mv * 1_000.0).round() as u32) });
    }
    if beats.is_empty() { Err(RecordingFault::Empty) } else { Ok(beats) }
}

/// A heading may stand on the first line; lines that hold nothing are passed over.
fn rows(text: &str, columns: usize) -> impl Iterator<Item = Result<Row, RecordingFault>> + '_ {
    let lines = (1..).zip(text.trim_start_matches('\u{feff}').lines());
    lines.filter(|(_, written)| !written.trim().is_empty()).filter_map(move |(line, written)| {
        let fields: Vec<&str> = written.split([',', ';', '\t']).map(str::trim).collect();
        if fields.len() > columns {
            return Some(Err(RecordingFault::TooManyColumns { line, found: fields.len(), allowed: columns }));
        }
        let is_heading = line == 1 && fields.iter().all(|field| is_heading(field));
        (!is_heading)
            .then(|| {
                fields.into_iter().zip(most(columns)).map(|(field, most)| figure(line, field, most)).collect()
            })
            .map(|figures: Result<_, _>| figures.map(|figures| Row { line, figures }))
    })
}

/// A word, not a figure that cannot be one.
fn is_heading(field: &str) -> bool {
    field.parse::<f64>().is_err() && field.starts_with(|letter: char| letter.is_alphabetic())
}

/// The largest figure of each column: mV, or seconds and mV.
fn most(columns: usize) -> [f64; 2] {
    if columns == 1 { [LARGEST_MV; 2] } else { [f64::MAX, LARGEST_MV] }
}

fn figure(line: usize, field: &str, most: f64) -> Result<f64, RecordingFault> {
    let figure = field.parse().ok().filter(|figure: &f64| figure.is_finite());
    let figure = figure.ok_or_else(|| RecordingFault::NotAFigure { line, found: field.to_owned() })?;
    if figure.abs() <= most {
        Ok(figure)
    } else {
        Err(RecordingFault::TooLargeAFigure { line, found: field.to_owned() })
    }
}
