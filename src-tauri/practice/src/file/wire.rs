//! What troubles a wire besides the heart.

use serde::{Deserialize, Serialize};
use simulator::{Lead, Noise, Vulnerable};

use super::heart::milli;

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum NoiseFile {
    None,
    /// Single and large: a pin that touches and lets go.
    LoosePin {
        #[serde(rename = "peak_mV")]
        peak_mv: f64,
    },
    /// Small and for a long time: muscle.
    Shivering {
        #[serde(rename = "peak_mV")]
        peak_mv: f64,
    },
    /// Short and close together: another device.
    Burst {
        #[serde(rename = "peak_mV")]
        peak_mv: f64,
    },
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(tag = "state", rename_all = "kebab-case", deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum LeadFile {
    Sound,
    Lost,
    Intermittent { sound_ms: u32, broken_ms: u32 },
}

/// A spike that makes a beat this long after a ventricular beat starts fibrillation, once in `one_in` times.
#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct VulnerableFile {
    pub from_ms: u32,
    pub until_ms: u32,
    pub one_in: u32,
    /// What a ventricular wire meets while the ventricle fibrillates.
    #[serde(rename = "wave_mV")]
    pub wave_mv: f64,
}

impl VulnerableFile {
    pub(super) fn vulnerable(self) -> Vulnerable {
        Vulnerable {
            from_us: self.from_ms.saturating_mul(1_000),
            until_us: self.until_ms.saturating_mul(1_000),
            one_in: self.one_in,
            wave_uv: milli(self.wave_mv),
        }
    }
}

impl NoiseFile {
    pub(super) fn peak_mv(self) -> f64 {
        match self {
            NoiseFile::None => 0.0,
            NoiseFile::LoosePin { peak_mv }
            | NoiseFile::Shivering { peak_mv }
            | NoiseFile::Burst { peak_mv } => peak_mv,
        }
    }

    pub(super) fn noise(self) -> Option<Noise> {
        match self {
            NoiseFile::None => None,
            NoiseFile::LoosePin { peak_mv } => Some(Noise::loose_pin(milli(peak_mv))),
            NoiseFile::Shivering { peak_mv } => Some(Noise::shivering(milli(peak_mv))),
            NoiseFile::Burst { peak_mv } => Some(Noise::burst(milli(peak_mv))),
        }
    }
}

impl LeadFile {
    pub(super) fn lead(self) -> Lead {
        match self {
            LeadFile::Sound => Lead::Sound,
            LeadFile::Lost => Lead::Lost,
            LeadFile::Intermittent { sound_ms, broken_ms } => Lead::Intermittent {
                sound_us: sound_ms.saturating_mul(1_000),
                broken_us: broken_ms.saturating_mul(1_000),
            },
        }
    }
}
