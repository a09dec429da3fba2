//! Own beats, and the marks the generator gives them.

use simulator::Chamber;

use super::{AT_ONCE_US, Judge, SEEN_US, TOGETHER_US, TOO_CLOSE_US, WITH_QRS_US};
use crate::strip::Look;

impl Judge<'_> {
    /// Own beats that can be judged: no spike so close before them or their mark that the generator looks away.
    fn judged(&self) -> Vec<u64> {
        let spikes = self.strip.spikes(self.from_us.saturating_sub(TOO_CLOSE_US));
        let until_mark = if self.wire == Chamber::Atrium { self.mark_within_us() } else { TOGETHER_US };
        let close =
            |at: u64| spikes.iter().any(|spike| *spike <= at + until_mark && at < spike + TOO_CLOSE_US);
        let late = self.mark_within_us() + SEEN_US;
        self.own().into_iter().filter(|at| at + late <= self.now_us && !close(*at)).collect()
    }

    pub fn own_not_marked(&self) -> usize {
        self.judged().iter().filter(|at| !self.is_marked(**at)).count()
    }

    /// A beat that was seen holds the next spike for the set interval: a spike sooner than that tells of a miss.
    pub fn spikes_too_soon(&self) -> usize {
        let own = self.own();
        let spikes = self.strip.spikes(self.from_us.saturating_sub(TOO_CLOSE_US));
        let soon = self.set_interval_us.saturating_sub(AT_ONCE_US);
        let in_refractory = |beat: u64| {
            let since = beat.saturating_sub(TOO_CLOSE_US);
            spikes.iter().any(|spike| (since..beat).contains(spike))
                || self.strip.marked_within(since, beat - 1)
        };
        let missed = |spike: &u64| {
            let last = own.iter().rfind(|beat| **beat + AT_ONCE_US < *spike);
            last.is_some_and(|beat| spike - beat < soon && !in_refractory(*beat))
        };
        spikes.iter().filter(|spike| **spike > self.from_us).filter(|spike| missed(spike)).count()
    }

    /// The first miss is followed by a spike: until then nobody can say whether it makes a beat.
    pub fn miss_is_complete(&self) -> bool {
        const PATIENCE_US: u64 = 1_500_000;
        let missed = self.judged().into_iter().find(|at| !self.is_marked(*at));
        missed.is_none_or(|beat| {
            let later = self.strip.spikes(beat).iter().any(|spike| self.is_seen(*spike));
            later || self.now_us - beat > PATIENCE_US
        })
    }

    pub fn own_marked(&self) -> usize {
        self.judged().iter().filter(|at| self.is_marked(**at)).count()
    }

    fn is_marked(&self, beat: u64) -> bool {
        self.strip.marked_within(beat, beat + self.mark_within_us())
    }

    fn mark_within_us(&self) -> u64 {
        match self.wire {
            Chamber::Atrium => WITH_QRS_US,
            Chamber::Ventricle => AT_ONCE_US,
        }
    }

    pub fn extra_not_marked(&self) -> bool {
        self.beats()
            .iter()
            .filter(|(at, look)| *look == Look::Extra && at + SEEN_US <= self.now_us)
            .any(|(at, _)| !self.is_marked(*at))
    }

    /// A spike the set interval after an own beat that was marked, with no beat between: not a miss.
    pub fn spike_after_a_pause(&self) -> bool {
        let beats = self.beats();
        let waited = self.set_interval_us.saturating_sub(AT_ONCE_US);
        self.strip.spikes(self.from_us).iter().any(|spike| {
            let last = beats.iter().rev().find(|(at, _)| at < spike);
            last.is_some_and(|(at, look)| *look == Look::Own && spike - at >= waited && self.is_marked(*at))
        })
    }
}
