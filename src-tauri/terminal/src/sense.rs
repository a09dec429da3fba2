//! `terminal sense`: how many beats a generator of each level would see in a recorded signal. A crossing is the
//! first sample at or above the level after one below it; then the generator looks away for a while.

mod fault;
mod options;

use std::path::Path;

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

pub fn sense(signal: &[f64], options: &Options) -> Vec<Sensed> {
    let (from, step) = (u64::from(options.from_uv), u64::from(options.step_uv));
    let levels = (0..).map(|count: u64| from + count * step);
    levels
        .take_while(|level| *level <= u64::from(options.to_uv))
        .map(|level| {
            let level_mv = level as f64 / 1000.0;
            Sensed { level_mv, sensed: crossings(signal, level_mv, options) }
        })
        .collect()
}

fn crossings(signal: &[f64], level_mv: f64, options: &Options) -> usize {
    let mut counted = 0;
    let mut last: Option<usize> = None;
    for (at, pair) in (1..).zip(signal.windows(2)) {
        let crosses = pair[0] < level_mv && level_mv <= pair[1];
        if crosses && last.is_none_or(|last| options.sees_again(at - last)) {
            counted += 1;
            last = Some(at);
        }
    }
    counted
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
