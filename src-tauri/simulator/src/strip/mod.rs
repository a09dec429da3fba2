//! What a monitor draws: ECG and pulse trace at 500 Hz, in batches of 25 samples with the generator's marks.
//!
//! The ECG is the sum of the waves that each event leaves behind. Whole numbers only: the same bytes everywhere.

pub mod shape;
mod waves;

use crate::event::{Event, Mark, What};
use crate::patient::Patient;
use waves::Waves;

pub const SAMPLE_US: u64 = 2_000;
pub const SAMPLES: usize = 25;
const BATCH_US: u64 = SAMPLE_US * SAMPLES as u64;

/// One twentieth of a second.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Batch {
    /// From 0 on, without a gap.
    pub number: u32,
    /// µV.
    pub ecg: [i16; SAMPLES],
    /// mmHg.
    pub pulse: [i16; SAMPLES],
    /// Which sample each mark stands at.
    pub marks: Vec<(u8, Mark)>,
}

impl Batch {
    /// ECG then pulse, little-endian.
    pub fn bytes(&self) -> Vec<u8> {
        self.ecg.iter().chain(&self.pulse).flat_map(|sample| sample.to_le_bytes()).collect()
    }

    /// Of the first sample, µs.
    pub fn at_us(&self) -> u64 {
        u64::from(self.number) * BATCH_US
    }
}

/// A patient on a monitor. Never ends.
#[derive(Clone, Debug)]
pub struct Strip {
    pub patient: Patient,
    waves: Waves,
    number: u32,
    events: Vec<Event>,
}

impl Strip {
    /// From now on; what came before leaves no wave.
    pub fn new(patient: Patient) -> Strip {
        let waves = Waves::new(patient.heart());
        Strip { patient, waves, number: 0, events: Vec::new() }
    }

    pub fn next_batch(&mut self) -> Batch {
        let began_us = self.patient.now_us();
        self.events.clear();
        let events = &mut self.events;
        self.patient.run_into(BATCH_US, |event| events.push(event));
        self.waves.change_heart(self.patient.heart());
        self.events.iter().for_each(|event| self.waves.add(*event));
        let (ecg, pulse) = self.waves.draw(began_us);
        let marks = self.events.iter().filter_map(|event| self.mark(event, began_us)).collect();
        let batch = Batch { number: self.number, ecg, pulse, marks };
        self.number += 1;
        batch
    }

    /// The events of the last batch.
    pub fn events(&self) -> &[Event] {
        &self.events
    }

    fn mark(&self, event: &Event, began_us: u64) -> Option<(u8, Mark)> {
        let What::Mark(mark) = event.what else { return None };
        // A spike that a turn of the dial makes due stands on the first instant.
        let sample = (event.at_us.saturating_sub(began_us) / SAMPLE_US).min(SAMPLES as u64 - 1);
        Some((u8::try_from(sample).ok()?, mark))
    }
}

impl Iterator for Strip {
    type Item = Batch;

    fn next(&mut self) -> Option<Batch> {
        Some(self.next_batch())
    }
}
