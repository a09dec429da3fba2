//! The figures under the strip, as a monitor counts them.

use std::collections::VecDeque;

use simulator::{Event, What};

/// As many intervals as the rate is averaged over; after so long without a pulse there is none.
const INTERVALS: usize = 4;
const SILENT_US: u64 = 4_000_000;
const MINUTE_US: u64 = 60_000_000;

#[derive(Clone, Debug, Default)]
pub struct Pulses {
    at_us: VecDeque<u64>,
    mmhg: u16,
}

impl Pulses {
    pub fn see(&mut self, event: Event) {
        let What::Pulse { systolic_mmhg } = event.what else { return };
        self.mmhg = systolic_mmhg;
        self.at_us.push_back(event.at_us);
        if self.at_us.len() > INTERVALS + 1 {
            self.at_us.pop_front();
        }
    }

    /// `None`: fewer than two pulses, or none for four seconds.
    pub fn per_min(&self, now_us: u64) -> Option<u16> {
        let (first, last) = (*self.at_us.front()?, *self.at_us.back()?);
        let intervals = u64::try_from(self.at_us.len()).ok()?.checked_sub(1).filter(|n| *n > 0)?;
        let mean_us = (last - first) / intervals;
        let silent = now_us.saturating_sub(last) > SILENT_US;
        let rate = MINUTE_US.checked_div(mean_us).filter(|_| !silent)?;
        u16::try_from(rate).ok()
    }

    pub fn systolic_mmhg(&self, now_us: u64) -> Option<u16> {
        let last = *self.at_us.back()?;
        (now_us.saturating_sub(last) <= SILENT_US).then_some(self.mmhg)
    }
}
