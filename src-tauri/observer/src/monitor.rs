//! What the person looks at: everything as it happens, or the drawn trace alone.

use simulator::strip::Strip as Drawn;
use simulator::{Event, Patient};

use crate::detector::Detector;
use crate::strip::Strip;

/// A trace comes in pieces of a twentieth of a second.
const PIECE_US: u64 = 50_000;

#[derive(Clone, Debug)]
pub enum Monitor {
    /// Beats, spikes and pulses are known as such.
    Events(Box<Patient>),
    /// Samples of ECG and pulse, and the generator's marks: what they show is found in them.
    Samples(Box<Samples>),
}

#[derive(Clone, Debug)]
pub struct Samples {
    drawn: Drawn,
    detector: Detector,
    /// Where the person is in time; the trace is drawn up to less than one piece before.
    now_us: u64,
}

impl Monitor {
    pub fn of_samples(patient: Patient) -> Monitor {
        let now_us = patient.now_us();
        let samples = Samples { drawn: Drawn::new(patient), detector: Detector::default(), now_us };
        Monitor::Samples(Box::new(samples))
    }

    pub fn patient(&self) -> &Patient {
        match self {
            Monitor::Events(patient) => patient,
            Monitor::Samples(samples) => &samples.drawn.patient,
        }
    }

    pub fn patient_mut(&mut self) -> &mut Patient {
        match self {
            Monitor::Events(patient) => patient,
            Monitor::Samples(samples) => &mut samples.drawn.patient,
        }
    }

    pub fn now_us(&self) -> u64 {
        match self {
            Monitor::Events(patient) => patient.now_us(),
            Monitor::Samples(samples) => samples.now_us,
        }
    }

    /// Time passes; the strip gets what is seen, `tell` everything that happens.
    pub fn run(&mut self, us: u64, strip: &mut Strip, mut tell: impl FnMut(Event)) {
        match self {
            Monitor::Events(patient) => patient.run_into(us, |event| {
                strip.add(event);
                tell(event);
            }),
            Monitor::Samples(samples) => samples.run(us, strip, tell),
        }
        strip.show_until(self.now_us());
    }
}

impl Samples {
    fn run(&mut self, us: u64, strip: &mut Strip, mut tell: impl FnMut(Event)) {
        self.now_us += us;
        while self.drawn.patient.now_us() + PIECE_US <= self.now_us {
            let began_us = self.drawn.patient.now_us();
            let Some(batch) = self.drawn.next() else { return };
            self.drawn.events().iter().for_each(|event| tell(*event));
            self.detector.take(began_us, &batch, &mut |at_us, sight| strip.see(at_us, sight));
        }
    }
}
