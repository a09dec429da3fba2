//! Random possible hearts. Ranges are those of a bedside, not of the validation.

use proptest::prelude::*;
use simulator::{
    AtrialRhythm, Capture, Chamber, Conduction, Escape, ExtraBeats, Heart, Pressure, RecordedBeat, Recording,
    Signal, Standstill, Suppression,
};
use std::sync::Arc;

pub fn any_heart() -> impl Strategy<Value = Heart> {
    let parts = (
        any_chamber(),
        any_atrium(),
        proptest::option::weighted(0.7, any_conduction()),
        proptest::option::of(any_escape()),
        proptest::option::weighted(0.3, any_extra()),
        proptest::option::weighted(0.2, any_standstill()),
        any_signal(),
        any_capture(),
        (0..200_u16, 0..200_u16, 180_000..320_000_u32),
    );
    parts.prop_map(|(wire, atrium, conduction, escape, extra, standstill, signal, capture, rest)| {
        let (own_mmhg, paced_mmhg, refractory_us) = rest;
        Heart {
            wire,
            atrium,
            conduction,
            escape,
            extra,
            standstill,
            signal,
            capture,
            pressure: Pressure { own_mmhg, paced_mmhg, ..Pressure::default() },
            refractory_us,
            spikes_seen_from_micro: 0,
            ..Heart::default()
        }
    })
}

pub fn any_chamber() -> impl Strategy<Value = Chamber> {
    prop_oneof![Just(Chamber::Atrium), Just(Chamber::Ventricle)]
}

fn any_atrium() -> impl Strategy<Value = AtrialRhythm> {
    let sinus = (400_000..1_500_000_u32, 0..100_000_u32)
        .prop_map(|(interval_us, scatter_us)| AtrialRhythm::Sinus { interval_us, scatter_us });
    let fibrillating =
        (400_000..700_000_u32, 0..900_000_u32, 0..2_000_u32).prop_map(|(fastest_us, span, wave_uv)| {
            AtrialRhythm::Fibrillating { fastest_us, slowest_us: fastest_us + span, wave_uv }
        });
    prop_oneof![4 => sinus, 2 => fibrillating, 1 => Just(AtrialRhythm::Silent)]
}

fn any_conduction() -> impl Strategy<Value = Conduction> {
    (100_000..300_000_u32, 300_000..900_000_u32, any::<bool>())
        .prop_map(|(delay_us, recovery_us, retrograde)| Conduction { delay_us, recovery_us, retrograde })
}

fn any_escape() -> impl Strategy<Value = Escape> {
    let suppression = (0..8_000_000_u32, 1..50_u32, 1..20_u32).prop_map(
        |(longest_us, builds_over_beats, wakes_over_beats)| Suppression {
            longest_us,
            builds_over_beats,
            wakes_over_beats,
        },
    );
    let suppression = proptest::option::of(suppression);
    (900_000..2_500_000_u32, 0..100_000_u32, suppression)
        .prop_map(|(interval_us, scatter_us, suppression)| Escape { interval_us, scatter_us, suppression })
}

fn any_extra() -> impl Strategy<Value = ExtraBeats> {
    (any_chamber(), 1..30_u32, 250_000..700_000_u32, 0..8_000_u32).prop_map(
        |(chamber, one_in, coupling_us, signal_uv)| ExtraBeats { chamber, one_in, coupling_us, signal_uv },
    )
}

fn any_standstill() -> impl Strategy<Value = Standstill> {
    (2..60_u32, 1_000_000..20_000_000_u32)
        .prop_map(|(after_own_beats, lasts_us)| Standstill { after_own_beats, lasts_us })
}

fn any_signal() -> impl Strategy<Value = Signal> {
    (1_000..12_000_u32, 0..1_000_u32, 0..2_000_u32, 200_000..420_000_u32, 0..1_000_u32).prop_map(
        |(own_uv, own_scatter_uv, t_wave_uv, t_wave_delay_us, far_field_uv)| Signal {
            own_uv,
            own_scatter_uv,
            t_wave_uv,
            t_wave_delay_us,
            far_field_uv,
            ..Signal::default()
        },
    )
}

fn any_capture() -> impl Strategy<Value = Capture> {
    (100..15_000_u32, 0..3_000_u32, 100..1_000_u32).prop_map(|(down, apart, chronaxie_us)| Capture {
        going_down_micro: down,
        going_up_micro: down + apart,
        measured_at_us: 1_000,
        chronaxie_us,
        ..Capture::default()
    })
}

/// As [`any_heart`], with a recorded rhythm.
pub fn any_recorded_heart() -> impl Strategy<Value = Heart> {
    let beat = (330_000..1_500_000_u64, 0..12_000_u32);
    let beats = proptest::collection::vec(beat, 3..12);
    (any_heart(), beats, any::<bool>()).prop_map(|(heart, beats, with_signals)| {
        let mut at_us = 0;
        let beats = beats.into_iter().map(|(interval_us, signal_uv)| {
            at_us += interval_us;
            RecordedBeat { at_us, signal_uv: with_signals.then_some(signal_uv) }
        });
        let recording = Recording::new(beats.collect()).expect("its intervals are possible");
        Heart { atrium: AtrialRhythm::Recorded(Arc::new(recording)), ..heart }
    })
}
