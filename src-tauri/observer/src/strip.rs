//! What the monitor and the generator show: beats, spikes, pulses, marks. Not what is behind them: whether a
//! spike captured is seen by the beat that follows it.

use std::collections::VecDeque;

use simulator::{Chamber, Event, MarkKind, Origin, What};

use crate::eyes::Eyes;
use crate::weakness::{Mistake, Weakness};

/// How a beat looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    Own,
    /// Early, and unlike the others.
    Extra,
    /// Straight after a spike.
    Paced,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sight {
    Spike,
    Beat(Chamber, Look),
    SenseMark,
    /// Systolic, mmHg; 0 is no pulse.
    Pulse(u16),
}

/// The last minutes, oldest first.
#[derive(Clone, Debug, Default)]
pub struct Strip {
    sights: VecDeque<(u64, Sight)>,
    /// Not taken in yet, in order of time.
    waiting: VecDeque<(u64, Sight)>,
    late_us: u64,
    /// `None`: misses nothing.
    eyes: Option<Eyes>,
}

/// A wide complex and the top of its pulse are over.
const LATE_US: u64 = 400_000;
/// A monitor holds no more.
const KEPT_US: u64 = 120_000_000;

impl Strip {
    pub fn add(&mut self, event: Event) {
        let sight = match event.what {
            What::Beat { chamber, origin } => Sight::Beat(chamber, look(origin)),
            What::Spike { visible: true, .. } => Sight::Spike,
            What::Mark(mark) if mark.kind != MarkKind::Pace => Sight::SenseMark,
            What::Pulse { systolic_mmhg } => Sight::Pulse(systolic_mmhg),
            What::NoPulse => Sight::Pulse(0),
            // Seen by the beats and pulses that stay away.
            What::VentricularFibrillation => return,
            What::Spike { visible: false, .. } | What::Mark(_) => return,
        };
        self.see(event.at_us, sight);
    }

    /// Everything is taken in late.
    pub fn late() -> Strip {
        Strip { late_us: LATE_US, ..Strip::default() }
    }

    pub fn late_us(&self) -> u64 {
        self.late_us
    }

    /// What is shown is not always seen.
    pub fn tire(&mut self, weakness: Weakness) {
        self.eyes = Some(Eyes::new(weakness));
    }

    pub fn mistakes(&self) -> &[(u64, Mistake)] {
        self.eyes.as_ref().map_or(&[], |eyes| &eyes.weakness.made)
    }

    pub fn see(&mut self, at_us: u64, sight: Sight) {
        let place = self.waiting.partition_point(|(at, _)| *at <= at_us);
        self.waiting.insert(place, (at_us, sight));
    }

    pub fn show_until(&mut self, now_us: u64) {
        let shown = self.waiting.partition_point(|(at, _)| at + self.late_us <= now_us);
        if let Some(eyes) = &mut self.eyes {
            eyes.look(&mut self.waiting, shown, &mut self.sights);
        }
        let left = if self.eyes.is_some() { 0 } else { shown };
        self.sights.extend(self.waiting.drain(..left));
        while self.sights.front().is_some_and(|(at, _)| at + KEPT_US < now_us) {
            self.sights.pop_front();
        }
    }

    pub fn spikes(&self, from_us: u64) -> Vec<u64> {
        self.since(from_us).filter(|(_, sight)| *sight == Sight::Spike).map(|(at, _)| at).collect()
    }

    /// Instants and looks of one chamber's beats.
    pub fn beats(&self, chamber: Chamber, from_us: u64) -> Vec<(u64, Look)> {
        self.since(from_us)
            .filter_map(|(at, sight)| match sight {
                Sight::Beat(of, look) if of == chamber => Some((at, look)),
                Sight::Beat(..) | Sight::Spike | Sight::SenseMark | Sight::Pulse(_) => None,
            })
            .collect()
    }

    /// A sense mark between the two instants, both included.
    pub fn marked_within(&self, from_us: u64, until_us: u64) -> bool {
        self.since(from_us).take_while(|(at, _)| *at <= until_us).any(|(_, sight)| sight == Sight::SenseMark)
    }

    /// Systolic pressures, mmHg, the newest last.
    pub fn pulses(&self, from_us: u64) -> Vec<u16> {
        self.since(from_us)
            .filter_map(|(_, sight)| match sight {
                Sight::Pulse(mmhg) => Some(mmhg),
                Sight::Beat(..) | Sight::Spike | Sight::SenseMark => None,
            })
            .collect()
    }

    /// Oldest first.
    pub fn since(&self, from_us: u64) -> impl Iterator<Item = (u64, Sight)> + '_ {
        let first = self.sights.partition_point(|(at, _)| *at < from_us);
        self.sights.range(first..).copied()
    }
}

fn look(origin: Origin) -> Look {
    match origin {
        Origin::Own => Look::Own,
        Origin::Extra => Look::Extra,
        Origin::Paced => Look::Paced,
    }
}
