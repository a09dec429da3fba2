//! A recorded rhythm in place of the heart's own. Intervals and sizes here are invented.
#![allow(clippy::unwrap_used, reason = "a failing test stops")]

mod support;

use std::sync::Arc;

use proptest::prelude::*;
use simulator::{
    AtrialRhythm, Capture, Chamber, Conduction, Escape, Event, Fault, Generator, Heart, MarkKind, NoRhythm,
    Origin, OwnRhythm, Patient, RecordedBeat, Recording, SpikeOutcome, Standstill, Truth, Vulnerable,
};
use support::any_heart::any_recorded_heart;
use support::{SECOND, asynchronous, beats, dials, marks, outcomes, patient, spikes, ventricular};

/// Seconds in thousandths.
const AT_MS: [u64; 6] = [300, 1_100, 1_850, 2_700, 3_500, 4_400];
const SIGNALS_UV: [u32; 6] = [6_000, 8_000, 5_000, 7_000, 6_500, 9_000];
/// Of 800, 750, 850, 800, 900.
const MEDIAN_US: u64 = 800_000;

fn recorded_beats() -> Vec<RecordedBeat> {
    let pairs = AT_MS.into_iter().zip(SIGNALS_UV);
    pairs.map(|(ms, uv)| RecordedBeat { at_us: ms * 1_000, signal_uv: Some(uv) }).collect()
}

fn recording() -> Arc<Recording> {
    Arc::new(Recording::new(recorded_beats()).unwrap())
}

fn recorded() -> Heart {
    Heart { atrium: AtrialRhythm::Recorded(recording()), ..Heart::default() }
}

/// Twice through, the second time one median interval behind the last beat.
fn twice() -> Vec<u64> {
    let first = AT_MS.map(|ms| ms * 1_000);
    let again = first.map(|at| first[5] + MEDIAN_US + at - first[0]);
    first.into_iter().chain(again).collect()
}

fn own(events: &[Event]) -> Vec<u64> {
    beats(events, Chamber::Ventricle, Origin::Own)
}

#[test]
fn own_beats_come_at_the_recorded_instants_and_again_from_the_beginning() {
    for seed in [1, 2, 99] {
        let generator = Generator::ventricular(dials(40, 5_000, 2_000));
        let events = Patient::new(recorded(), generator, seed).unwrap().run(9_400_000);
        assert_eq!(own(&events), twice());
        assert_eq!(spikes(&events), []);
    }
}

#[test]
fn each_beat_brings_its_own_signal_to_the_wire() {
    for (level, seen) in [(5_000, 12), (5_001, 10), (7_000, 6), (8_001, 2), (9_001, 0)] {
        let events = ventricular(recorded(), dials(1, 100, level)).run(9_400_000);
        assert_eq!(marks(&events, MarkKind::Sense).len(), seen, "{level}");
    }
}

#[test]
fn without_sizes_the_signal_is_the_hearts() {
    let beats = recorded_beats().into_iter().map(|beat| RecordedBeat { signal_uv: None, ..beat }).collect();
    let atrium = AtrialRhythm::Recorded(Arc::new(Recording::new(beats).unwrap()));
    let heart = Heart { atrium, ..Heart::default() };
    for (level, seen) in [(8_000, 12), (8_001, 0)] {
        let events = ventricular(heart.clone(), dials(1, 100, level)).run(9_400_000);
        assert_eq!(marks(&events, MarkKind::Sense).len(), seen, "{level}");
    }
}

/// 600 ms between spikes, 750 between the nearest beats.
#[test]
fn faster_pacing_meets_no_own_beat_and_the_recording_goes_on_afterwards() {
    let mut patient = ventricular(recorded(), dials(100, 5_000, 2_000));
    let paced = patient.run(30 * SECOND);
    assert!(outcomes(&paced).iter().all(|outcome| *outcome == SpikeOutcome::Captured));
    // The first, before any spike.
    assert_eq!(own(&paced), [300_000]);
    let last = *spikes(&paced).last().unwrap();
    patient.set(dials(30, 5_000, 2_000)).unwrap();
    let after = own(&patient.run(3 * SECOND));
    assert_eq!(after[..2], [last + 800_000, last + 800_000 + 750_000]);
}

#[test]
fn spikes_that_do_not_capture_change_no_beat() {
    let events = ventricular(recorded(), asynchronous(93, 100)).run(9_400_000);
    assert_eq!(own(&events), twice());
    assert!(outcomes(&events).iter().all(|outcome| *outcome != SpikeOutcome::Captured));
    assert!(outcomes(&events).contains(&SpikeOutcome::NotExcitable));
}

/// An escape comes in a recorded pause; the recording runs on, and what meets refractory muscle is lost.
#[test]
fn an_escape_beats_where_the_recording_pauses() {
    let escape = Some(Escape { interval_us: 820_000, scatter_us: 0, suppression: None });
    let events = ventricular(Heart { escape, ..recorded() }, dials(30, 100, 2_000)).run(4_600_000);
    // 850 ms are longer than the escape: it leads from there on, and each recorded beat comes too soon after it.
    assert_eq!(own(&events), [300_000, 1_100_000, 1_850_000, 2_670_000, 3_490_000, 4_310_000]);
}

#[test]
fn at_an_atrial_wire_the_recorded_beats_are_p_waves_and_are_conducted() {
    let heart = Heart { wire: Chamber::Atrium, ..recorded() };
    let events = patient(heart, Generator::atrial(dials(40, 5_000, 2_000))).run(9_500_000);
    assert_eq!(beats(&events, Chamber::Atrium, Origin::Own), twice());
    let delay = u64::from(Conduction::default().delay_us);
    assert_eq!(own(&events), twice().iter().map(|at| at + delay).collect::<Vec<_>>());
    assert_eq!(marks(&events, MarkKind::Sense), twice());
}

#[test]
fn faster_atrial_pacing_meets_no_recorded_p_wave() {
    let heart = Heart { wire: Chamber::Atrium, ..recorded() };
    let events = patient(heart, Generator::atrial(dials(100, 5_000, 2_000))).run(30 * SECOND);
    assert_eq!(beats(&events, Chamber::Atrium, Origin::Own), [300_000]);
}

#[test]
fn a_heart_that_changes_otherwise_does_not_begin_its_recording_anew() {
    let mut patient = ventricular(recorded(), dials(40, 5_000, 2_000));
    let mut seen = own(&patient.run(2 * SECOND));
    let capture = Capture { going_down_micro: 4_000, going_up_micro: 4_000, ..Capture::default() };
    patient.change_heart(Heart { capture, ..recorded() }).unwrap();
    seen.extend(own(&patient.run(7_400_000)));
    assert_eq!(seen, twice());
    patient.change_heart(Heart::silent()).unwrap();
    assert_eq!(own(&patient.run(5 * SECOND)), []);
    patient.change_heart(recorded()).unwrap();
    assert_eq!(own(&patient.run(SECOND)), [14_400_000 + 300_000]);
}

#[test]
fn after_fibrillation_the_recording_goes_on_where_it_was() {
    let vulnerable = Some(Vulnerable { from_us: 260_000, until_us: 400_000, one_in: 1, wave_uv: 0 });
    let mut patient = ventricular(Heart { vulnerable, ..recorded() }, asynchronous(100, 5_000));
    // A spike at 600 ms falls on the T wave of the beat at 300.
    assert_eq!(own(&patient.run(4 * SECOND)), [300_000]);
    patient.set(dials(30, 100, 2_000)).unwrap();
    patient.shock(recorded()).unwrap();
    assert_eq!(own(&patient.run(2 * SECOND)), [4_800_000, 5_550_000]);
}

#[test]
fn a_recording_stands_still_with_the_heart() {
    let standstill = Some(Standstill { after_own_beats: 3, lasts_us: 3_000_000 });
    let events = ventricular(Heart { standstill, ..recorded() }, dials(1, 100, 2_000)).run(6 * SECOND);
    assert_eq!(own(&events), [300_000, 1_100_000, 1_850_000, 4_850_000, 5_650_000]);
}

#[test]
fn the_truth_is_what_was_recorded() {
    let truth = Truth::of(&recorded(), 1_000);
    assert_eq!((truth.smallest_signal_uv, truth.largest_signal_uv), (5_000, 9_000));
    assert_eq!(truth.own, Some(OwnRhythm { fastest_us: 750_000, slowest_us: 900_000 }));
    let escape = Some(Escape { interval_us: 2_000_000, scatter_us: 0, suppression: None });
    let small = simulator::Signal { own_uv: 3_000, ..simulator::Signal::default() };
    let truth = Truth::of(&Heart { escape, signal: small, ..recorded() }, 1_000);
    assert_eq!(truth.smallest_signal_uv, 3_000);
}

#[test]
fn what_is_no_rhythm_is_refused() {
    let refused = |change: &dyn Fn(&mut Vec<RecordedBeat>)| {
        let mut beats = recorded_beats();
        change(&mut beats);
        Recording::new(beats).unwrap_err()
    };
    let apart = |beat, at_us, before_us| NoRhythm::Apart { beat, at_us, before_us };
    assert_eq!(refused(&|beats| beats.truncate(2)), NoRhythm::TooFew { beats: 2 });
    assert_eq!(refused(&|beats| beats.clear()), NoRhythm::TooFew { beats: 0 });
    assert_eq!(refused(&|beats| beats[2].at_us = 1_240_000), apart(3, 1_240_000, 1_100_000));
    assert_eq!(refused(&|beats| beats.swap(2, 3)), apart(4, 1_850_000, 2_700_000));
    assert_eq!(refused(&|beats| beats[5].at_us = 70 * SECOND), apart(6, 70 * SECOND, 3_500_000));
    assert_eq!(refused(&|beats| beats[5].at_us = 14_401 * SECOND), NoRhythm::TooLong);
    assert_eq!(refused(&|beats| beats[0].at_us = 61 * SECOND), apart(1, 61 * SECOND, 0));
    let large = refused(&|beats| beats[3].signal_uv = Some(100_001));
    assert!(matches!(large, NoRhythm::Signal(Fault::OutOfRange { field: "recorded.signal_uv", .. })));
    for some in [0, 3, 5] {
        let beat = if some == 0 { 2 } else { some + 1 };
        assert_eq!(refused(&|beats| beats[some].signal_uv = None), NoRhythm::SomeSignals { beat });
    }
    // Muscle that could not answer the nearest beat.
    let slow = Heart { refractory_us: 600_000, ..recorded() };
    assert_eq!(slow.validate(), Ok(()));
    let mut near = recorded_beats();
    near[1].at_us = 800_000;
    let atrium = AtrialRhythm::Recorded(Arc::new(Recording::new(near).unwrap()));
    assert!(
        Heart { atrium, ..slow }
            .validate()
            .unwrap_err()
            .to_string()
            .contains("recorded.interval_us is 500000")
    );
}

proptest! {
    /// Whatever else the heart does: the same in pieces as at a stretch, and no own beat of the wire's chamber
    /// nearer to the last than its muscle allows.
    #[test]
    fn a_recorded_heart_runs_in_pieces_as_at_a_stretch(
        heart in any_recorded_heart(), rate in 30..150_u16, seed: u64,
        pieces in proptest::collection::vec(1..5 * SECOND, 1..20),
    ) {
        let generator = Generator::ventricular(dials(rate, 3_000, 2_000));
        let whole = Patient::new(heart.clone(), generator, seed).unwrap().run(pieces.iter().sum());
        let mut patient = Patient::new(heart.clone(), generator, seed).unwrap();
        let again: Vec<Event> = pieces.into_iter().flat_map(|piece| patient.run(piece)).collect();
        prop_assert_eq!(&whole, &again);
        let own = beats(&whole, heart.wire, Origin::Own);
        prop_assert!(support::gaps(&own).all(|gap| gap >= u64::from(heart.refractory_us)));
    }
}
