//! Hearts and generators that cannot exist are refused by name of the part.

mod support;

use simulator::{
    AtrialRhythm, Capture, Chamber, Conduction, Escape, ExtraBeats, Fault, Generator, Heart, Pressure,
    Signal, Standstill, Suppression,
};
use support::{dials, ventricular};

/// Each part of a heart put wrong in turn: the fault names the place, and only a wrong heart is refused.
#[test]
fn each_impossible_part_is_named() {
    let wrong: Vec<(&str, Heart)> = vec![
        ("refractory_us", Heart { refractory_us: 0, ..Heart::default() }),
        ("sinus.interval_us", sinus(0, 0)),
        ("sinus.scatter_us", sinus(800_000, 800_000)),
        ("fibrillating.fastest_us", fibrillating(249_999, 900_000, 0)),
        ("fibrillating.fastest_us", fibrillating(900_001, 900_000, 0)),
        ("fibrillating.slowest_us", fibrillating(900_000, u32::MAX, 0)),
        ("fibrillating.wave_uv", fibrillating(500_000, 900_000, 100_001)),
        ("conduction.delay_us", conducting(0, 300_000)),
        ("conduction.delay_us", conducting(300_001, 300_000)),
        ("conduction.recovery_us", conducting(100_000, 60_000_001)),
        ("escape.interval_us", escaping(149_999, 1, 1)),
        ("suppression.builds_over_beats", escaping(1_000_000, 0, 1)),
        ("suppression.wakes_over_beats", escaping(1_000_000, 1, 0)),
        ("extra.one_in", extra(0, 400_000, 1)),
        ("extra.coupling_us", extra(1, 0, 1)),
        ("extra.signal_uv", extra(1, 400_000, u32::MAX)),
        ("standstill.after_own_beats", standing(1, 1)),
        ("standstill.lasts_us", standing(2, 0)),
        ("signal.own_scatter_uv", signal(100, 101)),
        ("signal.own_uv", signal(100_001, 0)),
        ("capture.going_down_micro", capture(0, 5, 1_000)),
        ("capture.going_down_micro", capture(6, 5, 1_000)),
        ("capture.going_up_micro", capture(5, u32::MAX, 1_000)),
        ("capture.measured_at_us", capture(5, 5, 0)),
        ("pressure.own_mmhg", pressure(301, 1)),
        ("pressure.delay_us", pressure(100, 250_001)),
    ];
    for (place, heart) in wrong {
        assert_eq!(heart.validate().map_err(field), Err(place), "{heart:?}");
    }
    for heart in [sinus(900_000, 750_000), conducting(300_000, 300_000), capture(5, 5, 10), standing(2, 1)] {
        assert_eq!(heart.validate(), Ok(()));
    }
}

#[test]
fn each_impossible_setting_of_a_generator_is_named() {
    let good = Generator::ventricular(dials(60, 5_000, 2_000));
    let wrong = [
        ("refractory_us", Generator { refractory_us: 1_000_001, ..good }),
        ("blanking_us", Generator { blanking_us: 300_001, ..good }),
        ("pulse_width_us", Generator { pulse_width_us: 0, ..good }),
        ("rate_per_min", Generator { dials: dials(401, 1, 1), ..good }),
        ("output_micro", Generator { dials: dials(60, 0, 1), ..good }),
        ("sensitivity_uv", Generator { dials: dials(60, 1, 0), ..good }),
    ];
    for (place, generator) in wrong {
        assert_eq!(generator.validate().map_err(field), Err(place));
    }
    let mut patient = ventricular(Heart::default(), good.dials);
    assert_eq!(patient.set(dials(0, 1, 1)).map_err(field), Err("rate_per_min"));
    assert_eq!(patient.dials(), good.dials, "a refused turn leaves the dials");
    let impossible = sinus(0, 0);
    assert_eq!(patient.change_heart(impossible).map_err(field), Err("sinus.interval_us"));
    assert_eq!(*patient.heart(), Heart::default());
}

fn field(fault: Fault) -> &'static str {
    match fault {
        Fault::OutOfRange { field, .. } | Fault::AboveOther { field, .. } => field,
    }
}

fn sinus(interval_us: u32, scatter_us: u32) -> Heart {
    Heart { atrium: AtrialRhythm::Sinus { interval_us, scatter_us }, ..Heart::default() }
}

fn fibrillating(fastest_us: u32, slowest_us: u32, wave_uv: u32) -> Heart {
    let atrium = AtrialRhythm::Fibrillating { fastest_us, slowest_us, wave_uv };
    Heart { atrium, ..Heart::default() }
}

fn conducting(delay_us: u32, recovery_us: u32) -> Heart {
    Heart { conduction: Some(Conduction { delay_us, recovery_us, retrograde: true }), ..Heart::default() }
}

fn escaping(interval_us: u32, builds_over_beats: u32, wakes_over_beats: u32) -> Heart {
    let suppression = Some(Suppression { longest_us: 1, builds_over_beats, wakes_over_beats });
    Heart { escape: Some(Escape { interval_us, scatter_us: 0, suppression }), ..Heart::default() }
}

fn extra(one_in: u32, coupling_us: u32, signal_uv: u32) -> Heart {
    let extra = ExtraBeats { chamber: Chamber::Ventricle, one_in, coupling_us, signal_uv };
    Heart { extra: Some(extra), ..Heart::default() }
}

fn standing(after_own_beats: u32, lasts_us: u32) -> Heart {
    Heart { standstill: Some(Standstill { after_own_beats, lasts_us }), ..Heart::default() }
}

fn signal(own_uv: u32, own_scatter_uv: u32) -> Heart {
    Heart { signal: Signal { own_uv, own_scatter_uv, ..Signal::default() }, ..Heart::default() }
}

fn capture(going_down_micro: u32, going_up_micro: u32, measured_at_us: u32) -> Heart {
    let capture = Capture { going_down_micro, going_up_micro, measured_at_us, ..Capture::default() };
    Heart { capture, ..Heart::default() }
}

fn pressure(own_mmhg: u16, delay_us: u32) -> Heart {
    Heart { pressure: Pressure { own_mmhg, delay_us, ..Pressure::default() }, ..Heart::default() }
}
