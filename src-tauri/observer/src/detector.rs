//! Spikes, beats and pulses found in samples, as a person reads a trace: by how steep, how wide and which way up.
//! It knows nothing of what made them. P waves are not looked for: a ventricular wire is not judged by them.

mod complex;
mod trace;

use simulator::strip::{Batch, SAMPLE_US};
use simulator::{Chamber, MarkKind};

use crate::strip::{Look, Sight};
use trace::Trace;

/// Samples behind one that must be there before anything is said of it: the width of a paced beat and a little.
const AHEAD: usize = 96;
/// A spike is taken out of the trace before anything that lies so near is looked at: it is no complex, nor the top
/// of one.
const SPIKE_AHEAD: usize = 92;
/// Of the pulse trace less need be there.
const PULSE_AHEAD: usize = 70;
/// A mark stands on the sample before its instant; the beat it belongs to never comes after it.
const MARK_AFTER_US: u64 = 2 * SAMPLE_US;
/// A mmHg trace moves this much within [`PULSE_RISES_IN`] samples before its top.
const PULSE_RISES: i32 = 6;
const PULSE_RISES_IN: usize = 60;
/// From the foot of a pulse to its top.
const PULSE_TOP_US: u64 = 210_000;
/// A top is one when nothing higher follows within so many samples.
const TOP_FOR: usize = 20;

#[derive(Clone, Debug, Default)]
pub struct Detector {
    ecg: Trace,
    pulse: Trace,
    began_us: Option<u64>,
    /// The next sample to be judged, counted from the first.
    next: usize,
    last_spike: Option<usize>,
    /// Within a complex that has been judged.
    until: usize,
    pulse_until: usize,
}

impl Detector {
    pub fn take(&mut self, began_us: u64, batch: &Batch, see: &mut dyn FnMut(u64, Sight)) {
        let origin_us = *self.began_us.get_or_insert(began_us);
        self.ecg.extend(&batch.ecg);
        self.pulse.extend(&batch.pulse);
        for (sample, mark) in &batch.marks {
            if mark.kind != MarkKind::Pace {
                see(began_us + u64::from(*sample) * SAMPLE_US + MARK_AFTER_US, Sight::SenseMark);
            }
        }
        while self.next + AHEAD < self.ecg.len() {
            let at = self.next;
            self.spike(at, &mut |sample, sight| see(origin_us + sample, sight));
            self.complex(at, &mut |sample, sight| see(origin_us + sample, sight));
            self.pulse_top(at + PULSE_AHEAD, &mut |sample, sight| see(origin_us + sample, sight));
            self.next += 1;
        }
        self.ecg.forget_before(self.next);
        self.pulse.forget_before(self.next);
    }

    /// One sample far up, the next far down; the trace beneath goes on as if nothing had been.
    fn spike(&mut self, at: usize, see: &mut dyn FnMut(u64, Sight)) {
        const UP: i32 = 1_500;
        const DOWN: i32 = -2_500;
        let at = at + SPIKE_AHEAD;
        let up = self.ecg.at(at) - self.ecg.at(at - 1);
        let down = self.ecg.at(at + 1) - self.ecg.at(at);
        if up > UP && down < DOWN {
            self.ecg.bridge(at - 1, at + 2);
            self.last_spike = Some(at);
            see(us(at), Sight::Spike);
        }
    }

    fn complex(&mut self, at: usize, see: &mut dyn FnMut(u64, Sight)) {
        if at < self.until || !complex::is_steep(&self.ecg, at) || complex::is_fibrillating(&self.ecg, at) {
            return;
        }
        let paced_by = self.last_spike.filter(|spike| complex::is_paced(&self.ecg, *spike, at));
        if let Some(spike) = paced_by {
            self.until = spike + complex::PACED_WIDE;
            see(us(spike), Sight::Beat(Chamber::Ventricle, Look::Paced));
        } else if let Some((began_us, look)) = complex::upright(&self.ecg, at) {
            self.until = at + complex::WIDE;
            see(began_us, Sight::Beat(Chamber::Ventricle, look));
        }
    }

    fn pulse_top(&mut self, at: usize, see: &mut dyn FnMut(u64, Sight)) {
        if at < self.pulse_until || at < PULSE_RISES_IN {
            return;
        }
        let top = self.pulse.at(at);
        let rises = top >= self.pulse.at(at - PULSE_RISES_IN) + PULSE_RISES && top > self.pulse.at(at - 1);
        if rises && (1..=TOP_FOR).all(|later| self.pulse.at(at + later) <= top) {
            self.pulse_until = at + TOP_FOR;
            let systolic = u16::try_from(top).unwrap_or_default();
            see(us(at).saturating_sub(PULSE_TOP_US), Sight::Pulse(systolic));
        }
    }
}

fn us(sample: usize) -> u64 {
    sample as u64 * SAMPLE_US
}
