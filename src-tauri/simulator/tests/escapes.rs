//! An escape behind pacing against three published series, in shape: pacing is stopped and the time to the first own
//! beat is measured, never read from the heart's numbers. What was read of each source is its one sentence; the own
//! interval of 1.5 s, how sleep spreads among hearts, and six tests of each are from here.
#![allow(clippy::expect_used, reason = "a failing test stops")]

mod support;

use simulator::{AtrialRhythm, Chamber, Escape, Heart, Origin, Patient, Suppression};
use support::{SECOND, beats, dials, gaps, ventricular};

const ESCAPE_US: u32 = 1_500_000;
/// Evenly so much sooner or later from test to test: the deviation in Am Heart J 1977;93:367.
const SCATTER_US: u32 = 920_000;
const TESTS: usize = 6;

/// Block over an escape that deepest sleep puts off by `longest_us`.
fn heart(longest_us: u32, scatter_us: u32) -> Heart {
    let habit = Suppression { longest_us, builds_over_beats: 10, wakes_over_beats: 4 };
    let escape = Escape { interval_us: ESCAPE_US, scatter_us, suppression: Some(habit) };
    Heart { conduction: None, escape: Some(escape), ..Heart::sinus(90) }
}

/// Paced for so long, then not at all until the first own beat: the time from the last paced one.
fn recovery_us(patient: &mut Patient, rate: u16, paced_s: u64) -> u64 {
    patient.set(dials(rate, 10_000, 2_000)).expect("possible dials");
    let paced = beats(&patient.run(paced_s * SECOND), Chamber::Ventricle, Origin::Paced);
    patient.set(dials(1, 10_000, 2_000)).expect("possible dials");
    let own = beats(&patient.run(30 * SECOND), Chamber::Ventricle, Origin::Own);
    own.first().expect("an own beat") - paced.last().expect("a paced beat")
}

/// Fifty-eight hearts whose sleep is spread evenly, so that they recover after 3.55 s on average at 80/min: half of
/// the deepest sleep is reached there. Each is tested six times.
fn fifty_eight() -> Vec<Vec<u64>> {
    const PATIENTS: u32 = 58;
    const MOST_LATE_US: u32 = 2 * (3_550_000 - ESCAPE_US);
    let hearts = (0..PATIENTS).map(|at| heart(2 * (MOST_LATE_US / PATIENTS * at), SCATTER_US));
    hearts
        .map(|heart| {
            let mut patient = ventricular(heart, dials(80, 10_000, 2_000));
            (0..TESTS).map(|_| recovery_us(&mut patient, 80, 120)).collect()
        })
        .collect()
}

/// Br Heart J 1978;40:106 (read): an escape under 4 s on every test in 21 of 58, inconstant in 23, never in 14. The
/// spread is that of the third source, nothing is fitted to these figures: within 5 of 58 each, a bound from before
/// the first run (26, 23 and 9 were seen), and the fewest never.
#[test]
fn an_escape_comes_within_four_seconds_always_sometimes_or_never() {
    let kinds = |tests: &Vec<u64>| tests.iter().filter(|us| **us < 4_000_000).count();
    let within: Vec<usize> = fifty_eight().iter().map(kinds).collect();
    let count = |wanted: fn(usize) -> bool| within.iter().filter(|kind| wanted(**kind)).count();
    let always = count(|kind| kind == TESTS);
    let never = count(|kind| kind == 0);
    let inconstant = within.len() - always - never;
    for (seen, published) in [(always, 21_usize), (inconstant, 23), (never, 14)] {
        println!("{seen} of 58, published {published}");
        assert!(seen.abs_diff(published) <= 5, "{always} always, {inconstant} inconstant, {never} never");
    }
    assert!(never < always.min(inconstant), "{always} always, {inconstant} inconstant, {never} never");
}

/// Circulation 1988;78:893 (read): suppression grows with the rate of pacing. With its duration too: from memory.
#[test]
fn the_faster_and_the_longer_the_pacing_the_later_the_escape() {
    let after = |rate, paced_s| {
        recovery_us(&mut ventricular(heart(4_000_000, 0), dials(rate, 10_000, 2_000)), rate, paced_s)
    };
    let by_rate = [50, 60, 70, 80, 90, 100, 110, 120, 140].map(|rate| after(rate, 120));
    assert!(by_rate.is_sorted_by(|slow, fast| slow < fast), "{by_rate:?}");
    assert!(by_rate[0] > u64::from(ESCAPE_US), "later than unpaced already at 50/min: {by_rate:?}");
    let by_duration = [2, 4, 8, 16, 32].map(|paced_s| after(100, paced_s));
    assert!(by_duration.is_sorted_by(|short, long| short < long), "{by_duration:?}");
}

/// Am Heart J 1977;93:367 (read): recovery 3.55 ± 0.92 s of a ventricular pacemaker, 0.95 s of the sinus node. The
/// mean and the ratio of both within a tenth, single tests out to about 0.92 s either way; and the sinus node, which
/// nothing puts to sleep, is no later behind faster pacing.
#[test]
fn a_ventricular_pacemaker_recovers_almost_four_times_as_late_as_the_sinus_node() {
    let of_mean_sleep = heart(2 * (3_550_000 - ESCAPE_US), SCATTER_US);
    let mut patient = ventricular(of_mean_sleep, dials(80, 10_000, 2_000));
    let ventricular_s: Vec<f64> = (0..100).map(|_| seconds(recovery_us(&mut patient, 80, 120))).collect();
    let mean = ventricular_s.iter().sum::<f64>() / ventricular_s.len() as f64;
    assert!((mean / 3.55 - 1.0).abs() <= 0.1, "{mean}");
    let within = ventricular_s.iter().all(|s| (s - mean).abs() <= 1.1 * 0.92);
    assert!(within && ventricular_s.iter().any(|s| (s - mean).abs() > 0.8 * 0.92), "{ventricular_s:?}");

    let sinus = |rate| {
        let sinus = Heart { atrium: AtrialRhythm::sinus(63), ..Heart::default() };
        seconds(recovery_us(&mut ventricular(sinus, dials(rate, 10_000, 2_000)), rate, 120))
    };
    let [slow, fast] = [80, 120].map(sinus);
    println!("ventricular {mean:.2} s, sinus {slow:.2} s");
    assert!((mean / slow / (3.55 / 0.95) - 1.0).abs() <= 0.1, "{mean} against {slow}");
    assert!(fast <= slow, "{fast} behind faster pacing, {slow} behind slower");
}

/// It wakes: each own interval is no longer than the one before, down to its own. Common practice, no source.
#[test]
fn an_escape_left_alone_comes_back_to_its_own_rate() {
    let mut patient = ventricular(heart(6_000_000, 0), dials(80, 10_000, 2_000));
    recovery_us(&mut patient, 80, 120);
    let own = beats(&patient.run(30 * SECOND), Chamber::Ventricle, Origin::Own);
    let intervals: Vec<u64> = gaps(&own).collect();
    assert!(intervals.is_sorted_by(|early, late| early >= late), "{intervals:?}");
    let last = intervals.last().expect("own beats");
    assert!(last.abs_diff(ESCAPE_US.into()) < 10_000, "{intervals:?}");
}

fn seconds(us: u64) -> f64 {
    us as f64 / SECOND as f64
}
