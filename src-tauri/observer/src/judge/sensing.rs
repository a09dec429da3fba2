//! Own beats, and the marks the generator gives them.

use simulator::Chamber;

use super::{AT_ONCE_US, Judge, SEEN_US, TOGETHER_US, TOO_CLOSE_US, WITH_QRS_US};
use crate::strip::Look;

impl Judge<'_> {
    /// Own beats with a mark or without, that can be judged: no spike so close before them or their mark that the
    /// generator looks away.
    fn judged(&self, marked: bool) -> impl Iterator<Item = u64> {
        let until_mark = if self.wire == Chamber::Atrium { self.mark_within_us() } else { TOGETHER_US };
        let close = move |at: u64| self.spike_within((at + 1).saturating_sub(TOO_CLOSE_US), at + until_mark);
        let late = self.mark_within_us() + SEEN_US;
        self.own().filter(move |at| at + late <= self.now_us && self.is_marked(*at) == marked && !close(*at))
    }

    pub fn own_not_marked(&self) -> usize {
        self.judged(false).count()
    }

    /// A beat that was seen holds the next spike for the set interval: a spike sooner than that tells of a miss.
    pub fn spikes_too_soon(&self) -> usize {
        let soon = self.set_interval_us.saturating_sub(AT_ONCE_US);
        let in_refractory = |beat: u64| {
            let since = beat.saturating_sub(TOO_CLOSE_US);
            self.spike_within(since, beat - 1) || self.strip.marked_within(since, beat - 1)
        };
        let missed = |spike: &u64| {
            let last = self.own().rfind(|beat| beat + AT_ONCE_US < *spike);
            last.is_some_and(|beat| spike - beat < soon && !in_refractory(beat))
        };
        // A spike that is not over may still make a beat, which is the graver answer.
        let seen = self.strip.spikes(self.from_us + 1).take_while(|spike| self.is_seen(*spike));
        seen.filter(missed).count()
    }

    /// The first miss is followed by a spike: until then nobody can say whether it makes a beat.
    pub fn miss_is_complete(&self) -> bool {
        const PATIENCE_US: u64 = 1_500_000;
        self.judged(false).next().is_none_or(|beat| {
            let later = self.strip.spikes(beat).any(|spike| self.is_seen(spike));
            later || self.now_us - beat > PATIENCE_US
        })
    }

    pub fn own_marked(&self) -> usize {
        self.judged(true).count()
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

    /// Sense marks with no beat beside them; an atrial wire may see the QRS too.
    pub fn marks_alone(&self) -> usize {
        let within = self.mark_within_us();
        let beside = |chamber, mark: u64| {
            let beats = self.strip.beats(chamber, mark.saturating_sub(within));
            beats.first().is_some_and(|(at, _)| *at <= mark + within)
        };
        let has_a_beat = |mark: u64| {
            beside(Chamber::Ventricle, mark) || self.wire == Chamber::Atrium && beside(Chamber::Atrium, mark)
        };
        let seen =
            self.strip.sense_marks(self.from_us).take_while(|mark| mark + within + SEEN_US <= self.now_us);
        seen.filter(|mark| !has_a_beat(*mark)).count()
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
        self.strip.spikes(self.from_us).any(|spike| {
            let last = beats.iter().rfind(|(at, _)| *at < spike);
            last.is_some_and(|(at, look)| *look == Look::Own && spike - at >= waited && self.is_marked(*at))
        })
    }
}
