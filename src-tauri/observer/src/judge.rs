//! What was seen since a dial stood, put into the answers of a card.

mod pacing;
mod rate;
mod sensing;

use simulator::Chamber;

use crate::strip::{Look, Strip};

pub use rate::{own_rate, shown_rate};

/// A beat straight after its spike.
const AT_ONCE_US: u64 = 60_000;
/// Muscle that has just beaten cannot answer a spike, nor does a generator that has just paced judge a beat.
const TOO_CLOSE_US: u64 = 300_000;
/// A spike and the beginning of a QRS so close together: nobody can tell on a trace which came first.
const TOGETHER_US: u64 = 4_000;
/// Later than this after a spike or a beat, what belongs to it has been seen.
const SEEN_US: u64 = 100_000;
/// From a P wave to the mark of the QRS it conducts: nobody tells the two marks apart by eye.
const WITH_QRS_US: u64 = 250_000;
/// A P wave is conducted within this, or blocked.
const CONDUCTED_US: u64 = 400_000;
const LOOK_BACK_US: u64 = 10_000_000;

/// The strip from one instant on, for one wire.
#[derive(Clone, Copy, Debug)]
pub struct Judge<'a> {
    pub strip: &'a Strip,
    pub wire: Chamber,
    pub from_us: u64,
    pub now_us: u64,
    pub set_interval_us: u64,
}

impl<'a> Judge<'a> {
    /// Beats of the wire's chamber; of the ventricle where an atrial wire is seen to pace that, or where
    /// there are no P waves.
    pub fn beats(&self) -> &'a [(u64, Look)] {
        let beats = self.strip.beats(self.wire, self.from_us);
        let none_for_long =
            || self.strip.beats(self.wire, self.now_us.saturating_sub(LOOK_BACK_US)).is_empty();
        if self.paces_the_ventricle() || (beats.is_empty() && none_for_long()) {
            return self.strip.beats(Chamber::Ventricle, self.from_us);
        }
        beats
    }

    pub fn own(&self) -> impl DoubleEndedIterator<Item = u64> + use<'a> {
        self.looking(Look::Own)
    }

    pub fn paced(&self) -> impl DoubleEndedIterator<Item = u64> + use<'a> {
        self.looking(Look::Paced)
    }

    pub fn any(&self, wanted: Look) -> bool {
        self.looking(wanted).next().is_some()
    }

    fn looking(&self, wanted: Look) -> impl DoubleEndedIterator<Item = u64> + use<'a> {
        self.beats().iter().filter(move |(_, look)| *look == wanted).map(|(at, _)| *at)
    }

    pub fn paces_the_ventricle(&self) -> bool {
        let ventricle = || self.strip.beats(Chamber::Ventricle, self.from_us);
        self.wire == Chamber::Atrium && ventricle().iter().any(|(_, look)| *look == Look::Paced)
    }

    /// Since the last beat with a QRS, µs; no longer than anybody would look back.
    pub fn without_qrs_us(&self) -> u64 {
        let from = self.now_us.saturating_sub(LOOK_BACK_US);
        self.now_us - self.strip.last_beat(Chamber::Ventricle).map_or(from, |at| at.max(from))
    }

    fn is_seen(&self, at_us: u64) -> bool {
        at_us + SEEN_US <= self.now_us
    }
}
