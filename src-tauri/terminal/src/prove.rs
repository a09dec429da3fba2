//! `terminal prove --checks N --seed S`: the closed loop on every core, with its progress and a report; one of its
//! runs, answer by answer; and what a threshold that scatters does to the margin, as a table and a plot.

mod plot;

use std::io::Write as _;
use std::path::Path;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

use domain::say::Say;
use proof::{Case, Played, Scatter, Tally, harms, play_shift};

use crate::spoken::spoken;

const BAR: u64 = 40;

/// Seeds `seed..seed + checks`, shared out among the cores.
pub fn prove(checks: u64, seed: u64) -> Tally {
    shared_out(checks, seed, Tally::default, Tally::add, Tally::merge)
}

/// The same seeds as patients whose threshold scatters; each once for each number of beats watched.
pub fn scatter(checks: u64, seed: u64) -> Scatter {
    shared_out(checks, seed, Scatter::begun, Scatter::add, Scatter::merge)
}

/// # Errors
/// The plot cannot be written there.
pub fn draw(scatter: &Scatter, file: &Path) -> Result<(), String> {
    std::fs::write(file, plot::svg(scatter)).map_err(|error| {
        spoken(&Say::ExportFailed { file: file.display().to_string(), why: error.to_string() })
    })
}

fn shared_out<T: Send>(
    checks: u64,
    seed: u64,
    begun: fn() -> T,
    add: fn(&mut T, u64),
    merge: fn(&mut T, T),
) -> T {
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let (taken, done) = (AtomicU64::new(0), AtomicU64::new(0));
    let worker = || {
        let mut part = begun();
        loop {
            let next = taken.fetch_add(1, Ordering::Relaxed);
            if next >= checks {
                return part;
            }
            add(&mut part, seed.wrapping_add(next));
            done.fetch_add(1, Ordering::Relaxed);
        }
    };
    std::thread::scope(|threads| {
        let workers: Vec<_> = (0..cores).map(|_| threads.spawn(worker)).collect();
        while workers.iter().any(|worker| !worker.is_finished()) {
            std::thread::sleep(Duration::from_millis(200));
            show(done.load(Ordering::Relaxed), checks);
        }
        let mut whole = begun();
        for part in workers.into_iter().filter_map(|worker| worker.join().ok()) {
            merge(&mut whole, part);
        }
        whole
    })
}

/// One run with the second check of its shift, a line an answer: seconds, the sentence that asks, the button, the
/// dials then.
///
/// # Errors
/// The run could not begin.
pub fn replay(seed: u64) -> Result<Vec<String>, String> {
    let case = Case::drawn(seed).map_err(|fault| fault.to_string())?;
    let mut lines = Vec::new();
    play_shift(&case, &mut |case, played| tell_check(&mut lines, case, played))
        .map_err(|stuck| format!("{stuck:?}"))?;
    Ok(lines)
}

fn tell_check(lines: &mut Vec<String>, case: &Case, played: &Played) {
    lines.extend([format!("{:?}", case.heart), format!("{:?}", case.truth())]);
    lines.extend(case.shift.happens.map(|happens| format!("{happens:?}")));
    lines.extend(played.answers.iter().map(|answer| {
        let (seconds, dials) = (answer.at_us / 1_000_000, &answer.dials);
        let mv = dials.mv.as_deref().unwrap_or("-");
        format!("{seconds:>5} {} {} [{} {} {mv}]", answer.asks, answer.key, dials.output, dials.rate)
    }));
    lines.push(format!("{:?}", played.end));
    lines.extend(played.record.as_ref().map(|record| format!("{:?} {:?}", record.stays, record.flags)));
    lines.extend(harms(case, played).iter().map(|harm| format!("{harm:?}")));
}

/// On the error output, in one line that is written over; a reader who has gone is no reason to stop.
fn show(done: u64, checks: u64) {
    let filled = (done * BAR).checked_div(checks).unwrap_or(BAR);
    let bar: String = (0..BAR).map(|at| if at < filled { '#' } else { '.' }).collect();
    let end = if done >= checks { "\n" } else { "" };
    let shown = write!(std::io::stderr(), "\r{bar} {done}/{checks}{end}");
    drop(shown);
}
