//! The strip, drawn fast, against the same drawn without haste: byte for byte, on hearts that bring every wave.

mod support;

use simulator::strip::Strip;
use simulator::{
    AtrialRhythm, Conduction, Dials, ExtraBeats, Generator, Heart, Noise, Signal, SplitMix64, Vulnerable,
};
use support::any_heart::{any_heart, any_recorded_heart};
use support::naive::Naive;
use support::{asynchronous, dials};

use proptest::prelude::*;
use simulator::{Chamber, Patient};

fn assert_same(patient: Patient, seconds: u32) {
    let (mut strip, mut naive) = (Strip::new(patient.clone()), Naive::new(patient));
    for batch in strip.by_ref().take(seconds as usize * 20) {
        assert_eq!((batch.ecg, batch.pulse), naive.batch(), "batch {}", batch.number);
    }
}

#[test]
fn every_kind_of_wave_is_drawn_to_the_byte() {
    let conduction = Some(Conduction { retrograde: false, ..Conduction::default() });
    let extra = ExtraBeats { chamber: Chamber::Ventricle, one_in: 4, coupling_us: 400_000, signal_uv: 3_000 };
    let irregular = AtrialRhythm::Fibrillating { fastest_us: 410_007, slowest_us: 1_200_011, wave_uv: 100 };
    let vulnerable = Vulnerable { from_us: 280_000, until_us: 360_000, one_in: 3, wave_uv: 1_000 };
    let late = Signal { t_wave_delay_us: 1_000_000, ..Signal::default() };
    let hearts: [(Heart, Dials); 6] = [
        (Heart { conduction, ..Heart::sinus(72) }, dials(75, 5_000, 2_000)),
        (Heart { extra: Some(extra), ..Heart::sinus(67) }, dials(50, 5_000, 2_000)),
        (Heart { atrium: irregular, ..Heart::default() }, dials(72, 5_000, 2_000)),
        (Heart { vulnerable: Some(vulnerable), ..Heart::sinus(72) }, asynchronous(61, 5_000)),
        (Heart { signal: late, ..Heart::silent() }, dials(180, 5_000, 2_000)),
        (Heart { noise: Some(Noise::shivering(3_000)), ..Heart::sinus(150) }, dials(80, 100, 2_000)),
    ];
    for (heart, dials) in hearts {
        for seed in 1..4 {
            let patient = Patient::new(heart.clone(), Generator::ventricular(dials), seed).unwrap();
            assert_same(patient, 300);
        }
    }
}

/// A strip may begin at any sample of its patient.
#[test]
fn a_strip_that_begins_late_is_drawn_to_the_byte() {
    let mut chance = SplitMix64::new(5);
    for _ in 0..20 {
        let mut patient = support::ventricular(Heart::sinus(72), dials(80, 5_000, 2_000));
        patient.run(chance.below(20_000) * 2_000);
        assert_same(patient, 30);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_heart_is_drawn_to_the_byte(heart in any_heart(), seed in any::<u64>(), rate in 30..180_u16) {
        let generator = Generator::ventricular(dials(rate, 3_000, 2_000));
        assert_same(Patient::new(heart, generator, seed).unwrap(), 60);
    }

    #[test]
    fn any_recorded_heart_is_drawn_to_the_byte(heart in any_recorded_heart(), seed in any::<u64>()) {
        let generator = Generator::ventricular(dials(70, 3_000, 2_000));
        assert_same(Patient::new(heart, generator, seed).unwrap(), 60);
    }
}
