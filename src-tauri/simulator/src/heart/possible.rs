//! Which hearts can exist. The ranges are wide: they keep out typing errors and arithmetic nonsense, not rare patients.

use super::{
    AtrialRhythm, Capture, Conduction, Escape, ExtraBeats, Heart, Noise, Pressure, Signal, Standstill,
    Suppression, Vulnerable,
};
use crate::fault::Fault;

pub(crate) const FASTEST_US: u32 = 150_000;
pub(crate) const SLOWEST_US: u32 = 60_000_000;
const LARGEST_SIGNAL_UV: u32 = 100_000;
const LARGEST_OUTPUT_MICRO: u32 = 1_000_000_000;

impl Heart {
    /// # Errors
    /// The first part that makes the heart impossible, with what is allowed.
    pub fn validate(&self) -> Result<(), Fault> {
        Fault::unless_within("refractory_us", self.refractory_us, 50_000, 600_000)?;
        self.atrium.validate(self.refractory_us)?;
        self.conduction.map_or(Ok(()), Conduction::validate)?;
        self.escape.map_or(Ok(()), Escape::validate)?;
        self.extra.map_or(Ok(()), ExtraBeats::validate)?;
        self.standstill.map_or(Ok(()), Standstill::validate)?;
        self.signal.validate()?;
        self.noise.map_or(Ok(()), Noise::validate)?;
        self.lead.validate()?;
        self.vulnerable.map_or(Ok(()), Vulnerable::validate)?;
        self.capture.validate()?;
        self.pressure.validate(self.refractory_us)
    }
}

impl AtrialRhythm {
    fn validate(&self, refractory_us: u32) -> Result<(), Fault> {
        match *self {
            AtrialRhythm::Silent => Ok(()),
            // Every recorded beat must be able to come.
            AtrialRhythm::Recorded(ref recording) => {
                let fastest = u32::try_from(recording.fastest_us()).unwrap_or(u32::MAX);
                let least = FASTEST_US.max(refractory_us);
                Fault::unless_within("recorded.interval_us", fastest, least, SLOWEST_US)
            }
            AtrialRhythm::Sinus { interval_us, scatter_us } => {
                pacemaker(("sinus.interval_us", interval_us), ("sinus.scatter_us", scatter_us))
            }
            AtrialRhythm::Fibrillating { fastest_us, slowest_us, wave_uv } => {
                let (least, most) = (FASTEST_US.max(refractory_us), SLOWEST_US);
                Fault::unless_within("fibrillating.fastest_us", fastest_us, least, most)?;
                Fault::unless_within("fibrillating.slowest_us", slowest_us, least, most)?;
                Fault::unless_at_most(
                    ("fibrillating.fastest_us", fastest_us),
                    ("fibrillating.slowest_us", slowest_us),
                )?;
                signal("fibrillating.wave_uv", wave_uv)
            }
        }
    }
}

impl Conduction {
    fn validate(self) -> Result<(), Fault> {
        Fault::unless_within("conduction.delay_us", self.delay_us, 1, 1_000_000)?;
        Fault::unless_within("conduction.recovery_us", self.recovery_us, 1, SLOWEST_US)?;
        // Otherwise a second P wave could set out while the first is on its way.
        Fault::unless_at_most(
            ("conduction.delay_us", self.delay_us),
            ("conduction.recovery_us", self.recovery_us),
        )
    }
}

impl Escape {
    fn validate(self) -> Result<(), Fault> {
        pacemaker(("escape.interval_us", self.interval_us), ("escape.scatter_us", self.scatter_us))?;
        self.suppression.map_or(Ok(()), Suppression::validate)
    }
}

impl Suppression {
    fn validate(self) -> Result<(), Fault> {
        let (builds, wakes) = (self.builds_over_beats, self.wakes_over_beats);
        Fault::unless_within("suppression.longest_us", self.longest_us, 0, SLOWEST_US)?;
        Fault::unless_within("suppression.builds_over_beats", builds, 1, 10_000)?;
        Fault::unless_within("suppression.wakes_over_beats", wakes, 1, 10_000)
    }
}

impl ExtraBeats {
    fn validate(self) -> Result<(), Fault> {
        Fault::unless_within("extra.one_in", self.one_in, 1, 1_000_000)?;
        Fault::unless_within("extra.coupling_us", self.coupling_us, 50_000, 2_000_000)?;
        signal("extra.signal_uv", self.signal_uv)
    }
}

impl Standstill {
    fn validate(self) -> Result<(), Fault> {
        // One would count a QRS conducted from a paced P wave.
        let beats = self.after_own_beats;
        Fault::unless_within("standstill.after_own_beats", beats, 2, 1_000_000)?;
        Fault::unless_within("standstill.lasts_us", self.lasts_us, 1, u32::MAX)
    }
}

impl Signal {
    fn validate(self) -> Result<(), Fault> {
        signal("signal.own_uv", self.own_uv)?;
        Fault::unless_at_most(
            ("signal.own_scatter_uv", self.own_scatter_uv),
            ("signal.own_uv", self.own_uv),
        )?;
        Fault::unless_at_most(("signal.breath_uv", self.breath_uv), ("signal.own_uv", self.own_uv))?;
        Fault::unless_within("signal.breath_us", self.breath_us, 500_000, 60_000_000)?;
        let drift = self.drift_uv_per_hour.unsigned_abs();
        Fault::unless_within("signal.drift_uv_per_hour", drift, 0, LARGEST_SIGNAL_UV)?;
        signal("signal.t_wave_uv", self.t_wave_uv)?;
        Fault::unless_within("signal.t_wave_delay_us", self.t_wave_delay_us, 1, 1_000_000)?;
        signal("signal.far_field_uv", self.far_field_uv)
    }
}

impl Capture {
    fn validate(self) -> Result<(), Fault> {
        let (down, up) = (self.going_down_micro, self.going_up_micro);
        Fault::unless_within("capture.going_down_micro", down, 1, LARGEST_OUTPUT_MICRO)?;
        Fault::unless_within("capture.going_up_micro", up, 1, LARGEST_OUTPUT_MICRO)?;
        Fault::unless_at_most(("capture.going_down_micro", down), ("capture.going_up_micro", up))?;
        Fault::unless_at_most(
            ("capture.scatter_micro", self.scatter_micro),
            ("capture.going_down_micro", down),
        )?;
        Fault::unless_within("capture.measured_at_us", self.measured_at_us, 10, 10_000)?;
        Fault::unless_within("capture.chronaxie_us", self.chronaxie_us, 0, 10_000)
    }
}

impl Pressure {
    fn validate(self, refractory_us: u32) -> Result<(), Fault> {
        Fault::unless_within("pressure.own_mmhg", self.own_mmhg.into(), 0, 300)?;
        Fault::unless_within("pressure.extra_mmhg", self.extra_mmhg.into(), 0, 300)?;
        Fault::unless_within("pressure.paced_mmhg", self.paced_mmhg.into(), 0, 300)?;
        // A pulse still on its way when the next beat comes would be lost.
        Fault::unless_at_most(("pressure.delay_us", self.delay_us), ("refractory_us", refractory_us))
    }
}

fn pacemaker(
    (interval, interval_us): (&'static str, u32),
    (scatter, scatter_us): (&'static str, u32),
) -> Result<(), Fault> {
    Fault::unless_within(interval, interval_us, FASTEST_US, SLOWEST_US)?;
    Fault::unless_at_most((scatter, scatter_us), ("the interval above the fastest", interval_us - FASTEST_US))
}

pub(crate) fn signal(field: &'static str, value_uv: u32) -> Result<(), Fault> {
    Fault::unless_within(field, value_uv, 0, LARGEST_SIGNAL_UV)
}
