//! How much faster than time events alone run, on one core: `cargo bench -p simulator`.

use std::time::Instant;

use simulator::strip::Strip;
use simulator::{AtrialRhythm, Dials, Fault, Generator, Heart, Patient};

const SIMULATED_S: u64 = 4_000_000;
const STRIP_S: usize = 200_000;

fn main() -> Result<(), Fault> {
    let irregular = Heart {
        atrium: AtrialRhythm::Fibrillating { fastest_us: 500_000, slowest_us: 1_200_000, wave_uv: 100 },
        ..Heart::default()
    };
    report("own beats sensed, sinus 72", Heart::sinus(72), 62)?;
    report("every beat paced, sinus 72", Heart::sinus(72), 82)?;
    report("irregular, sensed and paced", irregular, 72)?;
    strip("strip, every beat paced, sinus 72", Heart::sinus(72), 82)
}

fn strip(name: &str, heart: Heart, rate_per_min: u16) -> Result<(), Fault> {
    let dials = Dials { rate_per_min, output_micro: 5_000, sensitivity_uv: Some(2_000) };
    let strip = Strip::new(Patient::new(heart, Generator::ventricular(dials), 1)?);
    let started = Instant::now();
    let sum: i64 = strip.take(STRIP_S * 20).map(|batch| i64::from(batch.ecg[0])).sum();
    let times = STRIP_S as f64 / started.elapsed().as_secs_f64();
    println!("{name}: {times:.0} x real time (sum {sum})");
    Ok(())
}

fn report(name: &str, heart: Heart, rate_per_min: u16) -> Result<(), Fault> {
    let dials = Dials { rate_per_min, output_micro: 5_000, sensitivity_uv: Some(2_000) };
    let mut patient = Patient::new(heart, Generator::ventricular(dials), 1)?;
    let started = Instant::now();
    let mut events = 0_u64;
    patient.run_into(SIMULATED_S * 1_000_000, |_| events += 1);
    let took = started.elapsed().as_secs_f64();
    let times = SIMULATED_S as f64 / took;
    println!(
        "{name}: {times:.0} x real time, {:.0} ns an event ({events} events)",
        took * 1e9 / events as f64
    );
    Ok(())
}
