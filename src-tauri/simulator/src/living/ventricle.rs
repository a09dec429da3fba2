//! QRS complexes: conducted, escape, extra and paced, with the T wave and the pulse each leaves behind.

use super::{Happening, Living, NEVER};
use crate::event::{Chamber, Origin, What};
use crate::heart::AtrialRhythm;

impl Living {
    pub(super) fn conducted_arrives(&mut self, now: u64) -> Happening {
        if now < self.still_until {
            // A P wave under way is lost; fibrillation, and a recording, go on afterwards.
            let afterwards = self.still_until;
            let goes_on = self.is_fibrillating() || self.is_recorded_ventricle();
            self.pending.conducted = if goes_on { afterwards } else { NEVER };
            return Happening::NOTHING;
        }
        self.pending.conducted = NEVER;
        let recorded_uv = if self.is_recorded_ventricle() {
            let left = self.next_recorded();
            self.plan_recorded(now);
            left
        } else {
            None
        };
        self.ventricle_beats(Origin::Own, recorded_uv, now)
    }

    pub(super) fn escape_fires(&mut self, now: u64) -> Happening {
        if now < self.still_until {
            self.pending.escape = self.still_until;
            return Happening::NOTHING;
        }
        self.pending.escape = NEVER;
        self.ventricle_beats(Origin::Own, None, now)
    }

    /// `recorded_uv`: what this beat left at the wire in a recording.
    pub(super) fn ventricle_beats(
        &mut self,
        origin: Origin,
        recorded_uv: Option<u32>,
        now: u64,
    ) -> Happening {
        if self.ventricle_fibrillates {
            return Happening::NOTHING;
        }
        if now < self.ventricle_refractory_until {
            self.keep_own_going(now);
            return Happening::NOTHING;
        }
        self.count_own(origin, now);
        self.deepen_or_wake(origin, now);
        self.ventricle_refractory_until = now + u64::from(self.heart.refractory_us);
        self.last_ventricular = now;
        self.has_beaten = true;
        self.reset_own(origin, now);
        self.leave_traces(origin, now);
        self.perhaps_extra(Chamber::Ventricle, origin, now);
        Happening {
            what: Some(What::Beat { chamber: Chamber::Ventricle, origin }),
            at_wire_uv: self.signal_at_wire(Chamber::Ventricle, origin, recorded_uv, now),
        }
    }

    pub(super) fn t_wave_passes(&mut self) -> Happening {
        self.pending.t_wave = NEVER;
        Happening { what: None, at_wire_uv: self.heart.signal.t_wave_uv }
    }

    pub(super) fn pulse_arrives(&mut self) -> Happening {
        self.pending.pulse = NEVER;
        let what = match self.pulse_mmhg {
            0 => What::NoPulse,
            systolic_mmhg => What::Pulse { systolic_mmhg },
        };
        Happening { what: Some(what), at_wire_uv: 0 }
    }

    fn count_own(&mut self, origin: Origin, now: u64) {
        match origin {
            Origin::Own => self.own_in_a_row += 1,
            Origin::Paced => self.own_in_a_row = 0,
            Origin::Extra => {}
        }
        if let Some(standstill) = self.heart.standstill
            && self.own_in_a_row >= standstill.after_own_beats
        {
            self.own_in_a_row = 0;
            self.still_until = now + u64::from(standstill.lasts_us);
        }
    }

    fn deepen_or_wake(&mut self, origin: Origin, now: u64) {
        let Some(escape) = self.heart.escape else {
            return;
        };
        let Some(habit) = escape.suppression else {
            return;
        };
        match origin {
            Origin::Own => self.sleep.own_beat(habit),
            Origin::Paced => {
                let interval = now - self.last_ventricular;
                self.sleep.paced(habit, escape.interval_us.into(), interval);
            }
            Origin::Extra => {}
        }
    }

    /// A beat that met refractory muscle resets nothing, but its source must fire again.
    fn keep_own_going(&mut self, now: u64) {
        if self.pending.escape == NEVER {
            self.plan_escape(now);
        }
        if self.pending.conducted == NEVER {
            self.plan_fibrillation(now);
        }
    }

    fn reset_own(&mut self, origin: Origin, now: u64) {
        self.plan_escape(now);
        self.plan_fibrillation(now);
        if self.is_recorded_ventricle() {
            if origin != Origin::Own {
                self.plan_recorded(now);
            }
            return;
        }
        if let Some(conduction) = self.heart.conduction
            && conduction.retrograde
            && origin != Origin::Own
            && !self.is_fibrillating()
        {
            self.pending.conducted = NEVER;
            self.reset_sinus(now, conduction.delay_us);
        }
    }

    fn plan_escape(&mut self, now: u64) {
        let Some(escape) = self.heart.escape else {
            return;
        };
        let interval = self.chance.around(escape.interval_us, escape.scatter_us);
        let slept = escape.suppression.map_or(0, |habit| self.sleep.adds_us(habit));
        self.pending.escape = now + u64::from(interval) + slept;
    }

    fn plan_fibrillation(&mut self, now: u64) {
        if let AtrialRhythm::Fibrillating { fastest_us, slowest_us, .. } = self.heart.atrium
            && self.heart.conduction.is_some()
        {
            let span = u64::from(slowest_us - fastest_us) + 1;
            self.pending.conducted = now + u64::from(fastest_us) + self.chance.below(span);
        }
    }

    fn leave_traces(&mut self, origin: Origin, now: u64) {
        let pressure = self.heart.pressure;
        self.pulse_mmhg = match origin {
            Origin::Own => pressure.own_mmhg,
            Origin::Extra => pressure.extra_mmhg,
            Origin::Paced => pressure.paced_mmhg,
        };
        self.pending.pulse = now + u64::from(pressure.delay_us);
        if self.heart.wire == Chamber::Ventricle {
            self.pending.t_wave = now + u64::from(self.heart.signal.t_wave_delay_us);
        }
    }
}
