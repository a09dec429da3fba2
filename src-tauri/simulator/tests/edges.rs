//! The exact instants and numbers at which one thing becomes another.

mod support;

use simulator::{
    AtrialRhythm, Chamber, Conduction, Escape, ExtraBeats, Generator, Heart, MarkKind, Origin, OwnRhythm,
    Pressure, Signal, SpikeOutcome, Standstill, Suppression, What,
};
use support::{SECOND, asynchronous, beats, dials, intervals, marks, outcomes, patient, spikes, ventricular};

#[test]
fn a_beat_that_arrives_just_as_the_interval_ends_holds_the_pulse() {
    let mut patient = ventricular(Heart::sinus(60), dials(60, 10_000, 2_000));
    patient.run(5 * SECOND);
    let events = patient.run(20 * SECOND);
    assert_eq!(spikes(&events).len(), 0);
    assert_eq!(marks(&events, MarkKind::Sense).len(), 20);
}

#[test]
fn muscle_can_beat_again_exactly_when_its_refractory_time_is_over() {
    let heart = |refractory_us| Heart { refractory_us, ..Heart::silent() };
    let all_captured = |refractory_us| {
        let events = ventricular(heart(refractory_us), asynchronous(240, 5_000)).run(10 * SECOND);
        outcomes(&events).iter().all(|&outcome| outcome == SpikeOutcome::Captured)
    };
    assert!(all_captured(250_000));
    assert!(!all_captured(250_001));
}

#[test]
fn a_p_wave_conducts_exactly_when_the_node_has_recovered() {
    let conducted = |recovery_us| {
        let conduction = Conduction { recovery_us, ..Conduction::default() };
        let heart = Heart { conduction: Some(conduction), ..Heart::sinus(60) };
        let events = ventricular(heart, dials(10, 100, 2_000)).run(60 * SECOND);
        beats(&events, Chamber::Ventricle, Origin::Own).len()
    };
    assert!((59..=60).contains(&conducted(1_000_000)));
    assert!((29..=30).contains(&conducted(1_000_001)));
}

#[test]
fn a_t_wave_is_met_by_a_ventricular_wire_only() {
    let signal = Signal { t_wave_uv: 5_000, t_wave_delay_us: 340_000, ..Signal::default() };
    let marked = |wire| {
        let heart = Heart { wire, signal, ..Heart::sinus(60) };
        let generator = Generator { port: wire, ..Generator::ventricular(dials(30, 100, 800)) };
        let events = patient(heart, generator).run(60 * SECOND);
        marks(&events, MarkKind::Sense).len() - beats(&events, wire, Origin::Own).len()
    };
    assert_eq!(marked(Chamber::Atrium), 0);
    assert!(marked(Chamber::Ventricle) > 50);
}

#[test]
fn after_a_paced_beat_the_own_rhythm_waits_one_interval_unless_nothing_conducts_backwards() {
    let next_own = |retrograde| {
        let conduction = Conduction { retrograde, ..Conduction::default() };
        let heart = Heart { conduction: Some(conduction), ..Heart::sinus(60) };
        let mut patient = ventricular(heart, dials(75, 5_000, 2_000));
        let paced = beats(&patient.run(30 * SECOND), Chamber::Ventricle, Origin::Paced);
        assert_eq!(patient.set(dials(30, 5_000, 2_000)), Ok(()));
        let own = beats(&patient.run(5 * SECOND), Chamber::Ventricle, Origin::Own);
        own[0] - paced[paced.len() - 1]
    };
    assert_eq!(next_own(true), 1_000_000);
    assert_ne!(next_own(false), 1_000_000);
}

#[test]
fn an_own_beat_lost_in_refractory_muscle_leaves_the_escape_running() {
    // P waves conduct into the refractory time of each escape; the escape must keep its own time.
    let heart = Heart {
        atrium: AtrialRhythm::Sinus { interval_us: 1_000_000, scatter_us: 0 },
        conduction: Some(Conduction { retrograde: false, ..Conduction::default() }),
        escape: Some(Escape { interval_us: 600_000, scatter_us: 0, suppression: None }),
        refractory_us: 400_000,
        ..Heart::default()
    };
    let mut patient = ventricular(heart, dials(30, 100, 2_000));
    patient.run(5 * SECOND);
    let own = beats(&patient.run(60 * SECOND), Chamber::Ventricle, Origin::Own);
    assert!(intervals(&own).all(|us| (400_000..=600_000).contains(&us)));
}

#[test]
fn an_escape_faster_than_the_muscle_can_follow_beats_at_every_second_try() {
    let escape = Escape { interval_us: 300_000, scatter_us: 0, suppression: None };
    let heart = Heart { escape: Some(escape), refractory_us: 350_000, ..Heart::silent() };
    let mut patient = ventricular(heart, dials(30, 100, 2_000));
    let own = beats(&patient.run(10 * SECOND), Chamber::Ventricle, Origin::Own);
    assert!(own.len() > 10 && intervals(&own).all(|us| us == 600_000));
}

#[test]
fn extra_beats_follow_own_beats_only_and_start_in_their_own_chamber() {
    let extra = |chamber| ExtraBeats { chamber, one_in: 1, coupling_us: 400_000, signal_uv: 5_000 };
    let heart = |chamber| Heart { extra: Some(extra(chamber)), ..Heart::sinus(60) };
    for chamber in [Chamber::Atrium, Chamber::Ventricle] {
        let mut patient = ventricular(heart(chamber), dials(30, 100, 2_000));
        let events = patient.run(60 * SECOND);
        let other = if chamber == Chamber::Atrium { Chamber::Ventricle } else { Chamber::Atrium };
        assert!(beats(&events, chamber, Origin::Extra).len() > 20);
        assert!(beats(&events, other, Origin::Extra).is_empty());

        assert_eq!(patient.set(dials(150, 10_000, 2_000)), Ok(()));
        patient.run(5 * SECOND);
        assert!(beats(&patient.run(60 * SECOND), chamber, Origin::Extra).is_empty());
    }
}

#[test]
fn an_atrial_extra_beat_resets_the_sinus_node() {
    let extra = ExtraBeats { chamber: Chamber::Atrium, one_in: 1, coupling_us: 400_000, signal_uv: 900 };
    let heart = Heart { wire: Chamber::Atrium, extra: Some(extra), ..Heart::sinus(60) };
    let mut patient = patient(heart, Generator::atrial(dials(30, 100, 800)));
    let own = beats(&patient.run(60 * SECOND), Chamber::Atrium, Origin::Own);
    assert!(intervals(&own).all(|us| us == 1_400_000));
}

#[test]
fn each_kind_of_beat_has_its_own_pressure() {
    let extra = ExtraBeats { chamber: Chamber::Ventricle, one_in: 3, coupling_us: 450_000, signal_uv: 1 };
    let pressure = Pressure { own_mmhg: 120, extra_mmhg: 60, paced_mmhg: 100, delay_us: 200_000 };
    let heart = Heart { extra: Some(extra), pressure, ..Heart::sinus(60) };
    let mut patient = ventricular(heart, dials(50, 5_000, 2_000));
    let mut events = patient.run(60 * SECOND);
    assert_eq!(patient.set(dials(90, 5_000, 2_000)), Ok(()));
    events.extend(patient.run(60 * SECOND));
    for (origin, systolic_mmhg) in [(Origin::Own, 120), (Origin::Extra, 60), (Origin::Paced, 100)] {
        let pulses = pulses(&events, systolic_mmhg);
        let beats = beats(&events, Chamber::Ventricle, origin);
        assert!(pulses.len() > 5);
        assert!(pulses.iter().all(|pulse| beats.contains(&(pulse - 200_000))));
    }
}

fn pulses(events: &[simulator::Event], systolic_mmhg: u16) -> Vec<u64> {
    let wanted = |event: &&simulator::Event| event.what == What::Pulse { systolic_mmhg };
    events.iter().filter(wanted).map(|event| event.at_us).collect()
}

#[test]
fn pacing_puts_off_a_standstill_and_so_does_atrial_pacing_that_conducts() {
    let standstill = Standstill { after_own_beats: 10, lasts_us: 20_000_000 };
    for wire in [Chamber::Ventricle, Chamber::Atrium] {
        let heart = Heart { wire, standstill: Some(standstill), ..Heart::sinus(60) };
        let generator = Generator { port: wire, ..Generator::ventricular(dials(80, 5_000, 800)) };
        let mut patient = patient(heart, generator);
        patient.run(5 * SECOND);
        assert_eq!(beats(&patient.run(60 * SECOND), wire, Origin::Paced).len(), 80, "{wire:?}");
        assert_eq!(patient.set(dials(30, 100, 800)), Ok(()));
        let own = beats(&patient.run(15 * SECOND), Chamber::Ventricle, Origin::Own);
        assert_eq!(own.iter().filter(|&&at| at > 65 * SECOND).count(), own.len());
        assert!((9..=11).contains(&own.len()), "{wire:?}: {}", own.len());
    }
}

#[test]
fn paced_beats_between_own_beats_start_the_count_to_a_standstill_again() {
    let standstill = Standstill { after_own_beats: 8, lasts_us: u32::MAX };
    let heart = Heart { standstill: Some(standstill), ..Heart::sinus(60) };
    let mut patient = ventricular(heart, dials(40, 5_000, 2_000));
    for _ in 0..20 {
        patient.run(4 * SECOND);
        assert_eq!(patient.set(dials(80, 5_000, 2_000)), Ok(()));
        patient.run(3 * SECOND);
        assert_eq!(patient.set(dials(40, 5_000, 2_000)), Ok(()));
    }
    let events = patient.run(5 * SECOND);
    assert!(beats(&events, Chamber::Ventricle, Origin::Own).len() >= 4);
}

#[test]
fn fibrillation_goes_on_after_a_standstill() {
    let standstill = Standstill { after_own_beats: 10, lasts_us: 5_000_000 };
    let heart = Heart {
        atrium: AtrialRhythm::Fibrillating { fastest_us: 600_000, slowest_us: 900_000, wave_uv: 100 },
        standstill: Some(standstill),
        ..Heart::default()
    };
    let mut patient = ventricular(heart, dials(1, 100, 2_000));
    let own = beats(&patient.run(55 * SECOND), Chamber::Ventricle, Origin::Own);
    assert!(intervals(&own).filter(|&us| us >= 5_000_000).count() >= 3);
}

#[test]
fn sleep_of_an_escape_is_the_share_of_its_habit_that_the_rate_leads_to() {
    // Paced at 120 against an own 60: half of the way, so half of the 4 s, and again half once woken by a half.
    let habit = Suppression { longest_us: 4_000_000, builds_over_beats: 2, wakes_over_beats: 2 };
    let escape = Escape { interval_us: 1_000_000, scatter_us: 0, suppression: Some(habit) };
    let mut patient =
        ventricular(Heart { escape: Some(escape), ..Heart::silent() }, dials(120, 5_000, 2_000));
    let paced = beats(&patient.run(60 * SECOND), Chamber::Ventricle, Origin::Paced);
    assert_eq!(patient.set(dials(1, 5_000, 2_000)), Ok(()));
    let own = beats(&patient.run(30 * SECOND), Chamber::Ventricle, Origin::Own);
    let pause = own[0] - paced[paced.len() - 1];
    let close = |value: u64, wanted: u64| value.abs_diff(wanted) < 100;
    assert!(close(pause, 3_000_000), "{pause}");
    assert!(close(own[1] - own[0], 2_000_000), "{}", own[1] - own[0]);
}

#[test]
fn a_pulse_under_way_arrives_although_the_heart_changes() {
    let mut patient = ventricular(Heart::silent(), asynchronous(60, 5_000));
    patient.run(SECOND);
    assert_eq!(patient.change_heart(Heart::sinus(60)), Ok(()));
    assert_eq!(pulses(&patient.run(200_000), Pressure::default().paced_mmhg), [1_180_000]);
}

#[test]
fn truth_is_read_off_the_heart() {
    let block = Conduction { recovery_us: 900_000, ..Conduction::default() };
    let sinus = |scatter_us| AtrialRhythm::Sinus { interval_us: 850_000, scatter_us };
    let own = |heart: Heart| ventricular(heart, dials(60, 5_000, 2_000)).truth().own;
    let every = |fastest_us, slowest_us| Some(OwnRhythm { fastest_us, slowest_us });

    assert_eq!(own(Heart { atrium: sinus(30_000), ..Heart::default() }), every(820_000, 880_000));
    let blocked = Heart { atrium: sinus(60_000), conduction: Some(block), ..Heart::default() };
    assert_eq!(own(blocked.clone()), every(790_000, 1_820_000), "one conducts or two, by the scatter");
    assert_eq!(own(Heart { wire: Chamber::Atrium, ..blocked }), every(790_000, 910_000));
    assert_eq!(own(Heart::escaping(40)), every(1_500_000, 1_500_000));
    assert_eq!(own(Heart::silent()), None);

    let slow = Escape { interval_us: 1_500_000, scatter_us: 100_000, suppression: None };
    let backed_up = Heart { escape: Some(slow), ..Heart::sinus(60) };
    assert_eq!(own(backed_up), every(1_000_000, 1_000_000), "the escape never comes");
    let competing = Heart { escape: Some(slow), ..Heart::sinus(40) };
    assert_eq!(
        own(competing.clone()),
        every(250_000, 1_600_000),
        "a conducted beat may follow an escape at once"
    );
    let atrium = AtrialRhythm::Fibrillating { fastest_us: 700_000, slowest_us: 1_900_000, wave_uv: 0 };
    assert_eq!(own(Heart { atrium, ..competing }), every(700_000, 1_600_000));

    let signal = Signal { own_uv: 5_000, own_scatter_uv: 700, t_wave_uv: 900, ..Signal::default() };
    let extra = ExtraBeats { chamber: Chamber::Ventricle, one_in: 2, coupling_us: 400_000, signal_uv: 1_100 };
    let heart = Heart { signal, extra: Some(extra), ..Heart::default() };
    let truth = ventricular(heart.clone(), dials(60, 5_000, 2_000)).truth();
    assert_eq!((truth.smallest_signal_uv, truth.largest_signal_uv), (4_300, 5_700));
    assert_eq!((truth.extra_signal_uv, truth.largest_false_signal_uv), (Some(1_100), 900));
    let atrial = ventricular(Heart { wire: Chamber::Atrium, ..heart }, dials(60, 5_000, 2_000)).truth();
    assert_eq!((atrial.extra_signal_uv, atrial.largest_false_signal_uv), (None, 200));
}
