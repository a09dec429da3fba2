//! The walk's own book beside `Facts`: written from the answers and from what the cards ask, never from
//! the machine's conclusions. The properties and the second restore table read this book.

mod opened;
mod place;
mod progress;
mod seen;

use domain::check::answer::{Answer, TimeUp};
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, NONE, Phase};
use domain::check::setup::Setup;
use domain::check::step::Step;

use super::evidence::Evidence;

/// A reading became what is gone back to.
pub const AS_READ: u8 = 4;

/// Why the generator may be left asynchronous.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Blindness {
    No,
    Ordered,
    Pauses,
    Emergency,
}

/// See the module. A dial in doubt is `None`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Ledger {
    /// As read, or as read again after trouble: the settings to go back to.
    pub found: Option<Dials>,
    pub at: [Option<u8>; 3],
    /// Where each dial was last said to stand; RATE the faster of its places if something broke in.
    pub last: [u8; 3],
    /// A card has had it turned since the dials were read to go back to; RATE and mV also where it may have.
    pub turned: [bool; 3],
    /// mV is in doubt and may stand at asynchronous.
    pub maybe_asynchronous: bool,
    pub evidence: Evidence,
    pub own: Option<(u8, u8)>,
    pub own_held: bool,
    pub own_shown: bool,
    pub own_old: bool,
    /// Own beats are in the last thing that was seen.
    pub own_now: bool,
    /// Every beat was paced at the found rate.
    pub paced_at_found: bool,
    /// Own beats stayed among the spikes at the fastest RATE that a test may use.
    pub not_paced_over: bool,
    /// Paced beats were among the first that were looked at.
    pub paced_at_first: bool,
    pub asked: bool,
    pub owed: bool,
    pub loss_open: bool,
    /// A spike made no beat in the capture search.
    pub lost_in_capture: bool,
    pub minimum_made_beat: bool,
    /// The timer may run from what was no beat.
    pub marks_alone: bool,
    pub no_beats: bool,
    /// Pauses at a number that was set: it sees too much.
    pub pauses: bool,
    pub asynchronous: Blindness,
    /// The number asynchronous was left for, or the one tried for a blind generator.
    pub fallback: Option<u8>,
    pub emergency_output: Option<u8>,
    pub emergency_rate: Option<u8>,
    /// OUTPUT, RATE, mV set by the plan; or `AS_READ`.
    pub set: u8,
    pub watched: bool,
    /// Dials whose place was said after a refusal, as bits.
    pub said: u8,
}

pub fn index(dial: Dial) -> usize {
    match dial {
        Dial::Output => 0,
        Dial::Rate => 1,
        Dial::Mv => 2,
    }
}

/// The card a side card lies on; any other card is its own.
pub fn lies_on(facts: &Facts) -> Step {
    if facts.step.is_side() { facts.from } else { facts.step }
}

/// The card a side card lies on; a reading after sleep belongs to the card before it.
pub fn under(facts: &Facts) -> Step {
    match lies_on(facts) {
        Step::AwayRead if facts.step.is_side() => facts.came_from,
        Step::AwayRead => facts.from,
        other => other,
    }
}

impl Ledger {
    pub const EMPTY: Ledger = Ledger {
        found: None,
        at: [None; 3],
        last: [0; 3],
        turned: [false; 3],
        maybe_asynchronous: false,
        evidence: Evidence::NOTHING,
        own: None,
        own_held: false,
        own_shown: false,
        own_old: false,
        own_now: false,
        paced_at_found: false,
        paced_at_first: false,
        not_paced_over: false,
        asked: false,
        owed: false,
        loss_open: false,
        lost_in_capture: false,
        minimum_made_beat: false,
        marks_alone: false,
        no_beats: false,
        pauses: false,
        asynchronous: Blindness::No,
        fallback: None,
        emergency_output: None,
        emergency_rate: None,
        set: 0,
        watched: false,
        said: 0,
    };

    pub fn at(&self, dial: Dial) -> Option<u8> {
        self.at[index(dial)]
    }

    /// Lowest and highest place at which a dial may stand on this card.
    pub fn range(&self, facts: &Facts, dial: Dial) -> (u8, u8) {
        let asked = facts.asks(dial).then_some(facts.to);
        match (self.at(dial), asked) {
            (None, _) => (0, NONE),
            (Some(at), Some(to)) => (at.min(to), at.max(to)),
            (Some(at), None) => (at, at),
        }
    }

    /// The book once this card is left without an answer: RATE and mV that it asked for may have been turned, OUTPUT
    /// counts as turned only once it was said to stand.
    pub fn with_this_card(&self, card: &Facts) -> Ledger {
        let mut book = *self;
        book.leave_card(card);
        book
    }

    /// The book after `answer` to `card`, with the card that it opened.
    pub fn after(mut self, setup: &Setup<'_>, card: &Facts, answer: Answer, opened: &Facts) -> Ledger {
        if opened == card {
            return self;
        }
        self.note_time(card, answer);
        let (_, fastest) = self.range(card, Dial::Rate);
        let (_, number) = self.range(card, Dial::Mv);
        self.note_last();
        self.note_place(setup, card, answer, opened);
        self.maybe_asynchronous |= number == ASYNCHRONOUS;
        self.note_last();
        if self.at(Dial::Rate).is_none() && fastest != NONE {
            self.last[index(Dial::Rate)] = self.last[index(Dial::Rate)].max(fastest);
        }
        if lies_on(card) == Step::Restore && answer == Answer::SpikeWithoutABeat {
            self.lost_on_the_way(setup, card);
        }
        self.note_seen(setup, card, answer);
        self.note_trouble(card, answer);
        self.note_progress(setup, card, answer);
        self.note_opened(setup, opened, card, answer);
        self
    }

    fn note_time(&mut self, card: &Facts, answer: Answer) {
        match answer {
            Answer::Time(TimeUp::Watch) if card.phase == Phase::Watching && !card.step.is_side() => {
                self.watched = true;
            }
            Answer::Time(TimeUp::OwnOld) => self.own_old = true,
            _ => {}
        }
    }

    pub fn note_last(&mut self) {
        for (last, at) in self.last.iter_mut().zip(self.at) {
            *last = at.unwrap_or(*last);
        }
        self.maybe_asynchronous &= self.at(Dial::Mv).is_none();
    }
}

/// Emergency, or too long a sleep: the dials are read as they stand, nothing old is restored.
pub fn is_after_trouble(card: &Facts) -> bool {
    let before = if card.step.is_side() { card.came_from } else { card.from };
    let reads = |step| matches!(step, Step::ReadAfter | Step::ReadLower);
    reads(under(card)) || (under(card) == Step::Reason && reads(before))
}
