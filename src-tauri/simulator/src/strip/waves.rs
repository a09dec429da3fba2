//! The waves under way, and their sum.

use super::shape::{self, Bump, Drawn};
use super::{SAMPLE_US, SAMPLES};
use crate::event::{Chamber, Event, Origin, What};
use crate::heart::Heart;

/// A conducted beat that comes so long after a spike still shapes the paced one.
const FUSION_US: u64 = 60_000;
const DIASTOLIC_PERCENT: i32 = 60;
const NO_CIRCULATION_MMHG: i32 = 15;

#[derive(Clone, Copy, Debug)]
struct Wave {
    from_us: u64,
    until_us: u64,
    drawn: Drawn,
}

impl Wave {
    fn new(at_us: u64, bump: Bump) -> Wave {
        let from_us = at_us + u64::from(bump.after_us);
        Wave { from_us, until_us: from_us + u64::from(bump.wide_us), drawn: Drawn::new(bump) }
    }
}

#[derive(Clone, Debug)]
pub struct Waves {
    ecg: Vec<Wave>,
    pulse: Vec<Wave>,
    /// Two samples each.
    spikes: Vec<u64>,
    t_delay_us: u32,
    conduction_us: Option<u32>,
    /// When the last P wave will have reached the ventricle.
    expected_qrs: Option<u64>,
    systolic: i32,
    /// Follows the systolic pressure a little at a time.
    diastolic: i32,
    fibrillates: bool,
    turns: u32,
}

impl Waves {
    pub fn new(heart: &Heart) -> Waves {
        let mut waves = Waves {
            ecg: Vec::new(),
            pulse: Vec::new(),
            spikes: Vec::new(),
            t_delay_us: 0,
            conduction_us: None,
            expected_qrs: None,
            systolic: i32::from(heart.pressure.own_mmhg),
            diastolic: i32::from(heart.pressure.own_mmhg) * DIASTOLIC_PERCENT / 100,
            fibrillates: false,
            turns: 0,
        };
        waves.change_heart(heart);
        waves
    }

    pub fn change_heart(&mut self, heart: &Heart) {
        self.t_delay_us = heart.signal.t_wave_delay_us;
        self.conduction_us = heart.conduction.map(|conduction| conduction.delay_us);
    }

    pub fn add(&mut self, event: Event) {
        let at_us = event.at_us;
        match event.what {
            What::Beat { chamber: Chamber::Atrium, origin } => self.atrium(origin, at_us),
            What::Beat { chamber: Chamber::Ventricle, origin } => self.ventricle(origin, at_us),
            What::Spike { visible: true, .. } => self.spikes.push(at_us),
            What::Pulse { systolic_mmhg } => self.pulse(i32::from(systolic_mmhg), at_us),
            What::VentricularFibrillation => {
                self.fibrillates = true;
                self.fibrillation(at_us);
            }
            What::Spike { visible: false, .. } | What::Mark(_) | What::NoPulse => {}
        }
    }

    fn atrium(&mut self, origin: Origin, at_us: u64) {
        self.expected_qrs = self.conduction_us.map(|delay| at_us + u64::from(delay));
        let shape = if origin == Origin::Paced { shape::P_WAVE_PACED } else { shape::P_WAVE };
        self.put(shape, 100, at_us);
    }

    fn ventricle(&mut self, origin: Origin, at_us: u64) {
        self.fibrillates = false;
        let (qrs, t_wave) = match origin {
            Origin::Own => (shape::QRS, shape::T_WAVE),
            Origin::Extra => (shape::QRS_EXTRA, shape::T_WAVE_EXTRA),
            Origin::Paced => (shape::QRS_PACED, shape::T_WAVE_PACED),
        };
        let own_share = if origin == Origin::Paced { self.own_share(at_us) } else { 0 };
        self.put(qrs, 100 - own_share, at_us);
        self.put(shape::QRS, own_share, at_us + u64::from(own_share > 0) * SAMPLE_US);
        // The wire meets the T wave at its steepest: there its top is near.
        let top = u64::from(self.t_delay_us).saturating_sub(u64::from(t_wave.wide_us) / 2);
        self.put(&[t_wave], 100, at_us + top);
    }

    /// Of a paced beat into which a conducted one was about to fall, parts of a hundred.
    fn own_share(&self, at_us: u64) -> i32 {
        let wait = self.expected_qrs.and_then(|expected| expected.checked_sub(at_us));
        let near =
            wait.filter(|wait| *wait < FUSION_US).map_or(0, |wait| (FUSION_US - wait) * 60 / FUSION_US);
        i32::try_from(near).unwrap_or(0)
    }

    fn put(&mut self, shape: &[Bump], share: i32, at_us: u64) {
        if share > 0 {
            self.ecg.extend(shape.iter().map(|bump| Wave::new(at_us, shape::fused(*bump, share))));
        }
    }

    fn pulse(&mut self, systolic: i32, at_us: u64) {
        self.systolic = systolic;
        let high = systolic - systolic * DIASTOLIC_PERCENT / 100;
        let bump = Bump { after_us: 0, wide_us: shape::PULSE_US, high };
        self.pulse.push(Wave::new(at_us, bump));
    }

    fn fibrillation(&mut self, at_us: u64) {
        self.turns = self.turns.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let size = i32::try_from(60 + (self.turns >> 24) % 60).unwrap_or(60);
        let sign = if self.turns & (1 << 20) == 0 { 1 } else { -1 };
        let bump = Bump { high: sign * shape::FIBRILLATION.high * size / 100, ..shape::FIBRILLATION };
        self.ecg.push(Wave::new(at_us, bump));
    }

    /// The samples from `began_us` on; waves that are over are dropped.
    pub fn draw(&mut self, began_us: u64) -> ([i16; SAMPLES], [i16; SAMPLES]) {
        if self.fibrillates && self.ecg.len() < 3 {
            self.fibrillation(began_us);
            self.fibrillation(began_us + 90_000);
        }
        let (mut ecg, mut pulse) = ([0; SAMPLES], [0; SAMPLES]);
        sum(&self.ecg, began_us, &mut ecg);
        sum(&self.pulse, began_us, &mut pulse);
        self.rest_on_diastolic(&mut pulse);
        self.draw_spikes(began_us, &mut ecg);
        let end = began_us + SAMPLE_US * SAMPLES as u64;
        let lasts = |wave: &Wave| wave.until_us > end;
        self.ecg.retain(lasts);
        self.pulse.retain(lasts);
        self.spikes.retain(|at| at + 2 * SAMPLE_US > end);
        (ecg.map(clamped), pulse.map(clamped))
    }

    fn rest_on_diastolic(&mut self, pulse: &mut [i32; SAMPLES]) {
        let rest = self.systolic * DIASTOLIC_PERCENT / 100;
        let rest = if self.fibrillates { NO_CIRCULATION_MMHG } else { rest };
        if self.diastolic == rest {
            pulse.iter_mut().for_each(|sample| *sample += rest);
            return;
        }
        for sample in pulse {
            self.diastolic += (rest - self.diastolic).signum();
            *sample += self.diastolic;
        }
    }

    fn draw_spikes(&self, began_us: u64, ecg: &mut [i32; SAMPLES]) {
        for at in &self.spikes {
            for (step, high) in (0..).zip(shape::SPIKE) {
                let sample_us = at.div_ceil(SAMPLE_US) * SAMPLE_US + step * SAMPLE_US;
                let place = sample_us.checked_sub(began_us).map(|us| us / SAMPLE_US);
                if let Some(sample) = place.and_then(|place| ecg.get_mut(usize::try_from(place).ok()?)) {
                    *sample += high;
                }
            }
        }
    }
}

/// Only the samples that a wave reaches are touched.
fn sum(waves: &[Wave], began_us: u64, samples: &mut [i32; SAMPLES]) {
    for wave in waves {
        let (first, last) = (place(wave.from_us, began_us), place(wave.until_us, began_us));
        let mut since = (began_us + first as u64 * SAMPLE_US).wrapping_sub(wave.from_us).cast_signed();
        for sample in &mut samples[first..last] {
            *sample += wave.drawn.height(since);
            since += SAMPLE_US.cast_signed();
        }
    }
}

/// The first sample at or after an instant, at most one past the last.
fn place(at_us: u64, began_us: u64) -> usize {
    let samples = at_us.saturating_sub(began_us).div_ceil(SAMPLE_US);
    usize::try_from(samples).unwrap_or(SAMPLES).min(SAMPLES)
}

fn clamped(value: i32) -> i16 {
    i16::try_from(value).unwrap_or(if value < 0 { i16::MIN } else { i16::MAX })
}
