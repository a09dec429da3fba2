//! P waves, what they conduct, and fibrillation.

use super::{Happening, Living, NEVER};
use crate::event::{Chamber, Origin, What};
use crate::heart::AtrialRhythm;

const WAVE_US: u32 = 165_000;
const WAVE_SCATTER_US: u32 = 35_000;

impl Living {
    pub(super) fn sinus_fires(&mut self, now: u64) -> Happening {
        if now < self.still_until {
            self.pending.sinus = self.still_until;
            return Happening::NOTHING;
        }
        let recorded_uv = self.next_recorded();
        self.reset_sinus(now, 0);
        self.atrium_beats(Origin::Own, recorded_uv, now)
    }

    /// `recorded_uv`: what this beat left at the wire in a recording.
    pub(super) fn atrium_beats(&mut self, origin: Origin, recorded_uv: Option<u32>, now: u64) -> Happening {
        if now < self.atrium_refractory_until || self.is_fibrillating() {
            return Happening::NOTHING;
        }
        if origin != Origin::Own {
            self.reset_sinus(now, 0);
        }
        self.atrium_refractory_until = now + u64::from(self.heart.refractory_us);
        if origin == Origin::Paced {
            self.own_in_a_row = 0;
        }
        self.conduct(now);
        self.perhaps_extra(Chamber::Atrium, origin, now);
        Happening {
            what: Some(What::Beat { chamber: Chamber::Atrium, origin }),
            at_wire_uv: self.signal_at_wire(Chamber::Atrium, origin, recorded_uv, now),
        }
    }

    /// The next P wave, one interval from now but `sooner_us`.
    pub(super) fn reset_sinus(&mut self, now: u64, sooner_us: u32) {
        self.pending.sinus = match self.heart.atrium {
            AtrialRhythm::Sinus { interval_us, scatter_us } => {
                let interval = self.chance.around(interval_us, scatter_us);
                now + u64::from(interval.saturating_sub(sooner_us).max(1))
            }
            AtrialRhythm::Recorded(ref recording) if self.heart.wire == Chamber::Atrium => {
                let interval = recording.before_us(self.recorded_place);
                now + interval.saturating_sub(u64::from(sooner_us)).max(1)
            }
            AtrialRhythm::Silent | AtrialRhythm::Recorded(_) | AtrialRhythm::Fibrillating { .. } => NEVER,
        };
    }

    pub(super) fn is_fibrillating(&self) -> bool {
        matches!(self.heart.atrium, AtrialRhythm::Fibrillating { .. })
    }

    pub(super) fn wave_arrives(&mut self, now: u64) -> Happening {
        self.pending.wave = self.next_wave(now);
        let at_wire_uv = match (&self.heart.atrium, self.heart.wire) {
            (AtrialRhythm::Fibrillating { wave_uv, .. }, Chamber::Atrium) => *wave_uv,
            _ => 0,
        };
        Happening { what: None, at_wire_uv }
    }

    /// Only an atrial wire meets fibrillation waves: elsewhere they are not worth an event.
    pub(super) fn next_wave(&mut self, now: u64) -> u64 {
        match (&self.heart.atrium, self.heart.wire) {
            (AtrialRhythm::Fibrillating { .. }, Chamber::Atrium) => {
                now + u64::from(self.chance.around(WAVE_US, WAVE_SCATTER_US))
            }
            _ => NEVER,
        }
    }

    fn conduct(&mut self, now: u64) {
        if let Some(conduction) = self.heart.conduction
            && now >= self.node_recovered_at
        {
            self.node_recovered_at = now + u64::from(conduction.recovery_us);
            self.pending.conducted = now + u64::from(conduction.delay_us);
        }
    }
}
