//! `terminal sense`: how many beats the simulated generator's front end sees in a recorded signal at each level. A
//! crossing is the first sample at or above the level after one below it; then it looks away for a while.

mod fault;
mod options;

use std::path::Path;

use simulator::FrontEnd;

pub use fault::SenseFault;
pub use options::Options;

/// As a wire can meet it; what is larger may be in µV.
const LARGEST_MV: f64 = 100.0;

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

/// A figure in mV on each line, in its last column; the first line may be a heading. Where columns are parted by `;`
/// or a tab a comma is a decimal sign; else it parts columns, and the first of them is time or a count.
///
/// # Errors
/// A line that holds no figure, one too large for a wire, or one before whose comma no time runs; or no figure at all.
pub fn read(file: &str, text: &str) -> Result<Vec<f64>, SenseFault> {
    let text = text.trim_start_matches('\u{feff}');
    let columns = Columns::of(text);
    let (mut signal, mut before) = (Vec::new(), None);
    for (line, written) in (1..).zip(text.lines()) {
        let (first, found) = columns.first_and_last(written);
        if written.trim().is_empty() || (line == 1 && is_heading(&found)) {
            continue;
        }
        let not_a_figure = || SenseFault::NotAFigure { file: file.to_owned(), line, found: found.clone() };
        let figure = figure(&found).ok_or_else(not_a_figure)?;
        if figure.abs() > LARGEST_MV {
            return Err(SenseFault::TooLarge { file: file.to_owned(), line, found });
        }
        if first.as_deref().is_some_and(|first| !rises(before, first)) {
            return Err(SenseFault::NoTime { file: file.to_owned(), line, found: written.trim().to_owned() });
        }
        before = first.as_deref().and_then(self::figure);
        signal.push(figure);
    }
    if signal.is_empty() {
        return Err(SenseFault::Empty { file: file.to_owned() });
    }
    Ok(signal)
}

/// What parts the columns of a file.
enum Columns {
    Marks,
    Commas,
}

impl Columns {
    fn of(text: &str) -> Columns {
        if text.contains([';', '\t']) { Columns::Marks } else { Columns::Commas }
    }

    /// The last column; and before a comma, which may be a decimal sign, the first.
    fn first_and_last(&self, written: &str) -> (Option<String>, String) {
        match self {
            Columns::Marks => {
                let last = written.rsplit([';', '\t']).next().unwrap_or_default();
                (None, last.trim().replace(',', "."))
            }
            Columns::Commas => {
                let first = written.split_once(',').map(|(first, _)| first.trim().to_owned());
                (first, written.rsplit(',').next().unwrap_or_default().trim().to_owned())
            }
        }
    }
}

fn figure(found: &str) -> Option<f64> {
    found.parse().ok().filter(|figure: &f64| figure.is_finite())
}

/// Time may be printed too coarsely to rise with every sample, but then it has a point.
fn rises(before: Option<f64>, first: &str) -> bool {
    let Some((before, now)) = before.zip(figure(first)) else { return true };
    now > before || (now >= before && first.contains('.'))
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
