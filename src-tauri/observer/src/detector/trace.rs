//! The last of one trace, counted from its first sample on.

use std::collections::VecDeque;

/// Kept behind the sample that is looked at.
const KEPT: usize = 300;

#[derive(Clone, Debug, Default)]
pub struct Trace {
    samples: VecDeque<i32>,
    gone: usize,
}

impl Trace {
    pub fn extend(&mut self, samples: &[i16]) {
        self.samples.extend(samples.iter().map(|sample| i32::from(*sample)));
    }

    pub fn len(&self) -> usize {
        self.gone + self.samples.len()
    }

    /// Before the first and after the last sample the trace is flat.
    pub fn at(&self, sample: usize) -> i32 {
        let place = sample.checked_sub(self.gone);
        place.and_then(|place| self.samples.get(place)).copied().unwrap_or_default()
    }

    /// A straight line between two samples.
    pub fn bridge(&mut self, first: usize, last: usize) {
        let (from, to) = (self.at(first), self.at(last));
        let steps = i32::try_from(last - first).unwrap_or(1);
        for (step, sample) in (1..steps).zip(first + 1..last) {
            if let Some(place) = sample.checked_sub(self.gone).and_then(|place| self.samples.get_mut(place)) {
                *place = from + (to - from) * step / steps;
            }
        }
    }

    pub fn forget_before(&mut self, sample: usize) {
        while self.gone + KEPT < sample && self.samples.pop_front().is_some() {
            self.gone += 1;
        }
    }
}
