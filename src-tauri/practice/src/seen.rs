//! A run played again for the judge: everything that happened, with every turn and word of the learner.

use domain::check::answer::Answer;
use domain::check::facts::{Dial, Dials};
use domain::check::step::Step;
use domain::practice::{Act, Entry, Happened, Judged, Reason, Said, Verdict};
use domain::profile::Position;
use simulator::{Chamber, Event, Heart, Origin, SpikeOutcome, Truth, What};

use crate::exercise::{Exercise, simulated};
use crate::fault::Fault;
use crate::run::Run;

/// Nobody practises longer at a stretch.
const LONGEST_US: u64 = 4 * 3_600_000_000;

/// Presses of one dial in one direction closer than this are one turn (M): a key moves it by one position.
const ONE_TURN_US: u64 = 2_400_000;
/// What came so shortly before the last of several presses was not yet seen (M).
const SEEN_AFTER_US: u64 = 1_500_000;

/// A dial turned by the learner, by one press or several.
#[derive(Clone, Copy, Debug)]
pub struct Turn {
    /// Of the first press, and of the last. Whoever was soon to begin was soon.
    pub began_us: u64,
    pub at_us: u64,
    pub dial: Dial,
    pub from: Position,
    pub to: Position,
    pub before: Dials,
    pub after: Dials,
}

pub struct Seen<'a> {
    pub exercise: &'a Exercise,
    pub seed: u64,
    pub events: Vec<Event>,
    pub turns: Vec<Turn>,
    pub answers: Vec<(u64, Step, Answer)>,
    pub said: Option<(u64, Said)>,
    pub happened: Vec<(u64, Happened)>,
    pub ended_us: u64,
    /// From when on each heart beat, and each setting stood.
    hearts: Vec<(u64, Heart)>,
    stood: Vec<(u64, Dials)>,
}

impl Turn {
    /// To a higher position; asynchronous counts above every number.
    pub fn is_up(&self) -> bool {
        self.to > self.from
    }

    pub fn is_down_of(&self, dial: Dial) -> bool {
        self.dial == dial && self.to < self.from
    }

    /// How long after this instant it was begun.
    pub fn after_us(&self, at_us: u64) -> u64 {
        self.began_us.saturating_sub(at_us)
    }

    /// Goes on turning what was being turned.
    fn is_gone_on_by(&self, press: &Turn) -> bool {
        let same_way = self.dial == press.dial && self.is_up() == press.is_up();
        same_way && self.to == press.from && press.at_us - self.at_us < ONE_TURN_US
    }

    /// Its last press is no answer to what came then.
    pub fn was_under_way(&self, at_us: u64) -> bool {
        self.began_us < at_us && self.at_us < at_us + SEEN_AFTER_US
    }

    pub fn is_up_of(&self, dial: Dial) -> bool {
        self.dial == dial && self.is_up()
    }
}

impl<'a> Seen<'a> {
    /// # Errors
    /// An entry names a position that is not there, or goes back in time.
    pub fn replay(exercise: &'a Exercise, seed: u64, entries: &[Entry]) -> Result<Seen<'a>, Fault> {
        let mut run = Run::new(exercise, seed)?;
        let mut seen = Seen {
            exercise,
            seed,
            events: Vec::new(),
            turns: Vec::new(),
            answers: Vec::new(),
            said: None,
            happened: Vec::new(),
            ended_us: 0,
            hearts: vec![(0, run.heart().clone())],
            stood: vec![(0, run.dials())],
        };
        let mut last_us = 0;
        for entry in entries {
            let at_us = entry.at_us();
            if at_us < last_us || at_us > LONGEST_US {
                return Err(Fault::Time { at_us });
            }
            last_us = at_us;
            seen.live(&mut run, at_us)?;
            seen.take(&mut run, *entry)?;
        }
        seen.happened = run.happened().to_vec();
        seen.ended_us = run.now_us();
        Ok(seen)
    }

    fn live(&mut self, run: &mut Run, until_us: u64) -> Result<(), Fault> {
        while run.now_us() < until_us {
            let from_us = run.now_us();
            run.next_batch()?;
            self.events.extend_from_slice(run.events());
            self.note(run, from_us);
        }
        Ok(())
    }

    fn note(&mut self, run: &Run, at_us: u64) {
        if self.hearts.last().is_none_or(|(_, heart)| heart != run.heart()) {
            self.hearts.push((at_us, run.heart().clone()));
        }
        if self.stood.last().is_none_or(|(_, dials)| *dials != run.dials()) {
            self.stood.push((at_us, run.dials()));
        }
    }

    fn take(&mut self, run: &mut Run, entry: Entry) -> Result<(), Fault> {
        match entry {
            Entry::Turned { dial, to, .. } => {
                let (at_us, before) = (run.now_us(), run.dials());
                run.turn(dial, to)?;
                let (from, after) = (before.at(dial), run.dials());
                self.press(Turn { began_us: at_us, at_us, dial, from, to, before, after });
                self.note(run, at_us);
            }
            Entry::Answered { step, answer, .. } => self.answers.push((run.now_us(), step, answer)),
            Entry::Said { said, .. } => self.said = Some((run.now_us(), said)),
            Entry::Paused { .. } | Entry::Ended { .. } => {}
        }
        Ok(())
    }

    /// Another turn, or one more press of the last one: not where an answer lies between.
    fn press(&mut self, press: Turn) {
        let answered_us = self.answers.last().map(|(at, ..)| *at);
        match self.turns.last_mut() {
            Some(turn) if turn.is_gone_on_by(&press) && answered_us.is_none_or(|at| at < turn.at_us) => {
                *turn = Turn { began_us: turn.began_us, from: turn.from, before: turn.before, ..press };
            }
            _ => self.turns.push(press),
        }
    }

    pub fn judged(&self, act: Act, verdict: Verdict, at_us: u64) -> Judged {
        Judged { act, verdict, at_us, dials: self.dials_at(at_us), reason: None }
    }

    /// As [`Seen::judged`]; what is late, by how long it came after this.
    pub fn judged_after(&self, act: Act, verdict: Verdict, turn: &Turn, met_us: u64) -> Judged {
        let judged = self.judged(act, verdict, turn.at_us);
        if verdict == Verdict::Late { judged.because(Reason::after(turn.after_us(met_us))) } else { judged }
    }

    pub fn dials_at(&self, at_us: u64) -> Dials {
        let last = self.stood.iter().rfind(|(from, _)| *from <= at_us);
        last.map_or(self.exercise.found, |(_, dials)| *dials)
    }

    pub fn dials_at_end(&self) -> Dials {
        self.stood.last().map_or(self.exercise.found, |(_, dials)| *dials)
    }

    pub fn stood_at(&self, dial: Dial, at: Position) -> bool {
        self.stood.iter().any(|(_, dials)| dials.at(dial) == at)
    }

    pub fn first_heart(&self) -> Heart {
        self.exercise.heart(self.seed)
    }

    pub fn heart_at(&self, at_us: u64) -> Heart {
        let last = self.hearts.iter().rfind(|(from, _)| *from <= at_us);
        last.map_or_else(|| self.first_heart(), |(_, heart)| heart.clone())
    }

    pub fn truth_at(&self, at_us: u64) -> Truth {
        let heart = self.heart_at(at_us);
        let so_far = self.hearts.iter().filter(|(from, _)| *from <= at_us);
        let since = so_far.rev().take_while(|(_, before)| before.signal == heart.signal).last();
        let drifting_us = at_us - since.map_or(0, |(from, _)| *from);
        Truth::drifted(&heart, self.exercise.profile.pulse_width_us, drifting_us)
    }

    /// When the learner said what was found; the end where nothing was said.
    pub fn said_us(&self) -> u64 {
        self.said.map_or(self.ended_us, |(at, _)| at)
    }

    /// Of the chamber the wire stands on.
    pub fn wire_beats(&self) -> impl DoubleEndedIterator<Item = (u64, Origin)> + '_ {
        self.beats(self.first_heart().wire)
    }

    pub fn beats(&self, wanted: Chamber) -> impl DoubleEndedIterator<Item = (u64, Origin)> + '_ {
        self.events.iter().filter_map(move |event| match event.what {
            What::Beat { chamber, origin } if chamber == wanted => Some((event.at_us, origin)),
            What::Beat { .. }
            | What::Spike { .. }
            | What::Mark(_)
            | What::Pulse { .. }
            | What::NoPulse
            | What::VentricularFibrillation => None,
        })
    }

    pub fn spikes(&self) -> impl DoubleEndedIterator<Item = (u64, SpikeOutcome)> + '_ {
        self.events.iter().filter_map(|event| match event.what {
            What::Spike { outcome, .. } => Some((event.at_us, outcome)),
            What::Beat { .. }
            | What::Mark(_)
            | What::Pulse { .. }
            | What::NoPulse
            | What::VentricularFibrillation => None,
        })
    }

    /// The first turn at or after this instant, but for one that was under way and ended before anybody saw it.
    pub fn next_turn(&self, at_us: u64) -> Option<&Turn> {
        self.turns.iter().find(|turn| turn.at_us >= at_us && !turn.was_under_way(at_us))
    }

    /// The generator paces faster than the heart's own beats come; also where it has none.
    pub fn paces_faster_than_own(&self, dials: Dials, at_us: u64) -> bool {
        self.truth_at(at_us).own.is_none_or(|own| self.set_interval_us(dials) < own.fastest_us)
    }

    /// Slower than the slowest own beat: the heart leads.
    pub fn own_leads(&self, dials: Dials, at_us: u64) -> bool {
        self.truth_at(at_us).own.is_some_and(|own| self.set_interval_us(dials) > own.slowest_us)
    }

    pub fn set_interval_us(&self, dials: Dials) -> u64 {
        u64::from(simulator::interval_us(simulated(&self.exercise.profile, dials).rate_per_min))
    }
}
