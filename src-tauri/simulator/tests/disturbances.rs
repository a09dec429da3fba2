//! Noise, a lead that lets go, a spike on the T wave, a battery that runs down: each does what it was described to do.
#![allow(clippy::unwrap_used, reason = "a failing test stops")]

mod support;

use simulator::{
    Capture, Chamber, Generator, Heart, Lead, MarkKind, Noise, Origin, Power, Signal, SpikeOutcome,
    Vulnerable, What,
};
use support::{SECOND, asynchronous, beats, dials, marks, outcomes, patient, spike, spikes, ventricular};

#[test]
fn noise_above_the_number_holds_the_spikes_of_a_heart_that_needs_them() {
    let shivering = Heart { noise: Some(Noise::shivering(3_000)), ..Heart::silent() };
    let paced_in_two_minutes =
        |mv| spikes(&ventricular(shivering.clone(), dials(80, 5_000, mv)).run(120 * SECOND));
    assert_eq!(paced_in_two_minutes(5_000).len(), 160);
    let held = paced_in_two_minutes(500).len();
    assert!((1..140).contains(&held), "{held}");
}

#[test]
fn a_loose_pin_makes_single_large_signals_and_shivering_many_small_ones() {
    let marked = |noise| {
        let heart = Heart { noise: Some(noise), ..Heart::silent() };
        let events = ventricular(heart, dials(30, 5_000, 500)).run(300 * SECOND);
        marks(&events, MarkKind::Sense).len()
    };
    let (loose, shivering) = (marked(Noise::loose_pin(20_000)), marked(Noise::shivering(2_000)));
    assert!(loose > 50 && shivering > loose, "{loose} {shivering}");
}

#[test]
fn a_lost_lead_neither_paces_nor_senses_nor_shows_its_spikes() {
    let lost = Heart { lead: Lead::Lost, ..Heart::sinus(72) };
    let events = ventricular(lost, dials(82, 20_000, 1_000)).run(30 * SECOND);
    assert!(marks(&events, MarkKind::Sense).is_empty());
    assert!(outcomes(&events).iter().all(|outcome| *outcome == SpikeOutcome::NotDelivered));
    assert!(events.iter().filter_map(spike).all(|(visible, _)| !visible));
    assert_eq!(spikes(&events).len(), 41);
}

#[test]
fn an_intermittent_lead_paces_while_it_holds() {
    let lead = Lead::Intermittent { sound_us: 10_000_000, broken_us: 5_000_000 };
    let heart = Heart { lead, ..Heart::silent() };
    let events = ventricular(heart, dials(60, 5_000, 1_000)).run(60 * SECOND);
    let paced = beats(&events, Chamber::Ventricle, Origin::Paced);
    assert!(paced.iter().all(|at| at % (15 * SECOND) < 10 * SECOND));
    assert!((36..=40).contains(&paced.len()), "{}", paced.len());
}

/// That a capturing spike on a T wave can start fibrillation: RONT. The moment and the chance are the test's.
#[test]
fn a_captured_spike_on_the_t_wave_starts_fibrillation_and_one_beside_it_does_not() {
    let vulnerable = Vulnerable { from_us: 280_000, until_us: 360_000, one_in: 1, wave_uv: 2_000 };
    let heart = Heart { vulnerable: Some(vulnerable), ..Heart::sinus(72) };
    let fibrillates = |mut patient: simulator::Patient| {
        let events = patient.run(60 * SECOND);
        let start = events.iter().find(|event| event.what == What::VentricularFibrillation)?.at_us;
        let later = beats(&events, Chamber::Ventricle, Origin::Own).into_iter().filter(|at| *at > start);
        assert_eq!(later.count(), 0);
        Some(start)
    };
    let blind = asynchronous(60, 5_000);
    assert!(fibrillates(patient(heart.clone(), Generator::ventricular(blind))).is_some());
    assert!(fibrillates(ventricular(heart.clone(), dials(60, 5_000, 2_000))).is_none());
    assert!(fibrillates(ventricular(heart, asynchronous(60, 1_000))).is_none());
}

#[test]
fn fibrillation_comes_as_often_as_it_is_said_to() {
    let vulnerable = Vulnerable { from_us: 250_000, until_us: 700_000, one_in: 4, wave_uv: 0 };
    let heart = Heart { vulnerable: Some(vulnerable), refractory_us: 200_000, ..Heart::sinus(72) };
    let starts = (0..400_u64).filter(|seed| {
        let generator = Generator::ventricular(asynchronous(72, 5_000));
        let mut patient = simulator::Patient::new(heart.clone(), generator, *seed).unwrap();
        let first = patient.run(3 * SECOND);
        let tried = outcomes(&first).iter().position(|outcome| *outcome == SpikeOutcome::Captured);
        let since =
            |at: u64| beats(&first, Chamber::Ventricle, Origin::Own).into_iter().rfind(|own| *own < at);
        let spike = tried.map(|place| spikes(&first)[place]);
        let falls_there = spike.and_then(|at| Some(at - since(at)?)).is_some_and(|us| us >= 250_000);
        falls_there && first.iter().any(|event| event.what == What::VentricularFibrillation)
    });
    let share = starts.count();
    assert!((40..200).contains(&share), "{share} of 400");
}

#[test]
fn a_signal_that_breathes_is_seen_at_its_top_and_missed_at_its_bottom() {
    let signal = Signal { own_uv: 6_000, breath_uv: 1_000, ..Signal::default() };
    let heart = Heart { signal, ..Heart::sinus(72) };
    let marked =
        |mv| marks(&ventricular(heart.clone(), dials(62, 100, mv)).run(120 * SECOND), MarkKind::Sense).len();
    let (all, some, none) = (marked(5_000), marked(6_000), marked(7_001));
    assert!(all >= 143 && (20..140).contains(&some) && none == 0, "{all} {some} {none}");
}

#[test]
fn a_drifting_signal_is_lost_in_time() {
    let signal = Signal { own_uv: 6_000, drift_uv_per_hour: -3_000, ..Signal::default() };
    let mut patient = ventricular(Heart { signal, ..Heart::sinus(72) }, dials(62, 100, 5_000));
    let last = marks(&patient.run(3_600 * SECOND), MarkKind::Sense).last().copied();
    assert!(last.is_some_and(|at| (1_195..=1_201).contains(&(at / SECOND))), "{last:?}");
}

#[test]
fn a_threshold_that_scatters_is_met_sometimes() {
    let capture =
        Capture { going_down_micro: 2_000, going_up_micro: 2_000, scatter_micro: 300, ..Capture::default() };
    let captured = |output| {
        let mut patient = ventricular(Heart { capture, ..Heart::silent() }, dials(80, output, 1_000));
        outcomes(&patient.run(300 * SECOND)).iter().filter(|o| **o == SpikeOutcome::Captured).count()
    };
    let (never, half, always) = (captured(1_699), captured(2_000), captured(2_300));
    assert!(never == 0 && (150..250).contains(&half) && always == 400, "{never} {half} {always}");
}

#[test]
fn switched_off_there_is_neither_spike_nor_mark_and_switched_on_it_counts_anew() {
    let mut patient = ventricular(Heart::silent(), dials(60, 5_000, 1_000));
    patient.switch(Power::Off);
    assert!(patient.run(10 * SECOND).is_empty());
    patient.switch(Power::BatteryLow);
    assert_eq!(patient.power(), Power::BatteryLow);
    assert_eq!(spikes(&patient.run(5 * SECOND)), (11..=15).map(|s| s * SECOND).collect::<Vec<_>>());
}
