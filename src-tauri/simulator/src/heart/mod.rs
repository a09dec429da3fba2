//! A heart as plain data: what it does by itself, what it shows to a wire, what it takes to pace it.

mod disturbance;
pub(crate) mod possible;

use std::sync::Arc;

use crate::event::Chamber;
use crate::recording::Recording;
pub use disturbance::{Lead, Noise, Vulnerable};

/// Every field is plain and public, so that others can read a heart from a file and write one down.
/// Thresholds are in the unit of the output dial, µA or µV.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Heart {
    /// The chamber the wire truly stands on, whatever port it is plugged into.
    pub wire: Chamber,
    pub atrium: AtrialRhythm,
    /// `None`: complete block, no P wave reaches the ventricle.
    pub conduction: Option<Conduction>,
    /// The ventricle's own pacemaker, when it has one.
    pub escape: Option<Escape>,
    pub extra: Option<ExtraBeats>,
    pub standstill: Option<Standstill>,
    pub signal: Signal,
    pub capture: Capture,
    pub pressure: Pressure,
    /// How long muscle that has beaten cannot beat again.
    pub refractory_us: u32,
    /// The monitor shows spikes of this output or more.
    pub spikes_seen_from_micro: u32,
    pub noise: Option<Noise>,
    pub lead: Lead,
    /// `None`: no spike starts fibrillation.
    pub vulnerable: Option<Vulnerable>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AtrialRhythm {
    Silent,
    /// The wire's chamber beats as it was recorded: P waves at an atrial wire, conducted as any; QRS at a
    /// ventricular one, whose P waves no recording of beats tells. A beat that the recording did not make, paced or
    /// extra, takes the place of the one that was due: that comes one recorded interval later, so that faster
    /// pacing meets no own beat, and the recording then goes on.
    Recorded(Arc<Recording>),
    Sinus {
        interval_us: u32,
        scatter_us: u32,
    },
    /// No P waves, no capture. Conducted beats follow each ventricular beat after `fastest_us..=slowest_us`;
    /// an atrial wire meets signals of `wave_uv` every 130 to 200 ms.
    Fibrillating {
        fastest_us: u32,
        slowest_us: u32,
        wave_uv: u32,
    },
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Conduction {
    /// From the P wave to its QRS.
    pub delay_us: u32,
    /// A P wave sooner than this after the last conducted one is blocked.
    pub recovery_us: u32,
    /// A ventricular beat that was not conducted resets the sinus node, so that the own rhythm does not compete
    /// with faster ventricular pacing.
    pub retrograde: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Escape {
    pub interval_us: u32,
    pub scatter_us: u32,
    pub suppression: Option<Suppression>,
}

/// Pacing puts an escape to sleep, the more the faster and the longer it lasts; it wakes beat by beat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Suppression {
    /// What deepest sleep adds to the escape interval.
    pub longest_us: u32,
    /// Each paced beat closes one part in this many of the way to the sleep its rate leads to.
    pub builds_over_beats: u32,
    /// Each own beat takes one part in this many off the sleep.
    pub wakes_over_beats: u32,
}

/// After each own beat of `chamber`, with a chance of one in `one_in`, an extra beat follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ExtraBeats {
    pub chamber: Chamber,
    pub one_in: u32,
    pub coupling_us: u32,
    pub signal_uv: u32,
}

/// Own rhythm that stops by itself after so many own ventricular beats without a paced one between.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standstill {
    pub after_own_beats: u32,
    pub lasts_us: u32,
}

/// What the wire meets, µV.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Signal {
    /// The own beat of the wire's chamber.
    pub own_uv: u32,
    pub own_scatter_uv: u32,
    /// Breathing makes the own beat so much larger and smaller, once every `breath_us`.
    pub breath_uv: u32,
    pub breath_us: u32,
    /// The own beat grows, or shrinks, by so much an hour.
    pub drift_uv_per_hour: i32,
    /// The T wave at a ventricular wire.
    pub t_wave_uv: u32,
    pub t_wave_delay_us: u32,
    /// The QRS at an atrial wire.
    pub far_field_uv: u32,
}

/// Thresholds at a pulse width of `measured_at_us`: muscle that is captured stays so down to `going_down_micro`;
/// once lost, or not yet captured, it takes `going_up_micro`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Capture {
    pub going_down_micro: u32,
    pub going_up_micro: u32,
    /// Both, from beat to beat, so much more or less.
    pub scatter_micro: u32,
    pub measured_at_us: u32,
    pub chronaxie_us: u32,
}

/// Systolic pressure behind each kind of ventricular beat; 0 is no pulse.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pressure {
    pub own_mmhg: u16,
    pub extra_mmhg: u16,
    pub paced_mmhg: u16,
    pub delay_us: u32,
}

impl Heart {
    /// A heart in sinus rhythm, at `rate_per_min`, otherwise as the default.
    pub fn sinus(rate_per_min: u16) -> Self {
        Heart { atrium: AtrialRhythm::sinus(rate_per_min), ..Heart::default() }
    }

    /// Complete block over a sinus rate of 90, with a steady escape at `rate_per_min`.
    pub fn escaping(rate_per_min: u16) -> Self {
        let escape =
            Escape { interval_us: crate::interval_us(rate_per_min), scatter_us: 0, suppression: None };
        Heart { atrium: AtrialRhythm::sinus(90), conduction: None, escape: Some(escape), ..Heart::default() }
    }

    /// No own rhythm at all.
    pub fn silent() -> Self {
        Heart { atrium: AtrialRhythm::Silent, ..Heart::default() }
    }
}

impl AtrialRhythm {
    pub fn sinus(rate_per_min: u16) -> Self {
        AtrialRhythm::Sinus { interval_us: crate::interval_us(rate_per_min), scatter_us: 0 }
    }
}

/// Sinus rhythm 72, an 8 mV signal and a 1.6 / 1.8 mA threshold at a ventricular wire: invented, like every heart here.
impl Default for Heart {
    fn default() -> Self {
        Heart {
            wire: Chamber::Ventricle,
            atrium: AtrialRhythm::sinus(72),
            conduction: Some(Conduction::default()),
            escape: None,
            extra: None,
            standstill: None,
            signal: Signal::default(),
            capture: Capture::default(),
            pressure: Pressure::default(),
            refractory_us: 250_000,
            spikes_seen_from_micro: 0,
            noise: None,
            lead: Lead::Sound,
            vulnerable: None,
        }
    }
}

impl Default for Conduction {
    fn default() -> Self {
        Conduction { delay_us: 160_000, recovery_us: 350_000, retrograde: true }
    }
}

impl Signal {
    /// µV, so long after it was `own_uv`.
    pub(crate) fn drifted_uv(self, us: u64) -> i64 {
        const HOUR_US: i64 = 3_600_000_000;
        i64::from(self.drift_uv_per_hour).saturating_mul(i64::try_from(us).unwrap_or(i64::MAX)) / HOUR_US
    }
}

impl Default for Signal {
    fn default() -> Self {
        Signal {
            own_uv: 8_000,
            own_scatter_uv: 0,
            breath_uv: 0,
            breath_us: 4_000_000,
            drift_uv_per_hour: 0,
            t_wave_uv: 300,
            t_wave_delay_us: 320_000,
            far_field_uv: 200,
        }
    }
}

impl Default for Capture {
    fn default() -> Self {
        Capture {
            going_down_micro: 1_600,
            going_up_micro: 1_800,
            scatter_micro: 0,
            measured_at_us: 1_000,
            chronaxie_us: 220,
        }
    }
}

impl Default for Pressure {
    fn default() -> Self {
        Pressure { own_mmhg: 118, extra_mmhg: 70, paced_mmhg: 108, delay_us: 180_000 }
    }
}
