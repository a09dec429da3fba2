//! A run looked at again as a strip: the same heart, seed and turns give the same events, and now their samples.

use observer::{Puzzled, Reading, dials};
use simulator::strip::{Batch, Strip};
use simulator::{Event, Generator, Patient};

use crate::case::Case;
use crate::played::Played;

/// Each twentieth of a second from the first to the last, with its events.
///
/// # Errors
/// The run was made with another case.
pub fn replay(case: &Case, played: &Played, each: &mut dyn FnMut(&Batch, &[Event])) -> Result<(), Puzzled> {
    let mut strip = Strip::new(patient(case, &case.found)?);
    let turns = &played.bystander.turns;
    let mut next = turns.iter().peekable();
    while strip.patient.now_us() < played.ended_us {
        while let Some((_, reading)) = next.next_if(|(at_us, _)| *at_us <= strip.patient.now_us()) {
            let to = dials(&case.profile, reading)?;
            strip.patient.set(to).map_err(|fault| Puzzled::Generator(fault.to_string()))?;
        }
        if let Some(batch) = strip.next() {
            each(&batch, strip.events());
        }
    }
    Ok(())
}

fn patient(case: &Case, found: &Reading) -> Result<Patient, Puzzled> {
    let dials = dials(&case.profile, found)?;
    let pulse_width_us = case.profile.pulse_width_us;
    let generator = Generator { port: case.port, pulse_width_us, ..Generator::ventricular(dials) };
    Patient::new(case.heart.clone(), generator, case.seed)
        .map_err(|fault| Puzzled::Generator(fault.to_string()))
}
