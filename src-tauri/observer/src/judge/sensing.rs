//! Own beats, and the marks the generator gives them.

use simulator::Chamber;

use super::{AT_ONCE_US, Judge, SEEN_US, TOGETHER_US, TOO_CLOSE_US, WITH_QRS_US};
use crate::strip::{InTurn, Look};

impl Judge<'_> {
    /// Own beats with a mark or without, that can be judged: no spike so close before them or their mark that the
    /// generator looks away.
    fn judged(&self, marked: bool) -> impl Iterator<Item = u64> {
        let within = self.mark_within_us();
        let until_mark = if self.wire == Chamber::Atrium { within } else { TOGETHER_US };
        let late = within + SEEN_US;
        let mut marks = InTurn::new(self.strip.sense_marks(self.from_us));
        let mut spikes = InTurn::new(self.strip.spikes((self.from_us + 1).saturating_sub(TOO_CLOSE_US)));
        self.own().take_while(move |at| at + late <= self.now_us).filter(move |at| {
            let close = spikes.any_within((at + 1).saturating_sub(TOO_CLOSE_US), at + until_mark);
            marks.any_within(*at, at + within) == marked && !close
        })
    }

    pub fn own_not_marked(&self) -> usize {
        self.judged(false).count()
    }

    /// A beat that was seen holds the next spike for the set interval: a spike sooner than that tells of a miss.
    pub fn spikes_too_soon(&self) -> usize {
        if !self.any_spike() {
            return 0;
        }
        let soon = self.set_interval_us.saturating_sub(AT_ONCE_US);
        let since = self.from_us.saturating_sub(TOO_CLOSE_US);
        let mut spikes = InTurn::new(self.strip.spikes(since));
        let mut marks = InTurn::new(self.strip.sense_marks(since));
        let mut in_refractory = |beat: u64| {
            let since = beat.saturating_sub(TOO_CLOSE_US);
            spikes.any_within(since, beat - 1) || marks.any_within(since, beat - 1)
        };
        let (mut own, mut last) = (InTurn::new(self.own()), None);
        let missed = |spike: &u64| {
            last = own.last_before(spike.saturating_sub(AT_ONCE_US)).or(last);
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

    /// Whether a beat is marked; each asked for is later than the one before.
    fn marked_in_turn(&self) -> impl FnMut(u64) -> bool {
        let within = self.mark_within_us();
        let mut marks = InTurn::new(self.strip.sense_marks(self.from_us));
        move |beat| marks.any_within(beat, beat + within)
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
        let of = |chamber| {
            let beats = self.strip.beats(chamber, self.from_us.saturating_sub(within)).iter();
            InTurn::new(beats.map(|(at, _)| *at))
        };
        let (mut qrs, mut p_waves) = (of(Chamber::Ventricle), of(Chamber::Atrium));
        let mut has_a_beat = |mark: u64| {
            let (from, until) = (mark.saturating_sub(within), mark + within);
            qrs.any_within(from, until) || self.wire == Chamber::Atrium && p_waves.any_within(from, until)
        };
        let seen =
            self.strip.sense_marks(self.from_us).take_while(|mark| mark + within + SEEN_US <= self.now_us);
        seen.filter(|mark| !has_a_beat(*mark)).count()
    }

    pub fn extra_not_marked(&self) -> bool {
        let mut is_marked = self.marked_in_turn();
        self.beats()
            .iter()
            .filter(|(at, look)| *look == Look::Extra && at + SEEN_US <= self.now_us)
            .any(|(at, _)| !is_marked(*at))
    }

    /// A spike the set interval after an own beat that was marked, with no beat between: not a miss.
    pub fn spike_after_a_pause(&self) -> bool {
        if !self.any_spike() {
            return false;
        }
        let mut beats = self.beats().iter().peekable();
        let waited = self.set_interval_us.saturating_sub(AT_ONCE_US);
        let mut is_marked = self.marked_in_turn();
        let mut last = None;
        self.strip.spikes(self.from_us).any(|spike| {
            while let Some(beat) = beats.next_if(|(at, _)| *at < spike) {
                last = Some(*beat);
            }
            last.is_some_and(|(at, look)| look == Look::Own && spike - at >= waited && is_marked(at))
        })
    }
}
