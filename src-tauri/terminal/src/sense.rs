//! `terminal sense`: how many beats the simulated generator's front end sees in a recorded signal at each level. A
//! crossing is the first sample at or above the level after one below it; then it looks away for a while.

mod fault;
mod options;

use std::path::Path;

use simulator::FrontEnd;

pub use fault::SenseFault;
pub use options::Options;

/// One level, and the crossings counted at it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sensed {
    pub level_mv: f64,
    pub sensed: usize,
}

/// # Errors
/// An option or the file is not as it must be: which, what stands there, what is allowed.
pub fn run(words: &[&str]) -> Result<String, SenseFault> {
    let options = Options::read(words)?;
    let text = std::fs::read_to_string(Path::new(&options.signal))
        .map_err(|error| SenseFault::Unreadable { file: options.signal.clone(), why: error.to_string() })?;
    let signal = read(&options.signal, &text)?;
    Ok(told(&options, &sense(&signal, &options)))
}

/// A figure in mV on each line, in its last column; the first line may be a heading.
///
/// # Errors
/// A line that holds no figure, or no line that does.
pub fn read(file: &str, text: &str) -> Result<Vec<f64>, SenseFault> {
    let mut signal = Vec::new();
    for (line, written) in (1..).zip(text.lines()) {
        let found = written.rsplit([',', ';', '\t']).next().unwrap_or_default().trim();
        if written.trim().is_empty() || (line == 1 && is_heading(found)) {
            continue;
        }
        let figure = found.parse().ok().filter(|figure: &f64| figure.is_finite());
        let fault = || SenseFault::NotAFigure { file: file.to_owned(), line, found: found.to_owned() };
        signal.push(figure.ok_or_else(fault)?);
    }
    if signal.is_empty() {
        return Err(SenseFault::Empty { file: file.to_owned() });
    }
    Ok(signal)
}

/// A word, not a figure that cannot be one.
fn is_heading(found: &str) -> bool {
    found.parse::<f64>().is_err() && found.starts_with(|letter: char| letter.is_alphabetic())
}

/// The signal in mV.
pub fn sense(signal: &[f64], options: &Options) -> Vec<Sensed> {
    let signal: Vec<i64> = signal.iter().copied().map(whole_uv).collect();
    let levels =
        (0..).map_while(|count: u32| options.from_uv.checked_add(options.step_uv.checked_mul(count)?));
    levels
        .take_while(|level_uv| *level_uv <= options.to_uv)
        .map(|level_uv| Sensed {
            level_mv: mv(level_uv.into()),
            sensed: crossings(&signal, level_uv, options),
        })
        .collect()
}

fn crossings(signal: &[i64], level_uv: u32, options: &Options) -> usize {
    let mut front_end = FrontEnd::default();
    let mut counted = 0;
    for (at, pair) in (1..).zip(signal.windows(2)) {
        let now = options.instant(at);
        if front_end.sees(pair[0], pair[1], level_uv, now) {
            counted += 1;
            front_end.blank_until(now + options.blanking());
        }
    }
    counted
}

/// The greatest whole µV at or below: it reaches each whole level that the figure itself reaches, and no other.
fn whole_uv(figure_mv: f64) -> i64 {
    // Beyond every level a dial could have; and what is larger would not count up in whole µV.
    const BEYOND_MV: f64 = 1e10;
    let figure_mv = figure_mv.clamp(-BEYOND_MV, BEYOND_MV);
    let about = (figure_mv * 1_000.0).floor() as i64;
    // The product is rounded, so that a figure close to a whole µV may come out on its other side.
    [about + 1, about].into_iter().find(|uv| mv(*uv) <= figure_mv).unwrap_or(about - 1)
}

fn mv(uv: i64) -> f64 {
    uv as f64 / 1_000.0
}

fn told(options: &Options, sensed: &[Sensed]) -> String {
    if options.json {
        let list: Vec<serde_json::Value> = sensed
            .iter()
            .map(|one| serde_json::json!({ "level_mV": one.level_mv, "sensed": one.sensed }))
            .collect();
        return serde_json::Value::Array(list).to_string();
    }
    let lines = sensed.iter().map(|one| format!("{:.3} mV: {}", one.level_mv, one.sensed));
    lines.collect::<Vec<_>>().join("\n")
}
