//! What the monitor and the generator show: beats, spikes, pulses, marks. Not what is behind them: whether a
//! spike captured is seen by the beat that follows it.

use std::collections::VecDeque;
use std::iter::Peekable;

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
    /// What came before is forgotten.
    from_us: u64,
    late_us: u64,
    /// `None`: misses nothing.
    eyes: Option<Eyes>,
}

/// Asked from one instant on to later ones.
#[derive(Debug)]
pub struct InTurn<I: Iterator<Item = u64>>(Peekable<I>);

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
        if self.late_us == 0 && self.eyes.is_none() {
            self.take_in(event.at_us, sight);
        } else {
            self.see(event.at_us, sight);
        }
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
        self.from_us = now_us.saturating_sub(KEPT_US);
    }

    fn take_in(&mut self, at_us: u64, sight: Sight) {
        let from_us = self.from_us;
        match sight {
            Sight::Spike => self.spikes.add(at_us, (), from_us),
            Sight::Beat(Chamber::Atrium, look) => self.atrial.add(at_us, look, from_us),
            Sight::Beat(Chamber::Ventricle, look) => self.ventricular.add(at_us, look, from_us),
            Sight::SenseMark => self.sense_marks.add(at_us, (), from_us),
            Sight::Pulse(mmhg) => self.pulses.add(at_us, mmhg, from_us),
        }
    }

    pub fn spikes(&self, from_us: u64) -> impl DoubleEndedIterator<Item = u64> + '_ {
        self.spikes.since(self.kept(from_us)).iter().map(|(at, ())| *at)
    }

    /// Instants and looks of one chamber's beats.
    pub fn beats(&self, chamber: Chamber, from_us: u64) -> &[(u64, Look)] {
        match chamber {
            Chamber::Atrium => self.atrial.since(self.kept(from_us)),
            Chamber::Ventricle => self.ventricular.since(self.kept(from_us)),
        }
    }

    pub fn sense_marks(&self, from_us: u64) -> impl Iterator<Item = u64> {
        self.sense_marks.since(self.kept(from_us)).iter().map(|(at, ())| *at)
    }

    /// The newest beat of one chamber.
    pub fn last_beat(&self, chamber: Chamber) -> Option<u64> {
        let newest = match chamber {
            Chamber::Atrium => self.atrial.sights.last(),
            Chamber::Ventricle => self.ventricular.sights.last(),
        };
        newest.map(|(at, _)| *at)
    }

    /// Instants and systolic pressures of the newest, no more than so many.
    pub fn newest_pulses(&self, most: usize, from_us: u64) -> &[(u64, u16)] {
        self.pulses.newest(most, self.kept(from_us))
    }

    fn kept(&self, from_us: u64) -> u64 {
        from_us.max(self.from_us)
    }
}

impl<I: Iterator<Item = u64>> InTurn<I> {
    pub fn new(instants: I) -> InTurn<I> {
        InTurn(instants.peekable())
    }

    /// One between the two, both included.
    pub fn any_within(&mut self, from_us: u64, until_us: u64) -> bool {
        while self.0.next_if(|at| *at < from_us).is_some() {}
        self.0.peek().is_some_and(|at| *at <= until_us)
    }

    /// The newest before this one, of those not passed yet.
    pub fn last_before(&mut self, until_us: u64) -> Option<u64> {
        let mut last = None;
        while let Some(at) = self.0.next_if(|at| *at < until_us) {
            last = Some(at);
        }
        last
    }
}

/// Sights of one kind, oldest first.
#[derive(Clone, Debug)]
struct Track<T> {
    sights: Vec<(u64, T)>,
}

impl<T> Default for Track<T> {
    fn default() -> Track<T> {
        Track { sights: Vec::new() }
    }
}

impl<T> Track<T> {
    /// Those before `from_us` are thrown out when there is no more room, so that what stays is seldom moved.
    fn add(&mut self, at_us: u64, sight: T, from_us: u64) {
        debug_assert!(self.sights.last().is_none_or(|(last, _)| *last <= at_us), "in order of time");
        if self.sights.len() == self.sights.capacity() {
            let forgotten = self.sights.partition_point(|(at, _)| *at < from_us);
            self.sights.drain(..forgotten);
        }
        self.sights.push((at_us, sight));
    }

    /// Looked for among the newest first: nearly all that is asked for is of the last seconds.
    fn since(&self, from_us: u64) -> &[(u64, T)] {
        const NEWEST: usize = 8;
        let newest = self.newest(NEWEST, from_us);
        if newest.len() < NEWEST {
            return newest;
        }
        let older = self.sights.len() - NEWEST;
        &self.sights[self.sights[..older].partition_point(|(at, _)| *at < from_us)..]
    }

    fn newest(&self, most: usize, from_us: u64) -> &[(u64, T)] {
        let oldest = self.sights.len().saturating_sub(most);
        let before = self.sights[oldest..].iter().rposition(|(at, _)| *at < from_us);
        &self.sights[before.map_or(oldest, |before| oldest + before + 1)..]
    }
}

fn look(origin: Origin) -> Look {
    match origin {
        Origin::Own => Look::Own,
        Origin::Extra => Look::Extra,
        Origin::Paced => Look::Paced,
    }
}
