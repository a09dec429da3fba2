//! What the wire meets of the heart's own beats.

use serde::{Deserialize, Serialize};
use simulator::Signal;

use super::heart::milli;
use crate::fault::Fault;

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SignalFile {
    #[serde(rename = "own_mV")]
    pub own_mv: f64,
    /// Each own beat is so much larger or smaller, by chance.
    #[serde(rename = "scatter_mV", default)]
    pub scatter_mv: f64,
    /// Breathing makes own beats so much larger and smaller.
    #[serde(rename = "breathing_mV", default)]
    pub breathing_mv: f64,
    #[serde(default = "breath")]
    pub breath_s: f64,
    /// Own beats grow by so much an hour; below zero they shrink.
    #[serde(rename = "drift_mV_per_hour", default)]
    pub drift_mv_per_hour: f64,
    #[serde(rename = "t_wave_mV", default = "t_wave")]
    pub t_wave_mv: f64,
    #[serde(default = "t_wave_after")]
    pub t_wave_after_ms: u32,
}

fn breath() -> f64 {
    4.0
}

fn t_wave() -> f64 {
    0.3
}

fn t_wave_after() -> u32 {
    320
}

impl SignalFile {
    /// # Errors
    /// The first figure below zero; a drift alone may lie there.
    pub(super) fn check(self) -> Result<(), Fault> {
        [
            ("signal.own_mV", self.own_mv),
            ("signal.scatter_mV", self.scatter_mv),
            ("signal.breathing_mV", self.breathing_mv),
            ("signal.breath_s", self.breath_s),
            ("signal.drift_mV_per_hour", self.drift_mv_per_hour.abs()),
            ("signal.t_wave_mV", self.t_wave_mv),
        ]
        .into_iter()
        .try_for_each(|(place, figure)| Fault::unless_figure(place, figure))
    }

    pub(super) fn signal(self, usual: Signal) -> Signal {
        Signal {
            own_uv: milli(self.own_mv),
            own_scatter_uv: milli(self.scatter_mv),
            breath_uv: milli(self.breathing_mv),
            breath_us: milli(self.breath_s * 1_000.0),
            drift_uv_per_hour: (self.drift_mv_per_hour * 1_000.0).round() as i32,
            t_wave_uv: milli(self.t_wave_mv),
            t_wave_delay_us: self.t_wave_after_ms.saturating_mul(1_000),
            ..usual
        }
    }
}
