//! Spikes, and the beats they make.

use simulator::Chamber;

use super::{AT_ONCE_US, CONDUCTED_US, Judge, TOO_CLOSE_US};
use crate::strip::{InTurn, Look};

impl Judge<'_> {
    pub fn spikes_with_a_beat(&self) -> usize {
        self.spikes(true)
    }

    pub fn spikes_without_a_beat(&self) -> usize {
        self.spikes(false)
    }

    /// Spikes that could have made a beat, and did or did not.
    fn spikes(&self, made: bool) -> usize {
        if !self.any_spike() {
            return 0;
        }
        let paced = |chamber| {
            let beats = self.strip.beats(chamber, self.from_us).iter();
            InTurn::new(beats.filter(|(_, look)| *look == Look::Paced).map(|(at, _)| *at))
        };
        let (mut ventricle, mut atrium) = (paced(Chamber::Ventricle), paced(Chamber::Atrium));
        let mut makes_a_beat = |spike: u64| {
            let until = spike + AT_ONCE_US;
            ventricle.any_within(spike, until) || atrium.any_within(spike, until)
        };
        let near = self.strip.beats(self.wire, self.from_us.saturating_sub(TOO_CLOSE_US)).iter();
        let mut before = InTurn::new(near.clone().map(|(at, _)| *at));
        let mut not_its_own = InTurn::new(near.filter(|(_, look)| *look != Look::Paced).map(|(at, _)| *at));
        let mut falls_close_behind_a_beat = |spike: u64| {
            let close = before.any_within(spike.saturating_sub(TOO_CLOSE_US), spike.saturating_sub(1));
            close || not_its_own.any_within(spike, spike)
        };
        let seen = self.strip.spikes(self.from_us).take_while(|at| self.is_seen(*at));
        seen.filter(|at| makes_a_beat(*at) == made && !falls_close_behind_a_beat(*at)).count()
    }

    pub fn any_spike(&self) -> bool {
        self.strip.spikes(self.from_us).next().is_some()
    }

    /// Own beats once pacing has begun.
    pub fn own_among_paced(&self) -> bool {
        let first = self.strip.spikes(self.from_us).next();
        first.is_some_and(|first| self.own().next_back().is_some_and(|at| at > first + AT_ONCE_US))
    }

    /// Own beats and no spike at all, for longer than a few set intervals.
    pub fn only_own_for_long(&self) -> bool {
        let long = self.now_us - self.from_us > 4 * self.set_interval_us;
        long && !self.any_spike() && self.any(Look::Own)
    }

    /// A paced P wave with no QRS behind it.
    pub fn paced_p_without_qrs(&self) -> bool {
        let qrs = self.strip.beats(Chamber::Ventricle, self.from_us).iter();
        let mut qrs = InTurn::new(qrs.map(|(at, _)| *at));
        self.strip
            .beats(Chamber::Atrium, self.from_us)
            .iter()
            .filter(|(at, look)| *look == Look::Paced && at + CONDUCTED_US <= self.now_us)
            .any(|(at, _)| !qrs.any_within(*at, at + CONDUCTED_US))
    }

    /// Longer than the set interval with neither a spike nor a beat of the wire's chamber.
    pub fn pause(&self) -> bool {
        self.pause_behind(self.strip.spikes(self.from_us)) || self.pause_behind(self.wire_beats())
    }

    fn pause_behind(&self, sights: impl Iterator<Item = u64>) -> bool {
        let long = self.set_interval_us * 6 / 5;
        let mut spikes = InTurn::new(self.strip.spikes(self.from_us));
        let mut beats = InTurn::new(self.wire_beats());
        let mut any_within = |from, until| spikes.any_within(from, until) || beats.any_within(from, until);
        sights.take_while(|at| at + long < self.now_us).any(|at| !any_within(at + 1, at + long))
    }

    fn wire_beats(&self) -> impl Iterator<Item = u64> {
        self.strip.beats(self.wire, self.from_us).iter().map(|(at, _)| *at)
    }
}
