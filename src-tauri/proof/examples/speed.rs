//! How fast simulator, strip and closed loop run on one core, each against its bar: `cargo run --profile bench -p proof
//! --example speed -- [--quick] [--library TIMES]`, where TIMES is how many times real time an ECG synthesiser of a
//! general library runs here. By processor time of this one thread, so that others on the machine count little. A bar
//! that does not hold is a failure. An example and no bench: compiled as `terminal` is, where a panic ends the program.

#[path = "support/bars.rs"]
mod bars;
#[path = "../../simulator/tests/support/naive.rs"]
mod naive;

use bars::{Bar, Done, Row, median, row};
use naive::Naive;
use proof::{Case, End, play, play_in_pair};
use simulator::strip::Strip;
use simulator::{AtrialRhythm, Chamber, Dials, Generator, Heart, Patient};

/// As `terminal` has it.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

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

fn main() -> Done<()> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let work = if words.iter().any(|word| word == "--quick") { QUICK } else { WHOLE };
    let library = words.iter().position(|word| word == "--library").and_then(|at| words.get(at + 1));
    let mut rows = Vec::new();
    rows.extend(strips(&work, library.map(|times| times.parse()).transpose()?)?);
    rows.extend(events(&work)?);
    rows.push(closed_loop(&work)?);
    rows.extend(pairs(&work)?);
    bars::judged(&rows)
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
