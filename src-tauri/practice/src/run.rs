//! One run of an exercise: time goes on in batches, dials are turned between them.

use domain::check::facts::{ASYNCHRONOUS, Dial, Dials};
use domain::practice::Happened;
use domain::profile::{AsynchronousBy, Position, Profile};
use simulator::strip::{Batch, Strip};
use simulator::{Event, Heart};

use crate::exercise::{Exercise, simulated};
use crate::fault::Fault;
use crate::happening::{Change, Happenings};
use crate::readout::Pulses;

/// See the module. Ends only when nobody asks for the next batch.
#[derive(Clone, Debug)]
pub struct Run {
    strip: Strip,
    profile: Profile,
    dials: Dials,
    happenings: Happenings,
    happened: Vec<(u64, Happened)>,
    pulses: Pulses,
}

impl Run {
    /// # Errors
    /// The heart cannot beat: not for an exercise that was read from a file.
    pub fn new(exercise: &Exercise, seed: u64) -> Result<Run, Fault> {
        Ok(Run {
            strip: Strip::new(exercise.patient(seed)?),
            profile: exercise.profile.clone(),
            dials: exercise.found,
            happenings: exercise.happenings(seed),
            happened: Vec::new(),
            pulses: Pulses::default(),
        })
    }

    /// The learner turns a dial now.
    ///
    /// # Errors
    /// The dial has no such position; it then stays where it stands.
    pub fn turn(&mut self, dial: Dial, to: Position) -> Result<(), Fault> {
        let last = match dial {
            Dial::Output => self.profile.output_last(),
            Dial::Rate => self.profile.rate_last(),
            Dial::Mv => self.profile.mv_last(),
        };
        let can_be_asynchronous = self.profile.asynchronous() != AsynchronousBy::None;
        let asynchronous = dial == Dial::Mv && to == ASYNCHRONOUS && can_be_asynchronous;
        if to > last && !asynchronous {
            return Err(Fault::NoSuchPosition { dial, to });
        }
        let dials = self.dials.with(dial, to);
        let set = self.strip.patient.set(simulated(&self.profile, dials));
        let unit = self.profile.output_unit();
        set.map_err(|why| Fault::Heart { place: "dials".to_owned(), why, unit })?;
        self.dials = dials;
        Ok(())
    }

    /// The next twentieth of a second: 25 samples at 500 Hz, and the generator's marks.
    ///
    /// # Errors
    /// A heart that was to come cannot beat: not for an exercise that was read from a file.
    pub fn next_batch(&mut self) -> Result<Batch, Fault> {
        for change in self.happenings.now(self.now_us(), self.dials) {
            self.happen(change)?;
        }
        let batch = self.strip.next_batch();
        self.strip.events().iter().for_each(|event| self.pulses.see(*event));
        Ok(batch)
    }

    fn happen(&mut self, change: Change) -> Result<(), Fault> {
        self.happened.push((self.now_us(), change.told()));
        let unit = self.profile.output_unit();
        let told = |changed: Result<(), simulator::Fault>| {
            changed.map_err(|why| Fault::Heart { place: "happenings".to_owned(), why, unit })
        };
        match change {
            Change::Heart(next) => told(self.strip.patient.change_heart(next)),
            Change::Shock(next) => told(self.strip.patient.shock(next)),
            Change::Power(power) => {
                self.strip.patient.switch(power);
                Ok(())
            }
            Change::Turn { dial, to } => self.turn(dial, to),
        }
    }

    /// Simulated µs since the beginning: a whole number of batches.
    pub fn now_us(&self) -> u64 {
        self.strip.patient.now_us()
    }

    pub fn dials(&self) -> Dials {
        self.dials
    }

    /// What has happened by itself so far. A shock is told to the learner: no strip shows it.
    pub fn happened(&self) -> &[(u64, Happened)] {
        &self.happened
    }

    pub fn pulse_per_min(&self) -> Option<u16> {
        self.pulses.per_min(self.now_us())
    }

    pub fn systolic_mmhg(&self) -> Option<u16> {
        self.pulses.systolic_mmhg(self.now_us())
    }

    /// The events of the last batch: for the judge and for tests, never for a learner.
    pub fn events(&self) -> &[Event] {
        self.strip.events()
    }

    pub(crate) fn heart(&self) -> &Heart {
        self.strip.patient.heart()
    }
}
