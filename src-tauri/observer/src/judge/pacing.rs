//! Spikes, and the beats they make.

use simulator::Chamber;

use super::{AT_ONCE_US, CONDUCTED_US, Judge, TOO_CLOSE_US};
use crate::strip::Look;

impl Judge<'_> {
    pub fn spikes_with_a_beat(&self) -> usize {
        self.spikes(true)
    }

    pub fn spikes_without_a_beat(&self) -> usize {
        self.spikes(false)
    }

    /// Spikes that could have made a beat, and did or did not.
    fn spikes(&self, made: bool) -> usize {
        let seen = self.strip.spikes(self.from_us).take_while(|at| self.is_seen(*at));
        seen.filter(|at| self.makes_a_beat(*at) == made && !self.falls_close_behind_a_beat(*at)).count()
    }

    pub fn any_spike(&self) -> bool {
        self.strip.spikes(self.from_us).next().is_some()
    }

    /// In either chamber.
    fn makes_a_beat(&self, spike: u64) -> bool {
        [Chamber::Ventricle, Chamber::Atrium].into_iter().any(|chamber| {
            let mut soon =
                self.strip.beats(chamber, spike).iter().take_while(|(at, _)| *at <= spike + AT_ONCE_US);
            soon.any(|(_, look)| *look == Look::Paced)
        })
    }

    fn falls_close_behind_a_beat(&self, spike: u64) -> bool {
        let before = spike.saturating_sub(TOO_CLOSE_US);
        let mut until = self.strip.beats(self.wire, before).iter().take_while(|(at, _)| *at <= spike);
        until.any(|(at, look)| *at < spike || *look != Look::Paced)
    }

    /// Own beats once pacing has begun.
    pub fn own_among_paced(&self) -> bool {
        let first = self.strip.spikes(self.from_us).next();
        first.is_some_and(|first| self.own().any(|at| at > first + AT_ONCE_US))
    }

    /// Own beats and no spike at all, for longer than a few set intervals.
    pub fn only_own_for_long(&self) -> bool {
        let long = self.now_us - self.from_us > 4 * self.set_interval_us;
        long && !self.any_spike() && self.any(Look::Own)
    }

    /// A paced P wave with no QRS behind it.
    pub fn paced_p_without_qrs(&self) -> bool {
        let next_qrs = |at| self.strip.beats(Chamber::Ventricle, at).first();
        self.strip
            .beats(Chamber::Atrium, self.from_us)
            .iter()
            .filter(|(at, look)| *look == Look::Paced && at + CONDUCTED_US <= self.now_us)
            .any(|(at, _)| next_qrs(*at).is_none_or(|(beat, _)| *beat > at + CONDUCTED_US))
    }

    /// Longer than the set interval with neither a spike nor a beat of the wire's chamber.
    pub fn pause(&self) -> bool {
        let long = self.set_interval_us * 6 / 5;
        let beats = |from_us| self.strip.beats(self.wire, from_us).iter().map(|(at, _)| *at);
        let any_within =
            |from, until| self.spike_within(from, until) || beats(from).next().is_some_and(|at| at <= until);
        let mut all = self.strip.spikes(self.from_us).chain(beats(self.from_us));
        all.any(|at| at + long < self.now_us && !any_within(at + 1, at + long))
    }
}
