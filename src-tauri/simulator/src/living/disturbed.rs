//! Noise at the wire, a lead that lets go, and a ventricle in fibrillation.

use super::{Happening, Living, NEVER};
use crate::event::{Chamber, What};

const WAVE_US: u32 = 180_000;
const WAVE_SCATTER_US: u32 = 40_000;

impl Living {
    pub(super) fn begin_noise(&mut self, now: u64) {
        let Some(noise) = self.heart.noise else { return };
        self.pending.noise = now + 1 + self.chance.below(noise.quiet_us.into());
        self.noise_until = self.pending.noise + u64::from(noise.burst_us);
    }

    pub(super) fn noise_arrives(&mut self, now: u64) -> Happening {
        self.pending.noise = NEVER;
        let Some(noise) = self.heart.noise else { return Happening::NOTHING };
        let next = now + u64::from(noise.spacing_us);
        self.pending.noise = if next <= self.noise_until {
            next
        } else {
            let quiet = self.chance.around(noise.quiet_us, noise.quiet_us / 2);
            self.noise_until = next + u64::from(quiet) + u64::from(noise.burst_us);
            next + u64::from(quiet)
        };
        let half = noise.peak_uv / 2;
        Happening { what: None, at_wire_uv: self.chance.around(noise.peak_uv - half / 2, half / 2) }
    }

    /// A broken lead brings nothing to the generator.
    pub(super) fn through_lead(&self, happening: Happening, now: u64) -> Happening {
        if self.heart.lead.conducts(now) {
            return happening;
        }
        Happening { at_wire_uv: 0, ..happening }
    }

    /// A captured spike in the dangerous moment after the last ventricular beat, and chance.
    pub(super) fn starts_fibrillation(&mut self, now: u64) -> bool {
        let Some(vulnerable) = self.heart.vulnerable else { return false };
        self.has_beaten
            && vulnerable.holds(now - self.last_ventricular)
            && self.chance.below(vulnerable.one_in.into()) == 0
    }

    /// No beat and no pulse from here on; only a shock or another rhythm ends it.
    pub(super) fn fibrillate(&mut self, now: u64) -> Happening {
        self.ventricle_fibrillates = true;
        self.pending.escape = NEVER;
        self.pending.conducted = NEVER;
        self.pending.t_wave = NEVER;
        self.pending.ventricular_wave = now + u64::from(WAVE_US);
        Happening { what: Some(What::VentricularFibrillation), at_wire_uv: 0 }
    }

    pub(super) fn ventricular_wave_arrives(&mut self, now: u64) -> Happening {
        self.pending.ventricular_wave = now + u64::from(self.chance.around(WAVE_US, WAVE_SCATTER_US));
        let seen = self.heart.vulnerable.filter(|_| self.heart.wire == Chamber::Ventricle);
        Happening { what: None, at_wire_uv: seen.map_or(0, |vulnerable| vulnerable.wave_uv) }
    }
}
