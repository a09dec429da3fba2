//! Heart and generator joined by a wire, running in time.

use crate::event::{Event, Mark, MarkKind, What};
use crate::fault::Fault;
use crate::generator::{Dials, Generator, Power, Sense, Timer};
use crate::heart::Heart;
use crate::living::{Happening, Living};
use crate::truth::Truth;

/// A simulated patient on a simulated generator. Time starts at 0 and moves only by [`Patient::run`].
#[derive(Clone, Debug)]
pub struct Patient {
    now_us: u64,
    heart: Living,
    timer: Timer,
}

impl Patient {
    /// # Errors
    /// The first thing that makes the heart or the generator impossible.
    pub fn new(heart: Heart, generator: Generator, seed: u64) -> Result<Self, Fault> {
        heart.validate()?;
        let timer = Timer::new(generator, 0)?;
        Ok(Patient { now_us: 0, heart: Living::new(heart, generator.pulse_width_us, seed, 0), timer })
    }

    /// The dials are turned now.
    ///
    /// # Errors
    /// The first dial that stands where none can; all three then stay as they were.
    pub fn set(&mut self, dials: Dials) -> Result<(), Fault> {
        self.timer.turn(dials, self.now_us)
    }

    /// The battery runs low, the generator is switched off, or on again.
    pub fn switch(&mut self, power: Power) {
        self.timer.switch(power, self.now_us);
    }

    /// Whether the generator's battery sign is lit.
    pub fn power(&self) -> Power {
        self.timer.settings().power
    }

    /// The heart changes now: a drug, a lead, a rhythm that stops or comes back.
    ///
    /// # Errors
    /// The first thing that makes the new heart impossible; the old one then beats on.
    pub fn change_heart(&mut self, heart: Heart) -> Result<(), Fault> {
        heart.validate()?;
        let pulse_width_us = self.timer.settings().pulse_width_us;
        self.heart.become_heart(heart, pulse_width_us, self.now_us);
        Ok(())
    }

    /// An external shock now, and the heart as it is afterwards: it ends fibrillation.
    ///
    /// # Errors
    /// The first thing that makes the new heart impossible; the old one then beats on, or fibrillates.
    pub fn shock(&mut self, heart: Heart) -> Result<(), Fault> {
        heart.validate()?;
        let pulse_width_us = self.timer.settings().pulse_width_us;
        self.heart.be_shocked(heart, pulse_width_us, self.now_us);
        Ok(())
    }

    pub fn now_us(&self) -> u64 {
        self.now_us
    }

    pub fn heart(&self) -> &Heart {
        self.heart.heart()
    }

    pub fn dials(&self) -> Dials {
        self.timer.settings().dials
    }

    /// What a perfect check would find, from the heart's numbers alone.
    pub fn truth(&self) -> Truth {
        Truth::of(self.heart(), self.timer.settings().pulse_width_us)
    }

    /// Everything of the next `us` microseconds, in order of time, the last instant included.
    pub fn run(&mut self, us: u64) -> Vec<Event> {
        let mut events = Vec::new();
        self.run_into(us, |event| events.push(event));
        events
    }

    /// As [`Patient::run`], without a list. At one instant the heart comes before the generator:
    /// a beat that arrives just as the interval ends is sensed, and holds the pulse.
    pub fn run_into(&mut self, us: u64, mut tell: impl FnMut(Event)) {
        let end = self.now_us.saturating_add(us);
        loop {
            let (beat_at, due) = self.heart.next();
            let spike_at = self.timer.next_spike_us();
            if beat_at.min(spike_at) > end || beat_at.min(spike_at) == u64::MAX {
                break;
            }
            if beat_at <= spike_at {
                self.now_us = beat_at;
                let happening = self.heart.fire(due, beat_at);
                self.pass_on(happening, &mut tell);
            } else {
                self.now_us = spike_at;
                self.pace(&mut tell);
            }
        }
        self.now_us = end;
    }

    fn pass_on(&mut self, happening: Happening, tell: &mut impl FnMut(Event)) {
        let at_us = self.now_us;
        if let Some(what) = happening.what {
            tell(Event { at_us, what });
        }
        let kind = match self.timer.sense(happening.at_wire_uv, at_us) {
            Some(Sense::Restarted) => MarkKind::Sense,
            Some(Sense::Refractory) => MarkKind::RefractorySense,
            None => return,
        };
        tell(self.mark(kind));
    }

    fn pace(&mut self, tell: &mut impl FnMut(Event)) {
        let at_us = self.now_us;
        let output = self.timer.spike(at_us);
        let (outcome, beat) = self.heart.receive(output, at_us);
        let visible = self.heart.is_visible(output, at_us);
        tell(Event { at_us, what: What::Spike { visible, outcome } });
        tell(self.mark(MarkKind::Pace));
        if let Some(what) = beat.what {
            tell(Event { at_us, what });
        }
    }

    fn mark(&self, kind: MarkKind) -> Event {
        let port = self.timer.settings().port;
        Event { at_us: self.now_us, what: What::Mark(Mark { port, kind }) }
    }
}
