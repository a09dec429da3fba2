//! The patient, the generator's three dials and the strip.

use std::sync::Arc;

use domain::profile::Profile;
use domain::say::Say;
use simulator::{Dials, Event, Generator, Heart, Patient, Power};

use crate::dial::{Dial, Reading};
use crate::monitor::Monitor;
use crate::puzzled::Puzzled;
use crate::strip::Strip;
use crate::weakness::Weakness;

#[derive(Clone, Debug)]
pub struct Bedside {
    monitor: Monitor,
    profile: Profile,
    /// Whoever follows a run keeps it beside every beat.
    reading: Arc<Reading>,
    strip: Strip,
}

impl Bedside {
    /// A heart on a generator whose dials stand as found. `port` is where the wire is plugged in.
    ///
    /// # Errors
    /// The first dial that stands where the generator has no position, or the first thing that makes the heart
    /// impossible.
    pub fn new(
        heart: Heart,
        profile: Profile,
        port: simulator::Chamber,
        found: Reading,
        seed: u64,
    ) -> Result<Bedside, Puzzled> {
        let dials = dials(&profile, &found)?;
        let generator =
            Generator { port, pulse_width_us: profile.pulse_width_us, ..Generator::ventricular(dials) };
        let patient =
            Patient::new(heart, generator, seed).map_err(|fault| Puzzled::Generator(fault.to_string()))?;
        let monitor = Monitor::Events(Box::new(patient));
        Ok(Bedside { monitor, profile, reading: Arc::new(found), strip: Strip::default() })
    }

    /// Before the first instant: from now on the trace alone is seen.
    #[must_use]
    pub fn seen_as_a_trace(self) -> Bedside {
        let monitor = Monitor::of_samples(self.monitor.patient().clone());
        Bedside { monitor, ..self.seen_late() }
    }

    /// Everything is taken in only once it is over, as a complex on a trace is.
    #[must_use]
    pub fn seen_late(self) -> Bedside {
        Bedside { strip: Strip::late(), ..self }
    }

    /// The eyes of whoever looks at the strip make mistakes.
    pub fn tire_eyes(&mut self, weakness: Weakness) {
        self.strip.tire(weakness);
    }

    /// Time passes.
    pub fn pass(&mut self, ms: i64) {
        self.pass_telling(ms, |_| {});
    }

    /// Time passes, and somebody else at the bedside is told everything that happens.
    pub fn pass_telling(&mut self, ms: i64, tell: impl FnMut(Event)) {
        self.monitor.run(ms.max(0).unsigned_abs() * 1000, &mut self.strip, tell);
    }

    /// Turns one dial to a printed figure, or to asynchronous.
    ///
    /// # Errors
    /// The generator has no such position.
    pub fn turn(&mut self, dial: Dial, to: &Say) -> Result<(), Puzzled> {
        let mut reading = Reading::clone(&self.reading);
        match (dial, to) {
            (Dial::Mv, Say::Asynchronous) => reading.mv = None,
            (Dial::Mv, Say::Figure { text }) => reading.mv = Some(text.clone()),
            (Dial::Output, Say::Figure { text }) => reading.output.clone_from(text),
            (Dial::Rate, Say::Figure { text }) => reading.rate.clone_from(text),
            (dial, said) => return Err(no_such(dial, said.name())),
        }
        self.set(reading)
    }

    /// Turns all three dials at once, as found at the start of another check.
    ///
    /// # Errors
    /// The generator has no such position.
    pub fn set(&mut self, reading: Reading) -> Result<(), Puzzled> {
        let dials = dials(&self.profile, &reading)?;
        self.monitor.patient_mut().set(dials).map_err(|fault| Puzzled::Generator(fault.to_string()))?;
        self.reading = Arc::new(reading);
        Ok(())
    }

    /// The heart changes under way.
    ///
    /// # Errors
    /// No such heart can exist.
    pub fn change_heart(&mut self, heart: Heart) -> Result<(), Puzzled> {
        self.monitor.patient_mut().change_heart(heart).map_err(|fault| Puzzled::Generator(fault.to_string()))
    }

    /// An external shock, and the heart afterwards.
    ///
    /// # Errors
    /// No such heart can exist.
    pub fn shock(&mut self, heart: Heart) -> Result<(), Puzzled> {
        self.monitor.patient_mut().shock(heart).map_err(|fault| Puzzled::Generator(fault.to_string()))
    }

    /// The generator's battery runs low, or it is switched off or on.
    pub fn switch(&mut self, power: Power) {
        self.monitor.patient_mut().switch(power);
    }

    pub fn reading(&self) -> &Arc<Reading> {
        &self.reading
    }

    pub fn strip(&self) -> &Strip {
        &self.strip
    }

    pub fn now_us(&self) -> u64 {
        self.monitor.now_us()
    }

    /// What came later has not been taken in yet.
    pub fn seen_until_us(&self) -> u64 {
        self.now_us().saturating_sub(self.strip.late_us())
    }

    /// Between two pulses at the RATE that is set, µs.
    pub fn set_interval_us(&self) -> u64 {
        u64::from(simulator::interval_us(self.monitor.patient().dials().rate_per_min))
    }

    /// Every position of a dial, asynchronous left out.
    pub fn printed_on(&self, dial: Dial) -> Vec<String> {
        let profile = &self.profile;
        match dial {
            Dial::Output => {
                (0..=profile.output_last()).map(|at| profile.output_text(at).to_owned()).collect()
            }
            Dial::Rate => (0..=profile.rate_last()).map(|at| profile.rate_text(at).to_owned()).collect(),
            Dial::Mv => (0..=profile.mv_last()).map(|at| profile.mv_text(at).to_owned()).collect(),
        }
    }

    /// The highest figure printed on the OUTPUT dial, and on the mV dial.
    pub fn highest(&self, dial: Dial) -> Say {
        let text = match dial {
            Dial::Output => self.profile.output_text(self.profile.output_last()),
            Dial::Rate => self.profile.rate_text(self.profile.rate_last()),
            Dial::Mv => self.profile.mv_text(self.profile.mv_last()),
        };
        Say::Figure { text: text.to_owned() }
    }
}

/// The simulated dials for printed figures.
///
/// # Errors
/// The generator has no such position.
pub fn dials(profile: &Profile, reading: &Reading) -> Result<Dials, Puzzled> {
    let output = profile.read_output(&reading.output).map_err(|_| no_such(Dial::Output, &reading.output))?;
    let rate = profile.read_rate(&reading.rate).map_err(|_| no_such(Dial::Rate, &reading.rate))?;
    let sensitivity_uv = match &reading.mv {
        None => None,
        Some(text) => {
            let at = profile.read_mv(text).map_err(|_| no_such(Dial::Mv, text))?;
            Some(profile.mv_at(at))
        }
    };
    Ok(Dials { rate_per_min: profile.rate_at(rate), output_micro: profile.output_at(output), sensitivity_uv })
}

fn no_such(dial: Dial, asked: &str) -> Puzzled {
    Puzzled::NoSuchPosition { dial: dial.name(), asked: asked.to_owned() }
}
