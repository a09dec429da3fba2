//! The drawn strip, sample by sample, against the events it was drawn from.
#![allow(clippy::unwrap_used, reason = "a failing test stops")]

mod support;

use simulator::strip::{Batch, SAMPLE_US, SAMPLES, Strip};
use simulator::{Chamber, Conduction, Dials, Event, Generator, Heart, Origin, Vulnerable, What};
use support::{asynchronous, dials, patient};

struct Drawn {
    ecg: Vec<i16>,
    pulse: Vec<i16>,
    letters: Vec<&'static str>,
    events: Vec<Event>,
}

fn drawn(heart: Heart, generator: Generator, seconds: usize) -> Drawn {
    let mut strip = Strip::new(patient(heart, generator));
    let mut drawn = Drawn { ecg: vec![], pulse: vec![], letters: vec![], events: vec![] };
    for number in 0..seconds * 20 {
        let batch = strip.next().unwrap();
        assert_eq!(batch.number as usize, number);
        drawn.ecg.extend(batch.ecg);
        drawn.pulse.extend(batch.pulse);
        drawn.letters.extend(batch.marks.iter().map(|(_, mark)| mark.letters()));
        drawn.events.extend(strip.events());
    }
    drawn
}

fn ventricular(heart: Heart, dials: Dials) -> Drawn {
    drawn(heart, Generator::ventricular(dials), 20)
}

impl Drawn {
    fn beats(&self, origin: Origin) -> Vec<u64> {
        support::beats(&self.events, Chamber::Ventricle, origin)
    }

    /// From the event on, `ms` long.
    fn around(&self, at_us: u64, ms: usize) -> &[i16] {
        let first = at_us.div_ceil(SAMPLE_US) as usize;
        &self.ecg[first..(first + ms / 2).min(self.ecg.len())]
    }
}

#[test]
fn one_seed_is_one_strip() {
    let bytes = || {
        let strip = Strip::new(patient(Heart::sinus(72), Generator::ventricular(dials(80, 5_000, 2_000))));
        strip.take(400).map(|batch| batch.bytes()).collect::<Vec<_>>()
    };
    assert_eq!(bytes(), bytes());
    assert!(bytes().iter().all(|batch| batch.len() == 4 * SAMPLES && batch.len() < 1_000));
}

#[test]
fn own_beats_are_narrow_and_upright_and_paced_ones_wide_and_downward() {
    let own = ventricular(Heart::sinus(72), dials(50, 5_000, 2_000));
    let paced = ventricular(Heart::silent(), dials(80, 5_000, 2_000));
    let (own_at, paced_at) = (own.beats(Origin::Own)[2], paced.beats(Origin::Paced)[2]);
    assert!(*own.around(own_at, 100).iter().max().unwrap() > 900);
    assert!(*paced.around(paced_at, 200).iter().min().unwrap() < -900);
    let below = |samples: &[i16]| samples.iter().filter(|sample| **sample < -500).count();
    assert_eq!(below(own.around(own_at, 200)), 0);
    assert!(below(paced.around(paced_at, 200)) > 30);
}

#[test]
fn a_spike_is_drawn_where_the_monitor_shows_it_and_not_below() {
    let steep = |drawn: &Drawn| drawn.ecg.windows(2).filter(|pair| pair[1] - pair[0] > 2_000).count();
    let seen = ventricular(Heart::silent(), dials(60, 5_000, 2_000));
    // The twentieth stands on the instant at which the strip ends.
    assert_eq!(steep(&seen), 19);
    let hidden = Heart { spikes_seen_from_micro: 6_000, ..Heart::silent() };
    assert_eq!(steep(&ventricular(hidden, dials(60, 5_000, 2_000))), 0);
}

#[test]
fn a_spike_on_an_own_beat_leaves_it_as_it_is() {
    let heart = Heart::sinus(72);
    let alone = ventricular(heart.clone(), dials(50, 100, 2_000));
    // Below the threshold: the same beats, and spikes that wander through them.
    let through = ventricular(heart, asynchronous(65, 100));
    let beats = through.beats(Origin::Own);
    assert_eq!(beats, alone.beats(Origin::Own));
    let spikes = support::spikes(&through.events);
    let on_it = |beat: &&u64| spikes.iter().any(|spike| (**beat..**beat + 80_000).contains(spike));
    let hit = *beats.iter().find(on_it).unwrap();
    let pairs = through.around(hit, 100).iter().zip(alone.around(hit, 100));
    assert_eq!(pairs.filter(|(with, without)| with != without).count(), 2);
}

/// Paced a little faster than the sinus, the spike comes ever earlier before the beat that is on its way.
#[test]
fn a_conducted_beat_that_falls_into_a_paced_one_makes_it_smaller() {
    let conduction = Some(Conduction { retrograde: false, ..Conduction::default() });
    let heart = Heart { conduction, ..Heart::sinus(72) };
    let drawn = drawn(heart, Generator::ventricular(dials(75, 5_000, 2_000)), 120);
    let depth = |at: &u64| *drawn.around(*at + 10_000, 170).iter().min().unwrap();
    let depths: Vec<i16> = drawn.beats(Origin::Paced).iter().map(depth).collect();
    let (deepest, shallowest) = (depths.iter().min().unwrap(), depths.iter().max().unwrap());
    assert!(*deepest < -1_000 && *shallowest > -800, "{deepest} {shallowest}");
}

#[test]
fn the_marks_are_the_generators_two_letters() {
    let letters = |generator| drawn(Heart::sinus(72), generator, 20).letters;
    for (generator, letter) in [
        (Generator::ventricular(dials(50, 5_000, 2_000)), "VS"),
        (Generator::ventricular(dials(90, 5_000, 2_000)), "VP"),
        (Generator::atrial(dials(50, 5_000, 100)), "AS"),
        (Generator::atrial(dials(90, 5_000, 2_000)), "AP"),
    ] {
        assert!(letters(generator).contains(&letter), "{letter}");
    }
}

#[test]
fn the_pulse_trace_reaches_the_systolic_pressure_of_each_kind_of_beat() {
    let peak = |drawn: &Drawn| *drawn.pulse[5_000..].iter().max().unwrap();
    let own = ventricular(Heart::sinus(72), dials(50, 5_000, 2_000));
    let paced = ventricular(Heart::silent(), dials(80, 5_000, 2_000));
    assert!((116..=120).contains(&peak(&own)) && (106..=110).contains(&peak(&paced)));
}

#[test]
fn fibrillation_has_neither_complexes_nor_a_pulse() {
    let vulnerable = Vulnerable { from_us: 280_000, until_us: 360_000, one_in: 1, wave_uv: 1_000 };
    let heart = Heart { vulnerable: Some(vulnerable), ..Heart::sinus(72) };
    let drawn = drawn(heart, Generator::ventricular(asynchronous(60, 5_000)), 60);
    let start = drawn.events.iter().find(|event| event.what == What::VentricularFibrillation).unwrap().at_us;
    let after = (start / SAMPLE_US) as usize + 1_500;
    let spikes = support::spikes(&drawn.events);
    let near = |at: usize| spikes.iter().any(|spike| (spike / SAMPLE_US).abs_diff(at as u64) < 3);
    let calm = drawn.ecg.iter().enumerate().skip(after).filter(|(at, _)| !near(*at));
    assert!(calm.clone().all(|(_, uv)| uv.abs() < 800));
    assert!(calm.filter(|(_, uv)| uv.abs() > 100).count() > 500);
    assert!(drawn.pulse[after..].iter().all(|mmhg| *mmhg < 40));
}

/// Turned to a faster rate, the interval is over at once: the spike stands on the first instant of the batch.
#[test]
fn a_spike_due_by_a_turn_of_the_dial_has_its_mark() {
    let mut strip = Strip::new(patient(Heart::silent(), Generator::ventricular(dials(40, 5_000, 2_000))));
    strip.by_ref().take(20).for_each(drop);
    strip.patient.set(dials(100, 5_000, 2_000)).unwrap();
    let batch = strip.next().unwrap();
    assert_eq!(batch.marks.iter().map(|(at, mark)| (*at, mark.letters())).collect::<Vec<_>>(), [(0, "VP")]);
}

#[test]
fn a_batch_says_where_it_stands() {
    let strip = Strip::new(patient(Heart::sinus(72), Generator::ventricular(dials(80, 5_000, 2_000))));
    let places: Vec<u64> = strip.take(3).map(|batch: Batch| batch.at_us()).collect();
    assert_eq!(places, [0, 50_000, 100_000]);
}
