//! A heart that changes in one part goes on in all others; a shock ends fibrillation, and little else does.
#![allow(clippy::unwrap_used, reason = "a failing test stops")]

mod support;

use simulator::{
    AtrialRhythm, Capture, Chamber, Conduction, Escape, ExtraBeats, Generator, Heart, Noise, Origin, Patient,
    Pressure, Signal, Suppression, Truth, Vulnerable, What,
};
use support::{SECOND, asynchronous, beats, dials, marks, ventricular};

fn sleeping(interval_us: u32) -> Option<Escape> {
    let habit = Suppression { longest_us: 4_000_000, builds_over_beats: 20, wakes_over_beats: 5 };
    Some(Escape { interval_us, scatter_us: 50_000, suppression: Some(habit) })
}

fn hearts() -> Vec<Heart> {
    let sinus = AtrialRhythm::Sinus { interval_us: 800_000, scatter_us: 90_000 };
    let fibrillating =
        AtrialRhythm::Fibrillating { fastest_us: 500_000, slowest_us: 1_300_000, wave_uv: 100 };
    let extra = ExtraBeats { chamber: Chamber::Ventricle, one_in: 3, coupling_us: 450_000, signal_uv: 3_000 };
    vec![
        Heart::sinus(60),
        Heart { atrium: sinus.clone(), extra: Some(extra), ..Heart::default() },
        Heart { atrium: sinus.clone(), wire: Chamber::Atrium, ..Heart::default() },
        Heart { atrium: sinus, conduction: None, escape: sleeping(1_500_000), ..Heart::default() },
        Heart { atrium: fibrillating.clone(), ..Heart::default() },
        Heart { atrium: fibrillating, wire: Chamber::Atrium, ..Heart::default() },
        Heart { escape: sleeping(1_400_000), noise: Some(Noise::loose_pin(20_000)), ..Heart::silent() },
    ]
}

/// No beat comes sooner, later or otherwise for a pressure that falls.
#[test]
fn what_did_not_change_comes_when_it_was_to_come() {
    for heart in hearts() {
        for (seed, rate) in [(1, 40), (2, 75), (3, 110)] {
            let generator =
                Generator { port: heart.wire, ..Generator::ventricular(dials(rate, 5_000, 2_000)) };
            let begun = Patient::new(heart.clone(), generator, seed).unwrap();
            let (mut left, mut changed) = (begun.clone(), begun);
            for (tenths, mmhg) in [(37, 60), (101, 55), (7, 50), (150, 45)] {
                let us = tenths * 100_000;
                let timed = |events: Vec<simulator::Event>| {
                    let beats = events.into_iter().filter(|event| !matches!(event.what, What::Pulse { .. }));
                    beats.collect::<Vec<_>>()
                };
                assert_eq!(timed(left.run(us)), timed(changed.run(us)), "{heart:?} {rate}");
                let pressure = Pressure { paced_mmhg: mmhg, ..heart.pressure };
                changed.change_heart(Heart { pressure, ..heart.clone() }).unwrap();
            }
        }
    }
}

/// Paced fast for a minute, then not at all, and another escape at that instant: it is as sleepy as the one before.
#[test]
fn an_escape_that_changes_wakes_from_the_same_sleep() {
    let heart = |interval_us| Heart { escape: sleeping(interval_us), ..Heart::silent() };
    let first_own = |interval_us| {
        let mut patient = ventricular(heart(1_500_000), dials(100, 5_000, 2_000));
        patient.run(60 * SECOND);
        patient.set(dials(1, 100, 2_000)).unwrap();
        patient.change_heart(heart(interval_us)).unwrap();
        let began = patient.now_us();
        beats(&patient.run(20 * SECOND), Chamber::Ventricle, Origin::Own)[0] - began
    };
    assert!(first_own(1_500_000) > 3 * SECOND);
    assert!(first_own(1_600_000) > 3 * SECOND, "{}", first_own(1_600_000));
}

#[test]
fn p_waves_that_are_blocked_from_now_on_come_as_before() {
    let mut patient = ventricular(Heart::sinus(60), dials(30, 100, 2_000));
    let before = beats(&patient.run(10 * SECOND), Chamber::Atrium, Origin::Own);
    patient.change_heart(Heart { conduction: None, ..Heart::sinus(60) }).unwrap();
    let events = patient.run(10 * SECOND);
    let after = beats(&events, Chamber::Atrium, Origin::Own);
    assert_eq!(after[0] - before.last().unwrap(), SECOND);
    assert_eq!(beats(&events, Chamber::Ventricle, Origin::Own), []);
    patient.change_heart(Heart::sinus(60)).unwrap();
    let events = patient.run(5 * SECOND);
    let delay = u64::from(Conduction::default().delay_us);
    let next = after.last().unwrap() + SECOND;
    assert_eq!(beats(&events, Chamber::Ventricle, Origin::Own)[0], next + delay);
}

fn fibrillating() -> (Heart, Patient) {
    let vulnerable = Vulnerable { from_us: 280_000, until_us: 360_000, one_in: 1, wave_uv: 2_000 };
    let heart = Heart { vulnerable: Some(vulnerable), ..Heart::sinus(72) };
    let mut patient = ventricular(heart.clone(), asynchronous(60, 5_000));
    let events = patient.run(60 * SECOND);
    assert!(events.iter().any(|event| event.what == What::VentricularFibrillation));
    patient.set(dials(30, 100, 2_000)).unwrap();
    (heart, patient)
}

#[test]
fn fibrillation_goes_on_through_a_change_that_has_nothing_to_do_with_it() {
    let (heart, mut patient) = fibrillating();
    let own = |patient: &mut Patient| beats(&patient.run(5 * SECOND), Chamber::Ventricle, Origin::Own).len();
    let capture = Capture { going_down_micro: 9_000, going_up_micro: 9_500, ..Capture::default() };
    patient.change_heart(Heart { capture, ..heart.clone() }).unwrap();
    assert_eq!(own(&mut patient), 0);
    let mut shocked = patient.clone();
    shocked.shock(heart.after_shock(3)).unwrap();
    assert!(own(&mut shocked) > 3);
    patient.change_heart(Heart { atrium: Heart::sinus(90).atrium, ..heart }).unwrap();
    assert!(own(&mut patient) > 3);
}

#[test]
fn a_shock_refuses_a_heart_that_cannot_be() {
    let (heart, mut patient) = fibrillating();
    let capture = Capture { going_down_micro: 2_000, going_up_micro: 1_000, ..Capture::default() };
    assert!(patient.shock(Heart { capture, ..heart }).is_err());
    assert_eq!(beats(&patient.run(5 * SECOND), Chamber::Ventricle, Origin::Own), []);
}

/// As the truth says it, and not from its beginning again when something else changes.
#[test]
fn a_signal_drifts_on_through_other_changes() {
    let signal = Signal { own_uv: 6_000, drift_uv_per_hour: -3_000, ..Signal::default() };
    let heart = Heart { signal, ..Heart::sinus(72) };
    let mut patient = ventricular(heart.clone(), dials(62, 100, 5_000));
    patient.run(600 * SECOND);
    let pressure = Pressure { paced_mmhg: 70, ..heart.pressure };
    patient.change_heart(Heart { pressure, ..heart.clone() }).unwrap();
    let last = marks(&patient.run(3_000 * SECOND), simulator::MarkKind::Sense).last().copied();
    assert!(last.is_some_and(|at| (1_195..=1_201).contains(&(at / SECOND))), "{last:?}");
    let after = |s: u64| Truth::drifted(&heart, 500, s * SECOND).smallest_signal_uv;
    assert_eq!((after(0), after(600), after(1_200), after(8_000)), (6_000, 5_500, 5_000, 0));
    assert_eq!(Truth::of(&heart, 500), Truth::drifted(&heart, 500, 0));
}
