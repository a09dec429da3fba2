//! What a look makes of what the monitor shows.

use std::collections::VecDeque;

use crate::strip::{Look, Sight};
use crate::weakness::{Mistake, Weakness};

/// A QRS so soon behind a spike may be taken for its beat.
const LIKE_ITS_BEAT_US: u64 = 60_000;

#[derive(Clone, Debug)]
pub struct Eyes {
    pub weakness: Weakness,
    /// The last spike that made no beat.
    lone_spike: Option<u64>,
}

impl Eyes {
    pub fn new(weakness: Weakness) -> Eyes {
        Eyes { weakness, lone_spike: None }
    }

    /// What is taken in of a sight, before those that wait; `None`: nothing.
    pub fn makes_of(&mut self, at_us: u64, sight: Sight, next: &VecDeque<(u64, Sight)>) -> Option<Sight> {
        match sight {
            Sight::Spike if !makes_a_beat(at_us, next) => {
                let overlooked = self.weakness.makes(Mistake::Overlooked, at_us);
                self.lone_spike = (!overlooked).then_some(at_us);
                (!overlooked).then_some(sight)
            }
            Sight::Beat(chamber, Look::Own) if self.is_behind_a_lone_spike(at_us) => {
                let misread = self.weakness.makes(Mistake::Misread, at_us);
                Some(Sight::Beat(chamber, if misread { Look::Paced } else { Look::Own }))
            }
            Sight::Spike | Sight::Beat(..) | Sight::SenseMark | Sight::Pulse(_) => Some(sight),
        }
    }

    fn is_behind_a_lone_spike(&self, at_us: u64) -> bool {
        self.lone_spike.is_some_and(|spike| at_us <= spike + LIKE_ITS_BEAT_US)
    }
}

/// It is shown with its spike.
fn makes_a_beat(spike_us: u64, next: &VecDeque<(u64, Sight)>) -> bool {
    let soon = next.iter().take_while(|(at, _)| *at <= spike_us + LIKE_ITS_BEAT_US);
    soon.into_iter().any(|(_, sight)| matches!(sight, Sight::Beat(_, Look::Paced)))
}
