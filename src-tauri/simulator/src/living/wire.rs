//! Where heart and wire meet: the signal a beat leaves there, and what a pulse does there.

use super::{Happening, Living};
use crate::event::{Chamber, Origin, SpikeOutcome};

impl Living {
    /// µV. The answer to a pulse is 0: it falls into the blanking that follows every pulse.
    pub(super) fn signal_at_wire(&mut self, chamber: Chamber, origin: Origin) -> u32 {
        let signal = self.heart.signal;
        match (self.heart.wire, chamber) {
            (Chamber::Atrium, Chamber::Ventricle) => signal.far_field_uv,
            // P waves are too small to matter at a ventricular wire.
            (Chamber::Ventricle, Chamber::Atrium) => 0,
            (Chamber::Atrium, Chamber::Atrium) | (Chamber::Ventricle, Chamber::Ventricle) => match origin {
                Origin::Own => self.chance.around(signal.own_uv, signal.own_scatter_uv),
                Origin::Extra => self.heart.extra.map_or(0, |extra| extra.signal_uv),
                Origin::Paced => 0,
            },
        }
    }

    pub(crate) fn is_visible(&self, output_micro: u32) -> bool {
        output_micro >= self.heart.spikes_seen_from_micro
    }

    /// A pulse of this output reaches the wire.
    pub(crate) fn receive(&mut self, output_micro: u32, now: u64) -> (SpikeOutcome, Happening) {
        if !self.is_excitable(now) {
            return (SpikeOutcome::NotExcitable, Happening::NOTHING);
        }
        let threshold = if self.holding { self.holds_from } else { self.captures_from };
        self.holding = output_micro >= threshold;
        if !self.holding {
            return (SpikeOutcome::BelowThreshold, Happening::NOTHING);
        }
        let beat = match self.heart.wire {
            Chamber::Atrium => self.atrium_beats(Origin::Paced, now),
            Chamber::Ventricle => self.ventricle_beats(Origin::Paced, now),
        };
        (SpikeOutcome::Captured, beat)
    }

    fn is_excitable(&self, now: u64) -> bool {
        match self.heart.wire {
            Chamber::Atrium => now >= self.atrium_refractory_until && !self.is_fibrillating(),
            Chamber::Ventricle => now >= self.ventricle_refractory_until,
        }
    }
}
