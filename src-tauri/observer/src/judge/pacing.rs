//! Spikes, and the beats they make.

use simulator::Chamber;

use super::{AT_ONCE_US, CONDUCTED_US, Judge, TOO_CLOSE_US};
use crate::strip::Look;

impl Judge<'_> {
    /// Spikes that could have made a beat, and whether they did.
    fn spikes(&self) -> Vec<bool> {
        let paced = self.paced_anywhere();
        self.strip
            .spikes(self.from_us)
            .into_iter()
            .filter(|at| self.is_seen(*at) && !self.falls_close_behind_a_beat(*at))
            .map(|at| paced.iter().any(|beat| (at..=at + AT_ONCE_US).contains(beat)))
            .collect()
    }

    pub fn spikes_with_a_beat(&self) -> usize {
        self.spikes().iter().filter(|made| **made).count()
    }

    pub fn spikes_without_a_beat(&self) -> usize {
        self.spikes().iter().filter(|made| !**made).count()
    }

    pub fn any_spike(&self) -> bool {
        !self.strip.spikes(self.from_us).is_empty()
    }

    fn paced_anywhere(&self) -> Vec<u64> {
        [Chamber::Atrium, Chamber::Ventricle]
            .into_iter()
            .flat_map(|chamber| self.strip.beats(chamber, self.from_us))
            .filter(|(_, look)| *look == Look::Paced)
            .map(|(at, _)| at)
            .collect()
    }

    fn falls_close_behind_a_beat(&self, spike: u64) -> bool {
        let before = spike.saturating_sub(TOO_CLOSE_US);
        let other = |at, look| at < spike || (at == spike && look != Look::Paced);
        self.strip.beats(self.wire, before).iter().any(|(at, look)| other(*at, *look))
    }

    /// Own beats once pacing has begun.
    pub fn own_among_paced(&self) -> bool {
        let first = self.strip.spikes(self.from_us).first().copied();
        first.is_some_and(|first| self.own().iter().any(|at| *at > first + AT_ONCE_US))
    }

    /// Own beats and no spike at all, for longer than a few set intervals.
    pub fn only_own_for_long(&self) -> bool {
        let long = self.now_us - self.from_us > 4 * self.set_interval_us;
        long && !self.any_spike() && !self.own().is_empty()
    }

    /// A paced P wave with no QRS behind it.
    pub fn paced_p_without_qrs(&self) -> bool {
        let qrs = self.strip.beats(Chamber::Ventricle, self.from_us);
        self.strip
            .beats(Chamber::Atrium, self.from_us)
            .iter()
            .filter(|(at, look)| *look == Look::Paced && at + CONDUCTED_US <= self.now_us)
            .any(|(at, _)| !qrs.iter().any(|(beat, _)| (*at..=at + CONDUCTED_US).contains(beat)))
    }

    /// Longer than the set interval with neither a spike nor a beat of the wire's chamber.
    pub fn pause(&self) -> bool {
        let mut instants: Vec<u64> = self.strip.spikes(self.from_us);
        instants.extend(self.strip.beats(self.wire, self.from_us).iter().map(|(at, _)| *at));
        instants.sort_unstable();
        let long = self.set_interval_us * 6 / 5;
        instants.windows(2).any(|pair| pair[1] - pair[0] > long)
            || instants.last().is_some_and(|last| self.now_us - last > long)
    }
}
