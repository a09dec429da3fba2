//! Days, shocks and potassium against the published series, measured by pacing the simulated heart, never read from its numbers.
#![allow(clippy::expect_used, reason = "a failing test stops")]

mod support;

use simulator::{Capture, Course, Fate, Heart, MarkKind, Signal, SpikeOutcome};
use support::{SECOND, dials, marks, outcomes, ventricular};

/// Least output, in steps of 10 micro, at which a heart not captured before follows every spike.
fn measured_threshold(heart: Heart) -> u32 {
    let captures = |output: &u32| {
        let mut patient = ventricular(Heart { conduction: None, ..heart.clone() }, dials(80, *output, 1_000));
        let outcomes = outcomes(&patient.run(3 * SECOND));
        outcomes.len() >= 3 && outcomes.iter().all(|outcome| *outcome == SpikeOutcome::Captured)
    };
    (1..5_000).map(|step| step * 10).find(captures).expect("a threshold below 50 mA")
}

/// Highest number, in steps of 10 µV, at which every own beat is marked.
fn measured_signal(heart: Heart) -> u32 {
    let sees = |number: &u32| {
        marks(&ventricular(heart.clone(), dials(62, 100, *number)).run(5 * SECOND), MarkKind::Sense).len()
            >= 5
    };
    (1..2_000).rev().map(|step| step * 10).find(sees).expect("a signal")
}

fn heart(threshold: u32, signal: u32) -> Heart {
    let capture = Capture { going_down_micro: threshold, going_up_micro: threshold, ..Capture::default() };
    Heart { capture, signal: Signal { own_uv: signal, ..Signal::default() }, ..Heart::sinus(72) }
}

fn near(measured: u32, published: f64, tolerance: f64) {
    let off = (f64::from(measured) / published - 1.0).abs();
    assert!(off <= tolerance, "{measured} against {published}");
}

/// ATR98 (read): body 4.96 / 6.67 / 6.80 mA, appendage 5.98 / 7.50 / 8.59 mA. Within 1 %.
#[test]
fn atrial_thresholds_rise_as_in_fifty_five_patients() {
    for (course, published) in
        [(Course::ATRIAL_BODY, [4.96, 6.67, 6.80]), (Course::ATRIAL_APPENDAGE, [5.98, 7.50, 8.59])]
    {
        let first = heart((published[0] * 1000.0) as u32, 8_000);
        for (day, figure) in (0..).zip(published) {
            near(measured_threshold(first.on_day(course, day)), figure * 1000.0, 0.01);
        }
    }
}

/// CABG51 (read): threshold 1.1 to 1.5 V (+36.4 %), R 6.2 to 4.1 mV (-33.9 %) by day 4. Within 1 %.
#[test]
fn a_ventricular_wire_loses_signal_and_gains_threshold() {
    let later = heart(1_100, 6_200).on_day(Course::VENTRICLE, 4);
    near(measured_threshold(later.clone()), 1_500.0, 0.01);
    near(measured_signal(later), 4_100.0, 0.01);
}

/// EGM33 (read): 11.09 to 5.44 mV: half of the first exceeds the later mean, so that setting is blind.
#[test]
fn half_of_the_first_signal_no_longer_sees_on_day_five() {
    let first = heart(1_000, 11_090);
    let half = measured_signal(first.clone()) / 2;
    let later = first.on_day(Course::UNIPOLAR_SIGNAL, 5);
    near(measured_signal(later.clone()), 5_440.0, 0.01);
    let marked = marks(&ventricular(later, dials(62, 100, half)).run(60 * SECOND), MarkKind::Sense);
    assert!(marked.is_empty());
}

/// FATE236 (read): 74 % rise, 10 % lost before day 4, 16 % work past day 7. Within 3 points of 100.
#[test]
fn wires_end_as_in_two_hundred_and_thirty_six_patients() {
    let share = |wanted: fn(Fate) -> bool| (0..5_000).filter(|seed| wanted(Fate::drawn(*seed))).count() / 50;
    let rises = share(|fate| fate == Fate::RisesToDayFive);
    let lost = share(|fate| matches!(fate, Fate::LostOnDay(1..=3)));
    let works = share(|fate| fate == Fate::WorksPastDaySeven);
    assert!((71..=77).contains(&rises) && (7..=13).contains(&lost) && (13..=19).contains(&works));
}

/// FATE236: a rise to day 5, then level.
#[test]
fn a_rising_threshold_is_level_after_day_five() {
    let day = |day| measured_threshold(heart(1_000, 8_000).on_day(Course::RISING, day));
    assert!(day(0) < day(2) && day(2) < day(5));
    assert_eq!(day(5), day(9));
}

/// SHOCK (read): six-fold at 3 minutes, near the old value at 24 hours. Set at 2 and 3 times, capture is lost then.
#[test]
fn a_shock_loses_capture_at_twice_and_three_times_the_threshold_for_a_while() {
    let before = heart(1_000, 8_000);
    near(measured_threshold(before.after_shock(3)), 6_000.0, 0.01);
    near(measured_threshold(before.after_shock(24 * 60)), 1_000.0, 0.01);
    for set in [2_000, 3_000] {
        let captures = |minutes| {
            let shocked = Heart { conduction: None, ..before.after_shock(minutes) };
            let outcomes = outcomes(&ventricular(shocked, dials(80, set, 1_000)).run(10 * SECOND));
            outcomes.iter().all(|outcome| *outcome == SpikeOutcome::Captured)
        };
        assert!(!captures(3) && captures(24 * 60));
    }
}

/// K65 (read, one patient): potassium 4.0 to 7.1 mmol/L, threshold from below 1 V to above 6 V.
#[test]
fn potassium_raises_the_threshold_above_six_fold() {
    let before = heart(990, 8_000);
    assert!(measured_threshold(before.with_potassium(40)) < 1_000);
    assert!(measured_threshold(before.with_potassium(71)) > 6_000);
}
