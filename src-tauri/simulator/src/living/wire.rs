//! Where heart and wire meet: the signal a beat leaves there, and what a pulse does there.

use super::{Happening, Living};
use crate::event::{Chamber, Origin, SpikeOutcome};
use crate::heart::Signal;

impl Living {
    /// µV. The answer to a pulse is 0: it falls into the blanking that follows every pulse.
    pub(super) fn signal_at_wire(
        &mut self,
        chamber: Chamber,
        origin: Origin,
        recorded_uv: Option<u32>,
        now: u64,
    ) -> u32 {
        let signal = self.heart.signal;
        match (self.heart.wire, chamber) {
            (Chamber::Atrium, Chamber::Ventricle) => signal.far_field_uv,
            // P waves are too small to matter at a ventricular wire.
            (Chamber::Ventricle, Chamber::Atrium) => 0,
            (Chamber::Atrium, Chamber::Atrium) | (Chamber::Ventricle, Chamber::Ventricle) => match origin {
                Origin::Own => recorded_uv.unwrap_or_else(|| self.own_signal(now)),
                Origin::Extra => self.heart.extra.map_or(0, |extra| extra.signal_uv),
                Origin::Paced => 0,
            },
        }
    }

    /// Chance, breathing and drift upon the heart's own signal.
    fn own_signal(&mut self, now: u64) -> u32 {
        let signal = self.heart.signal;
        let drawn = self.chance.around(signal.own_uv, signal.own_scatter_uv);
        let drifted = signal.drifted_uv(now - self.signal_since);
        let size = i64::from(drawn) + breathing(signal, now) + drifted;
        u32::try_from(size.max(0)).unwrap_or(u32::MAX)
    }

    pub(crate) fn is_visible(&self, output_micro: u32, now: u64) -> bool {
        self.heart.lead.conducts(now) && output_micro >= self.heart.spikes_seen_from_micro
    }

    /// A pulse of this output reaches the wire.
    pub(crate) fn receive(&mut self, output_micro: u32, now: u64) -> (SpikeOutcome, Happening) {
        if !self.heart.lead.conducts(now) {
            return (SpikeOutcome::NotDelivered, Happening::NOTHING);
        }
        if !self.is_excitable(now) {
            return (SpikeOutcome::NotExcitable, Happening::NOTHING);
        }
        let threshold = if self.holding { self.holds_from } else { self.captures_from };
        self.holding = output_micro >= self.chance.around(threshold, self.heart.capture.scatter_micro);
        if !self.holding {
            return (SpikeOutcome::BelowThreshold, Happening::NOTHING);
        }
        if self.heart.wire == Chamber::Ventricle && self.starts_fibrillation(now) {
            return (SpikeOutcome::Captured, self.fibrillate(now));
        }
        let beat = match self.heart.wire {
            Chamber::Atrium => self.atrium_beats(Origin::Paced, None, now),
            Chamber::Ventricle => self.ventricle_beats(Origin::Paced, None, now),
        };
        (SpikeOutcome::Captured, beat)
    }

    fn is_excitable(&self, now: u64) -> bool {
        match self.heart.wire {
            Chamber::Atrium => now >= self.atrium_refractory_until && !self.is_fibrillating(),
            Chamber::Ventricle => now >= self.ventricle_refractory_until && !self.ventricle_fibrillates,
        }
    }
}

/// A triangle between `-breath_uv` and `breath_uv`, at 0 when time begins.
fn breathing(signal: Signal, now: u64) -> i64 {
    let (height, period) = (i64::from(signal.breath_uv), i64::from(signal.breath_us));
    let quarter = period / 4;
    let phase = (i64_us(now) + quarter) % period;
    let from_bottom = if phase <= period / 2 { phase } else { period - phase };
    height * (from_bottom - quarter) / quarter.max(1)
}

fn i64_us(us: u64) -> i64 {
    i64::try_from(us).unwrap_or(i64::MAX)
}
