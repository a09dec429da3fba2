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

/// The last minutes: each kind of sight by itself, oldest first.
#[derive(Clone, Debug, Default)]
pub struct Strip {
    spikes: Track<()>,
    atrial: Track<Look>,
    ventricular: Track<Look>,
    sense_marks: Track<()>,
    /// Systolic, mmHg; 0 is no pulse.
    pulses: Track<u16>,
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
        while self.waiting.front().is_some_and(|(at, _)| at + self.late_us <= now_us)
            && let Some((at_us, sight)) = self.waiting.pop_front()
        {
            let seen = match &mut self.eyes {
                Some(eyes) => eyes.makes_of(at_us, sight, &self.waiting),
                None => Some(sight),
            };
            seen.into_iter().for_each(|sight| self.take_in(at_us, sight));
        }
        let from_us = now_us.saturating_sub(KEPT_US);
        self.spikes.forget_until(from_us);
        self.atrial.forget_until(from_us);
        self.ventricular.forget_until(from_us);
        self.sense_marks.forget_until(from_us);
        self.pulses.forget_until(from_us);
    }

    fn take_in(&mut self, at_us: u64, sight: Sight) {
        match sight {
            Sight::Spike => self.spikes.add(at_us, ()),
            Sight::Beat(Chamber::Atrium, look) => self.atrial.add(at_us, look),
            Sight::Beat(Chamber::Ventricle, look) => self.ventricular.add(at_us, look),
            Sight::SenseMark => self.sense_marks.add(at_us, ()),
            Sight::Pulse(mmhg) => self.pulses.add(at_us, mmhg),
        }
    }

    pub fn spikes(&self, from_us: u64) -> impl DoubleEndedIterator<Item = u64> + '_ {
        self.spikes.since(from_us).iter().map(|(at, ())| *at)
    }

    /// Instants and looks of one chamber's beats.
    pub fn beats(&self, chamber: Chamber, from_us: u64) -> &[(u64, Look)] {
        match chamber {
            Chamber::Atrium => self.atrial.since(from_us),
            Chamber::Ventricle => self.ventricular.since(from_us),
        }
    }

    pub fn sense_marks(&self, from_us: u64) -> impl Iterator<Item = u64> {
        self.sense_marks.since(from_us).iter().map(|(at, ())| *at)
    }

    /// A sense mark between the two instants, both included.
    pub fn marked_within(&self, from_us: u64, until_us: u64) -> bool {
        self.sense_marks.since(from_us).first().is_some_and(|(at, ())| *at <= until_us)
    }

    /// Instants and systolic pressures.
    pub fn pulses(&self, from_us: u64) -> &[(u64, u16)] {
        self.pulses.since(from_us)
    }
}

/// Sights of one kind, oldest first.
#[derive(Clone, Debug)]
struct Track<T> {
    sights: Vec<(u64, T)>,
    /// What came before is forgotten.
    from_us: u64,
}

impl<T> Default for Track<T> {
    fn default() -> Track<T> {
        Track { sights: Vec::new(), from_us: 0 }
    }
}

impl<T> Track<T> {
    fn add(&mut self, at_us: u64, sight: T) {
        self.sights.push((at_us, sight));
    }

    /// Thrown out by the half, so that what stays is seldom moved.
    fn forget_until(&mut self, from_us: u64) {
        self.from_us = from_us;
        if self.sights.get(self.sights.len() / 2).is_some_and(|(at, _)| *at < from_us) {
            self.sights.drain(..self.sights.len() / 2);
        }
    }

    /// Looked for from the newest back: nearly all that is asked for is of the last seconds.
    fn since(&self, from_us: u64) -> &[(u64, T)] {
        let from_us = from_us.max(self.from_us);
        let is_since = |place: usize| self.sights.get(place).is_some_and(|(at, _)| *at >= from_us);
        let (mut known, mut step) = (self.sights.len(), 4);
        while known >= step && is_since(known - step) {
            known -= step;
            step *= 2;
        }
        let from = known.saturating_sub(step);
        let place = from + self.sights[from..known].partition_point(|(at, _)| *at < from_us);
        &self.sights[place..]
    }
}

fn look(origin: Origin) -> Look {
    match origin {
        Origin::Own => Look::Own,
        Origin::Extra => Look::Extra,
        Origin::Paced => Look::Paced,
    }
}
