//! The strip drawn without haste: every sample by itself, every wave that is not over, every height by its formula.
//! What the drawn strip must be to the byte, and what it is measured against.

#![allow(clippy::unwrap_used, reason = "a test's own mistake may stop the test")]

use simulator::strip::shape::{self, Bump};
use simulator::{Chamber, Event, Origin, Patient, What};

const SAMPLE_US: u64 = 2_000;
const SAMPLES: usize = 25;

pub struct Naive {
    patient: Patient,
    ecg: Vec<(u64, Bump)>,
    pulse: Vec<(u64, Bump)>,
    spikes: Vec<u64>,
    expected_qrs: Option<u64>,
    systolic: i32,
    diastolic: i32,
    fibrillates: bool,
    turns: u32,
}

impl Naive {
    pub fn new(patient: Patient) -> Naive {
        let systolic = i32::from(patient.heart().pressure.own_mmhg);
        Naive {
            patient,
            ecg: vec![],
            pulse: vec![],
            spikes: vec![],
            expected_qrs: None,
            systolic,
            diastolic: systolic * 60 / 100,
            fibrillates: false,
            turns: 0,
        }
    }

    /// ECG and pulse of the next twentieth of a second.
    pub fn batch(&mut self) -> ([i16; SAMPLES], [i16; SAMPLES]) {
        let began = self.patient.now_us();
        let events = self.patient.run(SAMPLE_US * SAMPLES as u64);
        events.into_iter().for_each(|event| self.add(event));
        if self.fibrillates && self.ecg.iter().filter(|(from, bump)| ends(*from, *bump) > began).count() < 3 {
            self.flutter(began);
            self.flutter(began + 90_000);
        }
        let (mut ecg, mut pulse) = ([0; SAMPLES], [0; SAMPLES]);
        for (place, (ecg, pulse)) in ecg.iter_mut().zip(&mut pulse).enumerate() {
            (*ecg, *pulse) = self.sample(began + place as u64 * SAMPLE_US);
        }
        (ecg, pulse)
    }

    fn sample(&mut self, now: u64) -> (i16, i16) {
        self.ecg.retain(|(from, bump)| ends(*from, *bump) > now);
        self.pulse.retain(|(from, bump)| ends(*from, *bump) > now);
        self.spikes.retain(|at| at + 2 * SAMPLE_US > now);
        let rest = if self.fibrillates { 15 } else { self.systolic * 60 / 100 };
        self.diastolic += (rest - self.diastolic).signum();
        let sum =
            |waves: &[(u64, Bump)]| waves.iter().map(|(from, bump)| height(*from, *bump, now)).sum::<i32>();
        let spikes = self.spikes.iter().map(|at| match now.checked_sub(*at) {
            Some(0..SAMPLE_US) => shape::SPIKE[0],
            Some(_) => shape::SPIKE[1],
            None => 0,
        });
        let ecg = sum(&self.ecg) + spikes.sum::<i32>();
        (i16::try_from(ecg).unwrap(), i16::try_from(sum(&self.pulse) + self.diastolic).unwrap())
    }

    fn add(&mut self, event: Event) {
        let (at, heart) = (event.at_us, self.patient.heart());
        match event.what {
            What::Beat { chamber: Chamber::Atrium, origin } => {
                self.expected_qrs = heart.conduction.map(|conduction| at + u64::from(conduction.delay_us));
                let paced = origin == Origin::Paced;
                self.put(if paced { shape::P_WAVE_PACED } else { shape::P_WAVE }, 100, at);
            }
            What::Beat { chamber: Chamber::Ventricle, origin } => {
                let t_delay = u64::from(heart.signal.t_wave_delay_us);
                self.ventricle(origin, at, t_delay);
            }
            What::Spike { visible: true, .. } => self.spikes.push(at),
            What::Pulse { systolic_mmhg } => {
                self.systolic = i32::from(systolic_mmhg);
                let high = self.systolic - self.systolic * 60 / 100;
                self.pulse.push((at, Bump { after_us: 0, wide_us: shape::PULSE_US, high }));
            }
            What::VentricularFibrillation => {
                self.fibrillates = true;
                self.flutter(at);
            }
            What::Spike { visible: false, .. } | What::Mark(_) | What::NoPulse => {}
        }
    }

    fn ventricle(&mut self, origin: Origin, at: u64, t_delay: u64) {
        self.fibrillates = false;
        let (qrs, t_wave) = match origin {
            Origin::Own => (shape::QRS, shape::T_WAVE),
            Origin::Extra => (shape::QRS_EXTRA, shape::T_WAVE_EXTRA),
            Origin::Paced => (shape::QRS_PACED, shape::T_WAVE_PACED),
        };
        let wait = self.expected_qrs.and_then(|expected| expected.checked_sub(at)).unwrap_or(60_000);
        let own = if origin == Origin::Paced { 60_000_u64.saturating_sub(wait) * 60 / 60_000 } else { 0 };
        let own = i32::try_from(own).unwrap();
        self.put(qrs, 100 - own, at);
        if own > 0 {
            self.put(shape::QRS, own, at + SAMPLE_US);
        }
        self.put(&[t_wave], 100, at + t_delay.saturating_sub(u64::from(t_wave.wide_us) / 2));
    }

    fn put(&mut self, bumps: &[Bump], share: i32, at: u64) {
        self.ecg.extend(bumps.iter().map(|bump| (at, Bump { high: bump.high * share / 100, ..*bump })));
    }

    fn flutter(&mut self, at: u64) {
        self.turns = self.turns.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let size = i32::try_from(60 + (self.turns >> 24) % 60).unwrap();
        let high = if self.turns & (1 << 20) == 0 { 300 } else { -300 };
        self.ecg.push((at, Bump { high: high * size / 100, ..shape::FIBRILLATION }));
    }
}

fn ends(at: u64, bump: Bump) -> u64 {
    at + u64::from(bump.after_us) + u64::from(bump.wide_us)
}

/// (1 - x²)², in whole thousandths.
fn height(at: u64, bump: Bump, now: u64) -> i32 {
    let from = at + u64::from(bump.after_us);
    if now < from || now >= ends(at, bump) {
        return 0;
    }
    let (since, wide) = (i32::try_from(now - from).unwrap(), bump.wide_us.cast_signed());
    let x = (2 * since - wide) * 1_000 / wide;
    let inside = (1_000_000 - x * x) / 1_000;
    bump.high * (inside * inside / 1_000) / 1_000
}
