//! One heart after another, each doing the one thing it was described to do.

mod support;

use simulator::{
    AtrialRhythm, Capture, Chamber, Conduction, Escape, ExtraBeats, Fault, Generator, Heart, MarkKind,
    Origin, Pressure, Signal, SpikeOutcome, Standstill, Suppression, What,
};
use support::{SECOND, asynchronous, beats, dials, intervals, marks, patient, spikes, ventricular};

#[test]
fn own_beats_faster_than_the_dial_are_each_marked_and_never_paced() {
    let mut patient = ventricular(Heart::sinus(72), dials(62, 10_000, 3_000));
    let events = patient.run(60 * SECOND);
    assert!(spikes(&events).is_empty());
    let own = beats(&events, Chamber::Ventricle, Origin::Own);
    assert!((71..=73).contains(&own.len()), "{}", own.len());
    assert_eq!(marks(&events, MarkKind::Sense), own);
}

#[test]
fn a_dial_faster_than_the_own_beats_paces_every_beat() {
    let mut patient = ventricular(Heart::sinus(72), dials(82, 10_000, 3_000));
    patient.run(5 * SECOND);
    let events = patient.run(60 * SECOND);
    assert!(beats(&events, Chamber::Ventricle, Origin::Own).is_empty());
    let paced = beats(&events, Chamber::Ventricle, Origin::Paced);
    assert_eq!(paced.len(), spikes(&events).len());
    assert!(intervals(&paced).all(|interval| interval == 60_000_000 / 82));
}

#[test]
fn a_number_above_the_signal_does_not_see_it_and_paces_through_own_beats() {
    let mut patient = ventricular(Heart::sinus(72), dials(62, 10_000, 8_001));
    let events = patient.run(60 * SECOND);
    assert!(marks(&events, MarkKind::Sense).is_empty());
    assert!(intervals(&spikes(&events)).all(|interval| interval == 60_000_000 / 62));
    assert!(!beats(&events, Chamber::Ventricle, Origin::Own).is_empty());
}

#[test]
fn capture_is_lost_below_one_threshold_and_comes_back_at_a_higher_one() {
    let mut patient = ventricular(Heart::sinus(60), dials(80, 5_000, 3_000));
    patient.run(10 * SECOND);
    let mut captured_at = |output: u32| {
        assert_eq!(patient.set(dials(80, output, 3_000)), Ok(()));
        let events = patient.run(5 * SECOND);
        let outcomes = support::outcomes(&events);
        assert!(!outcomes.is_empty());
        outcomes.iter().all(|&outcome| outcome == SpikeOutcome::Captured)
    };
    assert!(captured_at(1_600));
    assert!(!captured_at(1_599));
    assert!(!captured_at(1_799));
    assert!(captured_at(1_800));
    assert!(captured_at(1_600));
}

#[test]
fn without_own_rhythm_a_lost_capture_is_a_heart_without_beats() {
    let mut patient = ventricular(Heart::silent(), dials(80, 5_000, 2_000));
    patient.run(5 * SECOND);
    assert_eq!(patient.set(dials(80, 1_000, 2_000)), Ok(()));
    patient.run(SECOND);
    let events = patient.run(10 * SECOND);
    let only_spikes_and_marks =
        events.iter().all(|event| matches!(event.what, What::Spike { .. } | What::Mark(_)));
    assert!(only_spikes_and_marks && !events.is_empty());
}

#[test]
fn an_irregular_rhythm_stays_between_its_fastest_and_slowest_and_uses_the_span() {
    let atrium = AtrialRhythm::Fibrillating { fastest_us: 500_000, slowest_us: 1_100_000, wave_uv: 200 };
    let heart = Heart { atrium, ..Heart::default() };
    let mut patient = ventricular(heart, dials(40, 10_000, 2_000));
    let events = patient.run(600 * SECOND);
    let own = beats(&events, Chamber::Ventricle, Origin::Own);
    let least = intervals(&own).min();
    let most = intervals(&own).max();
    assert!(matches!(least, Some(500_000..=510_000)), "{least:?}");
    assert!(matches!(most, Some(1_090_000..=1_100_000)), "{most:?}");
    assert!(beats(&events, Chamber::Atrium, Origin::Own).is_empty());
}

#[test]
fn an_atrium_in_fibrillation_inhibits_an_atrial_wire_and_is_never_captured() {
    let atrium = AtrialRhythm::Fibrillating { fastest_us: 500_000, slowest_us: 1_100_000, wave_uv: 900 };
    let heart = Heart { wire: Chamber::Atrium, atrium, ..Heart::default() };
    let mut patient = patient(heart, Generator::atrial(dials(80, 20_000, 800)));
    assert!(spikes(&patient.run(30 * SECOND)).is_empty());
    assert_eq!(patient.set(dials(80, 20_000, 1_000)), Ok(()));
    let outcomes = support::outcomes(&patient.run(30 * SECOND));
    assert!(!outcomes.is_empty());
    assert!(outcomes.iter().all(|&outcome| outcome == SpikeOutcome::NotExcitable));
}

#[test]
fn atrial_pacing_is_followed_by_the_ventricle_until_the_node_blocks() {
    let conduction = Conduction { recovery_us: 740_000, ..Conduction::default() };
    let heart = Heart { wire: Chamber::Atrium, conduction: Some(conduction), ..Heart::sinus(70) };
    let mut patient = patient(heart, Generator::atrial(dials(80, 5_000, 1_000)));
    patient.run(5 * SECOND);
    let followed = patient.run(60 * SECOND);
    assert_eq!(beats(&followed, Chamber::Atrium, Origin::Paced).len(), 80);
    assert_eq!(beats(&followed, Chamber::Ventricle, Origin::Own).len(), 80);

    assert_eq!(patient.set(dials(82, 5_000, 1_000)), Ok(()));
    patient.run(5 * SECOND);
    let blocked = patient.run(60 * SECOND);
    assert_eq!(beats(&blocked, Chamber::Atrium, Origin::Paced).len(), 82);
    let qrs = beats(&blocked, Chamber::Ventricle, Origin::Own).len();
    assert_eq!(qrs, 41, "every second P wave without a QRS");
}

#[test]
fn a_wire_on_the_wrong_chamber_gives_a_wide_beat_under_an_atrial_mark() {
    let mut patient = patient(Heart::sinus(70), Generator::atrial(dials(90, 5_000, 1_000)));
    let events = patient.run(20 * SECOND);
    assert!(!beats(&events, Chamber::Ventricle, Origin::Paced).is_empty());
    assert!(beats(&events, Chamber::Atrium, Origin::Paced).is_empty());
    let letters: Vec<_> = events.iter().filter_map(support::letters).collect();
    assert!(letters.contains(&"AP") && !letters.contains(&"VP"));
}

#[test]
fn extra_beats_of_another_size_go_unmarked_while_own_beats_are_marked() {
    let extra =
        ExtraBeats { chamber: Chamber::Ventricle, one_in: 10, coupling_us: 450_000, signal_uv: 2_000 };
    let heart = Heart { extra: Some(extra), ..Heart::sinus(72) };
    let mut patient = ventricular(heart, dials(30, 10_000, 4_000));
    let events = patient.run(120 * SECOND);
    let extras = beats(&events, Chamber::Ventricle, Origin::Extra);
    let own = beats(&events, Chamber::Ventricle, Origin::Own);
    assert!(extras.len() > 5 && extras.len() < own.len() / 4);
    assert_eq!(marks(&events, MarkKind::Sense), own);
}

#[test]
fn a_t_wave_as_large_as_the_number_restarts_the_timer_and_slows_the_pacing() {
    let signal = Signal { t_wave_uv: 1_000, t_wave_delay_us: 350_000, ..Signal::default() };
    let heart = Heart { signal, ..Heart::silent() };
    let mut patient = ventricular(heart, dials(60, 10_000, 1_001));
    assert!(intervals(&spikes(&patient.run(20 * SECOND))).all(|us| us == 1_000_000));
    assert_eq!(patient.set(dials(60, 10_000, 1_000)), Ok(()));
    patient.run(3 * SECOND);
    assert!(intervals(&spikes(&patient.run(20 * SECOND))).all(|us| us == 1_350_000));
}

#[test]
fn a_suppressed_escape_answers_late_and_wakes_beat_by_beat() {
    let escape = Escape {
        interval_us: 1_200_000,
        scatter_us: 0,
        suppression: Some(Suppression { longest_us: 6_000_000, builds_over_beats: 20, wakes_over_beats: 4 }),
    };
    let heart = Heart { escape: Some(escape), ..Heart::silent() };
    let pause_after = |rate| {
        let mut patient = ventricular(heart.clone(), dials(rate, 10_000, 2_000));
        patient.run(300 * SECOND);
        assert_eq!(patient.set(dials(1, 10_000, 2_000)), Ok(()));
        let paced_until = patient.now_us();
        let events = patient.run(50 * SECOND);
        let own = beats(&events, Chamber::Ventricle, Origin::Own);
        let shrinking: Vec<_> = intervals(&own).collect();
        assert!(shrinking.is_sorted_by(|early, late| early >= late));
        own[0] - paced_until
    };
    let (slow, fast) = (pause_after(60), pause_after(100));
    assert!(slow > 1_200_000 && fast > slow, "{slow} {fast}");
}

#[test]
fn a_rhythm_that_stands_still_stops_after_its_beats_and_comes_back() {
    let heart = Heart {
        standstill: Some(Standstill { after_own_beats: 20, lasts_us: 30_000_000 }),
        ..Heart::sinus(60)
    };
    let mut patient = ventricular(heart, dials(50, 500, 2_000));
    let events = patient.run(120 * SECOND);
    let own = beats(&events, Chamber::Ventricle, Origin::Own);
    let pauses: Vec<_> = intervals(&own).filter(|&us| us > 2_000_000).collect();
    assert!(!pauses.is_empty() && pauses.iter().all(|&us| us >= 30_000_000));
    assert_eq!(intervals(&own).position(|us| us > 2_000_000), Some(19));
}

#[test]
fn pressure_follows_the_kind_of_beat_and_nothing_is_no_pulse() {
    let pressure = Pressure { own_mmhg: 118, paced_mmhg: 0, ..Pressure::default() };
    let heart = Heart { pressure, ..Heart::sinus(60) };
    let mut patient = ventricular(heart, dials(50, 5_000, 2_000));
    let own = patient.run(20 * SECOND);
    assert!(own.iter().any(|event| event.what == What::Pulse { systolic_mmhg: 118 }));
    assert!(!own.iter().any(|event| event.what == What::NoPulse));
    assert_eq!(patient.set(dials(90, 5_000, 2_000)), Ok(()));
    patient.run(5 * SECOND);
    let paced = patient.run(20 * SECOND);
    assert!(paced.iter().any(|event| event.what == What::NoPulse));
    assert!(!paced.iter().any(|event| matches!(event.what, What::Pulse { .. })));
}

#[test]
fn spikes_below_the_set_output_are_not_shown_but_still_pace() {
    let heart = Heart { spikes_seen_from_micro: 4_000, ..Heart::silent() };
    let shown = |output| {
        let mut patient = ventricular(heart.clone(), asynchronous(70, output));
        let events = patient.run(10 * SECOND);
        assert!(!beats(&events, Chamber::Ventricle, Origin::Paced).is_empty());
        let mut shown = events.iter().filter_map(support::spike);
        shown.all(|(visible, _)| visible)
    };
    assert!(shown(4_000));
    assert!(!shown(3_999));
}

#[test]
fn a_heart_can_change_under_way() {
    let mut patient = ventricular(Heart::sinus(60), dials(80, 5_000, 2_000));
    patient.run(10 * SECOND);
    let worse = Capture { going_down_micro: 9_000, going_up_micro: 10_000, ..Capture::default() };
    let shocked = Heart { capture: worse, ..Heart::sinus(60) };
    assert_eq!(patient.change_heart(shocked), Ok(()));
    let outcomes = support::outcomes(&patient.run(10 * SECOND));
    assert!(!outcomes.contains(&SpikeOutcome::Captured));
    assert!(outcomes.contains(&SpikeOutcome::BelowThreshold));
    assert_eq!(patient.truth().going_up_micro, 10_000);
}

#[test]
fn an_impossible_heart_is_refused_with_place_value_and_limits() {
    let reversed = Capture { going_down_micro: 2_000, going_up_micro: 1_000, ..Capture::default() };
    let heart = Heart { capture: reversed, ..Heart::default() };
    let fault = Fault::AboveOther {
        field: "capture.going_down_micro",
        value: 2_000,
        other: "capture.going_up_micro",
        limit: 1_000,
    };
    assert_eq!(heart.validate(), Err(fault));
    let said = "capture.going_down_micro is 2000; it must not exceed capture.going_up_micro, 1000";
    assert_eq!(fault.to_string(), said);
    let no_rate = Generator::ventricular(dials(0, 5_000, 2_000));
    let said = simulator::Patient::new(Heart::default(), no_rate, 1).map_err(|fault| fault.to_string());
    assert_eq!(said.err().as_deref(), Some("rate_per_min is 0; 1 to 400 is allowed"));
}
