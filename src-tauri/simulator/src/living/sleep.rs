//! How deep pacing has put an escape to sleep.

use crate::heart::Suppression;

const DEEPEST: u64 = 1_000_000;

/// A share of the deepest sleep, in parts per million.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Sleep {
    depth_ppm: u64,
}

impl Sleep {
    /// The faster the pacing against the escape's own interval, the deeper the sleep it leads to.
    pub(crate) fn paced(&mut self, habit: Suppression, own_us: u64, paced_us: u64) {
        let goal = DEEPEST * own_us.saturating_sub(paced_us) / own_us;
        let part = u64::from(habit.builds_over_beats);
        if goal >= self.depth_ppm {
            self.depth_ppm += (goal - self.depth_ppm) / part;
        } else {
            self.depth_ppm -= (self.depth_ppm - goal) / part;
        }
    }

    pub(crate) fn own_beat(&mut self, habit: Suppression) {
        self.depth_ppm -= self.depth_ppm / u64::from(habit.wakes_over_beats);
    }

    pub(crate) fn adds_us(self, habit: Suppression) -> u64 {
        u64::from(habit.longest_us) * self.depth_ppm / DEEPEST
    }
}
