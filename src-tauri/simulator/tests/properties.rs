//! What holds for every heart: the textbook properties P1-P10 of a VVI/AAI and VOO/AOO machine on a living patient.
#![allow(clippy::panic, reason = "a failing test stops")]

mod support;

use proptest::prelude::*;
use simulator::{
    AtrialRhythm, Chamber, Dials, Event, Generator, Heart, MarkKind, Origin, Patient, Sense, SpikeOutcome,
    Timer, What, interval_us,
};
use support::any_heart::{any_chamber, any_heart};
use support::{SECOND, asynchronous, beats, dials, gaps, intervals, marks, outcomes, spikes};

fn any_dials() -> impl Strategy<Value = Dials> {
    (30..180_u16, 1..200_u32, 1..40_u32)
        .prop_map(|(rate, output, level)| dials(rate, output * 100, level * 250))
}

fn generator(port: Chamber, dials: Dials) -> Generator {
    Generator { port, ..Generator::ventricular(dials) }
}

fn started(heart: &Heart, generator: Generator, seed: u64) -> Patient {
    Patient::new(heart.clone(), generator, seed).unwrap_or_else(|fault| panic!("{fault}: {heart:?}"))
}

/// The instants at which the timer started again, the first of them 0.
fn resets(events: &[Event]) -> Vec<u64> {
    let reset =
        |event: &&Event| matches!(event.what, What::Mark(mark) if mark.kind != MarkKind::RefractorySense);
    let marked = events.iter().filter(reset).map(|event| event.at_us);
    std::iter::once(0).chain(marked).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn p1_no_gap_between_marks_is_longer_than_the_interval(
        heart in any_heart(), dials in any_dials(), port in any_chamber(), seed: u64,
    ) {
        let events = started(&heart, generator(port, dials), seed).run(60 * SECOND);
        let longest = intervals(&resets(&events)).max();
        prop_assert!(longest <= Some(interval_us(dials.rate_per_min).into()));
    }

    /// P2, and with it P3: signals in the refractory time restart nothing, or the pulse would come later.
    #[test]
    fn p2_p3_each_pulse_comes_exactly_one_interval_after_the_last_mark(
        heart in any_heart(), dials in any_dials(), port in any_chamber(), seed: u64,
    ) {
        let events = started(&heart, generator(port, dials), seed).run(60 * SECOND);
        let resets = resets(&events);
        for spike in spikes(&events) {
            let before = resets.iter().rev().find(|&&reset| reset < spike);
            prop_assert_eq!(before, Some(&(spike - u64::from(interval_us(dials.rate_per_min)))));
        }
    }

    #[test]
    fn p3_leaving_out_the_signals_of_the_refractory_time_changes_nothing(
        dials in any_dials(), signals in proptest::collection::btree_set(1..20 * SECOND, 0..80),
    ) {
        let run = |signals: &[u64]| restarts_and_refractory(dials, signals);
        let all: Vec<u64> = signals.into_iter().collect();
        let (restarts, refractory) = run(&all);
        let without: Vec<u64> = all.into_iter().filter(|at| !refractory.contains(at)).collect();
        prop_assert_eq!(run(&without), (restarts, vec![]));
    }

    #[test]
    fn p4_an_own_rhythm_faster_than_the_dial_and_seen_is_never_paced(
        mut heart in any_heart(), slower in 1..40_u16, seed: u64,
    ) {
        (heart.extra, heart.standstill) = (None, None);
        heart.escape.iter_mut().for_each(|escape| escape.suppression = None);
        let smallest_uv = heart.signal.own_uv - heart.signal.own_scatter_uv;
        heart.signal.t_wave_uv = heart.signal.t_wave_uv.min(smallest_uv - 1);
        heart.signal.far_field_uv = heart.signal.far_field_uv.min(smallest_uv - 1);
        let own = started(&heart, generator(heart.wire, dials(1, 1, 1)), seed).truth().own;
        // A beat in the box's refractory time is not seen, one in the muscle's is none, and the next may come too late.
        let shortest_us = 300_000.max(u64::from(heart.refractory_us));
        prop_assume!(own.is_some_and(|own| own.fastest_us >= shortest_us));
        let own_rate = own.map_or(0, |own| 60 * SECOND / own.slowest_us) as u16;
        let set = dials(own_rate.saturating_sub(slower).max(1), 30_000, smallest_uv);
        // The own rhythm is there first: spikes before it could hold it off for ever, by the way back to the atrium.
        let mut patient = started(&heart, generator(heart.wire, Dials { rate_per_min: 1, ..set }), seed);
        patient.run(20 * SECOND);
        prop_assert!(patient.set(set).is_ok());
        let events = patient.run(60 * SECOND);
        prop_assert!(spikes(&events).is_empty());
        let own_beats = beats(&events, heart.wire, Origin::Own);
        prop_assert!(!own_beats.is_empty());
        prop_assert_eq!(marks(&events, MarkKind::Sense), own_beats);
    }

    #[test]
    fn p5_asynchronous_pulses_come_at_the_interval_whatever_the_heart_does(
        heart in any_heart(), set in any_dials(), port in any_chamber(), seed: u64,
    ) {
        let set = asynchronous(set.rate_per_min, set.output_micro);
        let events = started(&heart, generator(port, set), seed).run(60 * SECOND);
        let interval = u64::from(interval_us(set.rate_per_min));
        let expected: Vec<u64> = (1..=60 * SECOND / interval).map(|n| n * interval).collect();
        prop_assert_eq!(spikes(&events), expected);
        prop_assert!(marks(&events, MarkKind::Sense).is_empty());
    }

    #[test]
    fn p6_more_output_never_captures_less(
        heart in any_heart(), set in any_dials(), more in 0..20_000_u32, seed: u64,
    ) {
        let fails_at = |output| {
            let set = asynchronous(set.rate_per_min, output);
            let events = started(&heart, generator(heart.wire, set), seed).run(60 * SECOND);
            outcomes(&events).contains(&SpikeOutcome::BelowThreshold)
        };
        let (less, more) = (set.output_micro, set.output_micro + more);
        prop_assert!(!fails_at(more) || fails_at(less));
    }

    #[test]
    fn p6_a_lower_number_never_misses_a_beat_that_a_higher_one_sees(
        mut heart in any_heart(), seed: u64, low in 1..12_000_u32, apart in 0..4_000_u32,
    ) {
        heart.signal.t_wave_uv = 0;
        heart.signal.far_field_uv = 0;
        let missed_at = |level| {
            let slow = dials(1, 100, level);
            let events = started(&heart, generator(heart.wire, slow), seed).run(50 * SECOND);
            let seen = [MarkKind::Sense, MarkKind::RefractorySense].map(|kind| marks(&events, kind));
            beats(&events, heart.wire, Origin::Own).into_iter()
                .filter(|beat| !seen.iter().any(|marks| marks.contains(beat)))
                .collect::<Vec<_>>()
        };
        let high = missed_at(low + apart);
        prop_assert!(missed_at(low).iter().all(|beat| high.contains(beat)));
    }

    /// On any dial: stepping down, the last position that captured is the lowest not below the truth going
    /// down; stepping up again, the first that captures is the lowest not below the truth going up.
    #[test]
    fn p7_stepping_down_and_up_finds_the_thresholds_computed_from_the_heart(
        mut heart in any_heart(), seed: u64,
        positions in proptest::collection::btree_set(1..25_000_u32, 2..40),
    ) {
        // No own beat may hide a spike in its refractory time.
        heart.wire = Chamber::Ventricle;
        (heart.atrium, heart.escape) = (AtrialRhythm::Silent, None);
        let positions: Vec<u32> = positions.into_iter().collect();
        let first = asynchronous(150, 30_000);
        let mut patient = started(&heart, Generator::ventricular(first), seed);
        let mut captures = |output| {
            patient.set(asynchronous(150, output)).is_ok_and(|()| {
                let outcomes = outcomes(&patient.run(5 * SECOND));
                outcomes.contains(&SpikeOutcome::Captured)
                    && !outcomes.contains(&SpikeOutcome::BelowThreshold)
            })
        };
        prop_assert!(captures(30_000));
        let held = positions.iter().rev().take_while(|&&output| captures(output)).last().copied();
        // The loss that teaches the heart to need more.
        prop_assert!(!captures(1) || heart.capture.going_down_micro == 1);
        let regained = positions.iter().find(|&&output| captures(output)).copied();
        let truth = started(&heart, Generator::ventricular(first), seed).truth();
        let lowest = |from| positions.iter().find(|&&output| output >= from).copied();
        prop_assert_eq!(held, lowest(truth.going_down_micro));
        prop_assert_eq!(regained, lowest(truth.going_up_micro));
    }

    #[test]
    fn p9_the_same_seed_gives_the_same_events_in_one_run_or_in_many(
        heart in any_heart(), set in any_dials(), seed: u64,
        pieces in proptest::collection::vec(0..3_000_000_u64, 1..20),
    ) {
        let whole = started(&heart, generator(heart.wire, set), seed).run(pieces.iter().sum());
        let mut patient = started(&heart, generator(heart.wire, set), seed);
        let parts: Vec<Event> = pieces.iter().flat_map(|&us| patient.run(us)).collect();
        prop_assert_eq!(whole, parts);
    }

    #[test]
    fn own_intervals_lie_within_the_truth_and_no_rhythm_shows_no_beat(
        mut heart in any_heart(), seed: u64,
    ) {
        (heart.extra, heart.standstill) = (None, None);
        heart.escape.iter_mut().for_each(|escape| escape.suppression = None);
        let mut patient = started(&heart, generator(heart.wire, dials(1, 1, 1)), seed);
        patient.run(10 * SECOND);
        let own = beats(&patient.run(40 * SECOND), heart.wire, Origin::Own);
        match patient.truth().own {
            None => prop_assert!(own.is_empty()),
            Some(truth) => {
                prop_assert!(own.len() > 5);
                prop_assert!(intervals(&own).all(|us| us >= truth.fastest_us));
                prop_assert!(intervals(&own).all(|us| us <= truth.slowest_us));
            }
        }
    }

    #[test]
    fn events_come_in_order_of_time_and_muscle_is_never_beaten_while_refractory(
        heart in any_heart(), set in any_dials(), port in any_chamber(), seed: u64,
    ) {
        let events = started(&heart, generator(port, set), seed).run(60 * SECOND);
        prop_assert!(events.is_sorted_by_key(|event| event.at_us));
        for chamber in [Chamber::Atrium, Chamber::Ventricle] {
            let beats: Vec<u64> = events.iter()
                .filter(|event| matches!(event.what, What::Beat { chamber: at, .. } if at == chamber))
                .map(|event| event.at_us)
                .collect();
            prop_assert!(gaps(&beats).all(|us| us >= u64::from(heart.refractory_us)));
        }
    }
}

/// Instants of restarts by a signal or a pulse, and of signals seen while refractory, in 20 s.
fn restarts_and_refractory(dials: Dials, signals: &[u64]) -> (Vec<u64>, Vec<u64>) {
    let (mut restarts, mut refractory) = (Vec::new(), Vec::new());
    let settings = Generator::ventricular(dials);
    let mut timer = Timer::new(settings, 0).unwrap_or_else(|fault| panic!("{fault}"));
    for &signal in signals {
        pace_until(signal - 1, &mut timer, &mut restarts);
        match timer.sense(20_000, signal) {
            Some(Sense::Restarted) => restarts.push(signal),
            Some(Sense::Refractory) => refractory.push(signal),
            None => {}
        }
    }
    pace_until(20 * SECOND, &mut timer, &mut restarts);
    (restarts, refractory)
}

fn pace_until(last_us: u64, timer: &mut Timer, restarts: &mut Vec<u64>) {
    while timer.next_spike_us() <= last_us {
        restarts.push(timer.next_spike_us());
        timer.spike(timer.next_spike_us());
    }
}
