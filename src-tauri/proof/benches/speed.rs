//! How fast simulator, strip and closed loop run on one core, each against its bar: `cargo bench -p proof -- [--quick]
//! [--library TIMES]`, where TIMES is how many times real time an ECG synthesiser of a general library runs here.
//! By processor time of this one thread, so that others on the machine count little; a PIN by the clock, since somebody
//! waits for it. A bar that does not hold is a failure.

#[path = "../../simulator/tests/support/naive.rs"]
mod naive;

use std::error::Error;
use std::time::Instant;

use naive::Naive;
use proof::{Case, End, play, play_in_pair};
use seal::{Effort, LockedKey, Secret, TabletKey};
use simulator::strip::Strip;
use simulator::{AtrialRhythm, Chamber, Dials, Generator, Heart, Patient};

type Done<T> = Result<T, Box<dyn Error>>;

/// Each figure is the median of so many rounds.
const ROUNDS: usize = 5;
const BATCHES_A_SECOND: usize = 20;

/// How much is done in a round.
struct Work {
    strip_s: usize,
    naive_s: usize,
    events_s: u64,
    checks: u64,
    pairs: usize,
}

const WHOLE: Work =
    Work { strip_s: 100_000, naive_s: 2_000, events_s: 2_000_000, checks: 3_000, pairs: 5_000 };
/// To see that it runs; its figures say little.
const QUICK: Work = Work { strip_s: 1_000, naive_s: 100, events_s: 10_000, checks: 50, pairs: 10 };

struct Row {
    what: String,
    value: f64,
    bar: Bar,
    unit: &'static str,
}

enum Bar {
    AtLeast(f64),
    AtMost(f64),
    /// Told, not judged.
    None,
}

impl Row {
    fn holds(&self) -> bool {
        match self.bar {
            Bar::AtLeast(least) => self.value >= least,
            Bar::AtMost(most) => self.value <= most,
            Bar::None => true,
        }
    }

    fn told(&self) -> String {
        let bar = match self.bar {
            Bar::AtLeast(least) => format!(">= {least}"),
            Bar::AtMost(most) => format!("<= {most}"),
            Bar::None => String::new(),
        };
        let holds = if matches!(self.bar, Bar::None) { "" } else { ["NO", "yes"][usize::from(self.holds())] };
        format!("{:<64} {:>12.1} {:>12} {:<16} {holds}", self.what, self.value, bar, self.unit)
    }
}

fn main() -> Done<()> {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let work = if words.iter().any(|word| word == "--quick") { QUICK } else { WHOLE };
    let library = words.iter().position(|word| word == "--library").and_then(|at| words.get(at + 1));
    let mut rows = Vec::new();
    // First: the peak of memory is then its own.
    rows.extend(pin()?);
    rows.extend(strips(&work, library.map(|times| times.parse()).transpose()?)?);
    rows.extend(events(&work)?);
    rows.push(closed_loop(&work)?);
    rows.extend(pairs(&work)?);
    println!("{:<64} {:>12} {:>12} {:<16} holds", "what", "value", "bar", "unit");
    rows.iter().for_each(|row| println!("{}", row.told()));
    if rows.iter().all(Row::holds) { Ok(()) } else { Err("a bar does not hold".into()) }
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or_default()
}

/// What this thread has had of a processor.
fn processor_s() -> Done<f64> {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat")?;
    let ns: f64 = told.split_whitespace().next().ok_or("no processor time is told")?.parse()?;
    Ok(ns / 1e9)
}

fn seconds(of: impl FnOnce() -> Done<()>) -> Done<f64> {
    let began = processor_s()?;
    of()?;
    Ok((processor_s()? - began).max(1e-9))
}

/// Every beat paced over a sinus rhythm: a P wave, a spike, a complex, a T wave and a pulse each.
fn paced() -> Done<Patient> {
    let dials = Dials { rate_per_min: 82, output_micro: 5_000, sensitivity_uv: Some(2_000) };
    Ok(Patient::new(Heart::sinus(72), Generator::ventricular(dials), 1)?)
}

fn strips(work: &Work, library: Option<f64>) -> Done<Vec<Row>> {
    let (mut drawn, mut ratios) = (Vec::new(), Vec::new());
    for _ in 0..ROUNDS {
        let (mut strip, mut naive) = (Strip::new(paced()?), Naive::new(paced()?));
        for _ in 0..work.naive_s.min(100) * BATCHES_A_SECOND {
            let batch = strip.next_batch();
            if (batch.ecg, batch.pulse) != naive.batch() {
                return Err("the naive generator draws another strip".into());
            }
        }
        let mut sum = 0_i64;
        let took = seconds(|| {
            let batches = strip.by_ref().take(work.strip_s * BATCHES_A_SECOND);
            sum = batches.map(|batch| i64::from(batch.ecg[0]) + i64::from(batch.pulse[0])).sum();
            Ok(())
        })?;
        let slow = seconds(|| {
            for _ in 0..work.naive_s * BATCHES_A_SECOND {
                sum += i64::from(naive.batch().0[0]);
            }
            Ok(())
        })?;
        std::hint::black_box(sum);
        let times = work.strip_s as f64 / took;
        ratios.push(times / (work.naive_s as f64 / slow));
        drawn.push(times);
    }
    let times = median(drawn);
    let mut rows = vec![
        row("strip at 500 Hz", times, Bar::AtLeast(100_000.0), "x real time"),
        row("strip against a naive generator of the same bytes", median(ratios), Bar::None, "x"),
    ];
    let against = |library: f64| {
        row("strip against a general library's synthesiser", times / library, Bar::AtLeast(500.0), "x")
    };
    rows.extend(library.map(against));
    Ok(rows)
}

fn events(work: &Work) -> Done<Vec<Row>> {
    let irregular = AtrialRhythm::Fibrillating { fastest_us: 500_000, slowest_us: 1_200_000, wave_uv: 100 };
    let irregular = Heart { atrium: irregular, ..Heart::default() };
    let hearts = [
        ("events alone, own beats sensed", Heart::sinus(72), 62),
        ("events alone, every beat paced", Heart::sinus(72), 82),
        ("events alone, irregular", irregular, 72),
    ];
    let mut rows = Vec::new();
    for (name, heart, rate_per_min) in hearts {
        let mut times = Vec::new();
        for _ in 0..ROUNDS {
            let dials = Dials { rate_per_min, output_micro: 5_000, sensitivity_uv: Some(2_000) };
            let mut patient = Patient::new(heart.clone(), Generator::ventricular(dials), 1)?;
            let mut events = 0_u64;
            let took = seconds(|| {
                patient.run_into(work.events_s * 1_000_000, |_| events += 1);
                Ok(())
            })?;
            std::hint::black_box(events);
            times.push(work.events_s as f64 / took);
        }
        rows.push(row(name, median(times), Bar::AtLeast(1_000_000.0), "x real time"));
    }
    Ok(rows)
}

/// Each check from a seed to its end, a card drawn at every step of the state.
fn closed_loop(work: &Work) -> Done<Row> {
    let mut rates = Vec::new();
    for round in 0..ROUNDS as u64 {
        let first = round * work.checks;
        let took = seconds(|| {
            for seed in first..first + work.checks {
                let played = play(&Case::drawn(seed)?).map_err(|stuck| format!("seed {seed}: {stuck:?}"))?;
                if let End::Stuck(stuck) = played.end {
                    return Err(format!("seed {seed}: {stuck:?}").into());
                }
            }
            Ok(())
        })?;
        rates.push(work.checks as f64 / took);
    }
    Ok(row("closed loop", median(rates), Bar::AtLeast(5_000.0), "checks/s"))
}

/// Hearts without chance at ventricular wires: one looks at events, the other at samples.
fn pairs(work: &Work) -> Done<Vec<Row>> {
    let (mut answers, mut apart, mut limits, mut checks) = (0, 0, 0, 0);
    let began = processor_s()?;
    for seed in 1_000_000.. {
        let case = Case::drawn(seed)?;
        if !(case.plain && case.port == Chamber::Ventricle) {
            continue;
        }
        let played = play_in_pair(&case).map_err(|stuck| format!("seed {seed}: {stuck:?}"))?;
        let compared = played.compared.ok_or("nobody looked at the samples")?;
        answers += compared.answers;
        apart += compared.apart.len();
        limits += compared.at_a_limit.len();
        checks += 1;
        if checks == work.pairs {
            break;
        }
    }
    let took = (processor_s()? - began).max(1e-9);
    let what = format!("observer of samples, {checks} checks, {answers} answers: differ");
    Ok(vec![
        row(&what, apart as f64, Bar::AtMost(0.0), "answers"),
        row(
            "the same: differ by less than a trace shows",
            limits as f64,
            Bar::AtMost(answers as f64 / 2_000.0),
            "answers",
        ),
        row("the same", checks as f64 / took, Bar::None, "checks/s"),
    ])
}

/// A PIN tried at the shipped effort: how long, and by how much the peak of memory rises.
fn pin() -> Done<Vec<Row>> {
    let pin = Secret::new(b"482913".to_vec());
    let locked = LockedKey::lock(&TabletKey::from_seed(&[7; 32]), &pin, Effort::SHIPPED, &[3; 40])
        .map_err(|fault| format!("{fault:?}"))?;
    let mut took = Vec::new();
    for _ in 0..ROUNDS {
        let began = Instant::now();
        locked.unlock(&pin).map_err(|fault| format!("{fault:?}"))?;
        took.push(began.elapsed().as_secs_f64() * 1_000.0);
    }
    let peak = peak_kib()? / 1_024.0;
    Ok(vec![
        row("a PIN tried (Argon2id)", median(took), Bar::AtLeast(300.0), "ms"),
        row("peak of this program's memory then", peak, Bar::AtLeast(64.0), "MiB"),
    ])
}

fn peak_kib() -> Done<f64> {
    let status = std::fs::read_to_string("/proc/self/status")?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).ok_or("no peak of memory")?;
    Ok(line.trim().trim_end_matches(" kB").parse()?)
}

fn row(what: &str, value: f64, bar: Bar, unit: &'static str) -> Row {
    Row { what: what.to_owned(), value, bar, unit }
}
