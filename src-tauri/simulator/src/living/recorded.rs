//! Own beats as they were recorded.

use super::{Living, NEVER};
use crate::event::Chamber;
use crate::heart::{AtrialRhythm, Heart};

/// Where a recording stands.
pub(super) struct SoFar {
    place: usize,
    next_us: u64,
}

impl Living {
    pub(super) fn is_recorded_ventricle(&self) -> bool {
        self.heart.wire == Chamber::Ventricle && matches!(self.heart.atrium, AtrialRhythm::Recorded(_))
    }

    /// From its beginning.
    pub(super) fn begin_recorded(&mut self, now: u64) {
        let AtrialRhythm::Recorded(recording) = &self.heart.atrium else { return };
        let first = now + recording.first_us();
        self.recorded_place = 0;
        *self.recorded_next() = first;
    }

    /// `None`: the heart that comes has another rhythm.
    pub(super) fn recorded_so_far(&mut self, coming: &Heart) -> Option<SoFar> {
        let recorded = matches!(coming.atrium, AtrialRhythm::Recorded(_));
        let same = recorded && self.heart.atrium == coming.atrium && self.heart.wire == coming.wire;
        same.then(|| SoFar { place: self.recorded_place, next_us: *self.recorded_next() })
    }

    /// A heart that changes in other things does not begin its recording anew.
    pub(super) fn go_on(&mut self, so_far: SoFar, now: u64) {
        self.recorded_place = so_far.place;
        let AtrialRhythm::Recorded(recording) = &self.heart.atrium else { return };
        let interval = recording.before_us(so_far.place);
        // Fibrillation of the ventricle takes what was to come.
        *self.recorded_next() = if so_far.next_us == NEVER { now + interval } else { so_far.next_us };
    }

    /// The beat that comes now, of a recording: what it leaves at the wire, and which comes next.
    pub(super) fn next_recorded(&mut self) -> Option<u32> {
        let AtrialRhythm::Recorded(recording) = &self.heart.atrium else { return None };
        let left = recording.signal_uv(self.recorded_place);
        self.recorded_place = recording.after(self.recorded_place);
        left
    }

    /// Of the ventricle: the next beat, one recorded interval from now.
    pub(super) fn plan_recorded(&mut self, now: u64) {
        let AtrialRhythm::Recorded(recording) = &self.heart.atrium else { return };
        self.pending.conducted = now + recording.before_us(self.recorded_place);
    }

    fn recorded_next(&mut self) -> &mut u64 {
        match self.heart.wire {
            Chamber::Atrium => &mut self.pending.sinus,
            Chamber::Ventricle => &mut self.pending.conducted,
        }
    }
}
