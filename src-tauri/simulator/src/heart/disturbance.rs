//! What troubles a wire besides the heart: noise, a broken lead, and the moment when a pulse is dangerous.

use crate::fault::Fault;

/// Signals at the wire that are no beats, in bursts. All times from memory, none a measured figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Noise {
    /// µV, each up to half smaller by chance.
    pub peak_uv: u32,
    /// Between two spikes of a burst.
    pub spacing_us: u32,
    pub burst_us: u32,
    /// Between two bursts, half more or less by chance.
    pub quiet_us: u32,
}

/// Does the lead carry current and signal?
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lead {
    #[default]
    Sound,
    Lost,
    /// Sound for `sound_us`, then broken for `broken_us`, from the first instant on.
    Intermittent {
        sound_us: u32,
        broken_us: u32,
    },
}

/// A captured spike this long after a ventricular beat starts fibrillation, once in `one_in` times.
/// That it happens is published (RONT, one patient); the chance is the maker's of the heart to state.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Vulnerable {
    pub from_us: u32,
    pub until_us: u32,
    pub one_in: u32,
    /// What a ventricular wire meets while the ventricle fibrillates, µV.
    pub wave_uv: u32,
}

impl Noise {
    /// Small and for a long time: muscle that shivers.
    pub const fn shivering(peak_uv: u32) -> Noise {
        Noise { peak_uv, spacing_us: 110_000, burst_us: 8_000_000, quiet_us: 6_000_000 }
    }

    /// Short and close together, as from another device in the room.
    pub const fn burst(peak_uv: u32) -> Noise {
        Noise { peak_uv, spacing_us: 20_000, burst_us: 700_000, quiet_us: 5_000_000 }
    }

    /// Single and large: a pin that touches and lets go.
    pub const fn loose_pin(peak_uv: u32) -> Noise {
        Noise { peak_uv, spacing_us: 150_000, burst_us: 300_000, quiet_us: 2_500_000 }
    }

    pub(super) fn validate(self) -> Result<(), Fault> {
        super::possible::signal("noise.peak_uv", self.peak_uv)?;
        Fault::unless_within("noise.spacing_us", self.spacing_us, 1_000, 10_000_000)?;
        Fault::unless_within("noise.burst_us", self.burst_us, 0, 600_000_000)?;
        Fault::unless_within("noise.quiet_us", self.quiet_us, 1_000, 600_000_000)
    }
}

impl Lead {
    pub const fn conducts(self, now_us: u64) -> bool {
        match self {
            Lead::Sound => true,
            Lead::Lost => false,
            Lead::Intermittent { sound_us, broken_us } => {
                now_us % (sound_us as u64 + broken_us as u64) < sound_us as u64
            }
        }
    }

    pub(super) fn validate(self) -> Result<(), Fault> {
        let Lead::Intermittent { sound_us, broken_us } = self else { return Ok(()) };
        Fault::unless_within("lead.sound_us", sound_us, 1, 600_000_000)?;
        Fault::unless_within("lead.broken_us", broken_us, 1, 600_000_000)
    }
}

impl Vulnerable {
    pub(crate) fn holds(self, since_beat_us: u64) -> bool {
        (u64::from(self.from_us)..=u64::from(self.until_us)).contains(&since_beat_us)
    }

    pub(super) fn validate(self) -> Result<(), Fault> {
        Fault::unless_within("vulnerable.until_us", self.until_us, 1, 1_000_000)?;
        Fault::unless_at_most(("vulnerable.from_us", self.from_us), ("vulnerable.until_us", self.until_us))?;
        Fault::unless_within("vulnerable.one_in", self.one_in, 1, 1_000_000)?;
        super::possible::signal("vulnerable.wave_uv", self.wave_uv)
    }
}
