//! A single-chamber pulse generator: VVI or AAI, and VOO or AOO when asynchronous.

use crate::event::Chamber;
use crate::fault::Fault;
use crate::front_end::FrontEnd;

/// Lower-rate interval in µs, 60,000,000 / rate rounded down; a rate of 0 is taken as 1.
pub const fn interval_us(rate_per_min: u16) -> u32 {
    const MINUTE_US: u32 = 60_000_000;
    match rate_per_min {
        0 => MINUTE_US,
        rate => MINUTE_US / rate as u32,
    }
}

/// The three dials as a person set them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dials {
    pub rate_per_min: u16,
    /// µA or µV, in the unit of the heart's thresholds.
    pub output_micro: u32,
    /// µV; `None` is asynchronous.
    pub sensitivity_uv: Option<u32>,
}

/// What is built into the generator, and how its dials stand at the start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Generator {
    pub port: Chamber,
    pub refractory_us: u32,
    pub blanking_us: u32,
    pub pulse_width_us: u32,
    pub power: Power,
    pub dials: Dials,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Power {
    #[default]
    Good,
    /// The battery's sign is lit; everything else is as before.
    BatteryLow,
    /// Neither pulses nor marks.
    Off,
}

impl Generator {
    /// Refractory 300 ms and blanking 100 ms: from memory, inside the range timing texts give.
    pub const fn ventricular(dials: Dials) -> Self {
        Generator {
            port: Chamber::Ventricle,
            refractory_us: 300_000,
            blanking_us: 100_000,
            pulse_width_us: 1_000,
            power: Power::Good,
            dials,
        }
    }

    /// As [`Generator::ventricular`], plugged into the atrial port.
    pub const fn atrial(dials: Dials) -> Self {
        Generator { port: Chamber::Atrium, ..Generator::ventricular(dials) }
    }

    /// # Errors
    /// The first setting no generator could have.
    pub fn validate(&self) -> Result<(), Fault> {
        Fault::unless_within("refractory_us", self.refractory_us, 0, 1_000_000)?;
        Fault::unless_at_most(("blanking_us", self.blanking_us), ("refractory_us", self.refractory_us))?;
        Fault::unless_within("pulse_width_us", self.pulse_width_us, 10, 10_000)?;
        self.dials.validate()
    }
}

impl Dials {
    /// # Errors
    /// The first dial that stands where no generator could put it.
    pub fn validate(&self) -> Result<(), Fault> {
        Fault::unless_within("rate_per_min", self.rate_per_min.into(), 1, 400)?;
        Fault::unless_within("output_micro", self.output_micro, 1, 100_000_000)?;
        let sensitivity = self.sensitivity_uv.unwrap_or(1);
        Fault::unless_within("sensitivity_uv", sensitivity, 1, 1_000_000)
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// The lower-rate timer starts again.
    Restarted,
    /// Seen while refractory; the timer runs on.
    Refractory,
}

/// The timing core. It knows signals and time, and nothing of hearts.
#[derive(Clone, Debug)]
pub struct Timer {
    settings: Generator,
    counts_from_us: u64,
    next_spike_us: u64,
    refractory_until_us: u64,
    front_end: FrontEnd,
}

impl Timer {
    /// A timer that counts from `now_us`, neither refractory nor blanked.
    ///
    /// # Errors
    /// As [`Generator::validate`].
    pub fn new(settings: Generator, now_us: u64) -> Result<Self, Fault> {
        settings.validate()?;
        let mut timer = Timer {
            settings,
            counts_from_us: now_us,
            next_spike_us: 0,
            refractory_until_us: now_us,
            front_end: FrontEnd::default(),
        };
        timer.next_spike_us = timer.planned();
        Ok(timer)
    }

    pub const fn next_spike_us(&self) -> u64 {
        self.next_spike_us
    }

    pub const fn settings(&self) -> &Generator {
        &self.settings
    }

    /// New dial positions act at once; an interval that is already over ends now.
    ///
    /// # Errors
    /// As [`Dials::validate`]; the dials then stay as they were.
    pub fn turn(&mut self, dials: Dials, now_us: u64) -> Result<(), Fault> {
        dials.validate()?;
        self.settings.dials = dials;
        self.next_spike_us = self.planned().max(now_us);
        Ok(())
    }

    /// A generator that is switched on, or whose battery is changed, counts from now.
    pub fn switch(&mut self, power: Power, now_us: u64) {
        let was = std::mem::replace(&mut self.settings.power, power);
        if was == Power::Off && power != Power::Off {
            self.restart(now_us);
        }
        self.next_spike_us = self.planned().max(now_us);
    }

    /// A signal of this size reaches the wire. `None`: too small, blanked, asynchronous or switched off.
    pub fn sense(&mut self, signal_uv: u32, now_us: u64) -> Option<Sense> {
        self.sense_rise(FrontEnd::SILENCE_UV, signal_uv.into(), now_us)
    }

    /// As [`Timer::sense`], of a signal that stood at `before_uv` one sample ago.
    pub fn sense_rise(&mut self, before_uv: i64, signal_uv: i64, now_us: u64) -> Option<Sense> {
        if self.settings.power == Power::Off {
            return None;
        }
        let level_uv = self.settings.dials.sensitivity_uv?;
        if !self.front_end.sees(before_uv, signal_uv, level_uv, now_us) {
            return None;
        }
        if now_us < self.refractory_until_us {
            return Some(Sense::Refractory);
        }
        self.restart(now_us);
        Some(Sense::Restarted)
    }

    /// The pulse is given; returns its output.
    pub fn spike(&mut self, now_us: u64) -> u32 {
        self.restart(now_us);
        self.front_end.blank_until(now_us + u64::from(self.settings.blanking_us));
        self.settings.dials.output_micro
    }

    fn restart(&mut self, now_us: u64) {
        self.counts_from_us = now_us;
        self.next_spike_us = self.planned();
        self.refractory_until_us = now_us + u64::from(self.settings.refractory_us);
    }

    fn planned(&self) -> u64 {
        match self.settings.power {
            Power::Off => u64::MAX,
            Power::Good | Power::BatteryLow => {
                self.counts_from_us + u64::from(interval_us(self.settings.dials.rate_per_min))
            }
        }
    }
}
