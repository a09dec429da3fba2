//! What the guards read: one small `Facts`, and nothing else. Names, texts and history live beside it.

mod classes;
mod dials;

pub use classes::{Asynchronous, AtrialRhythm, FirstLook, Found, Known, Marks, Own, Phase, Row, Why};
pub use dials::{Dial, Dials, Doubt, Turned};

use serde::{Deserialize, Serialize};

use super::answer::Line;
use super::step::Step;
use crate::profile::Position;

/// No position: nothing proved, nothing seen, nothing found.
pub const NONE: Position = u8::MAX;
/// The sensitivity dial or switch stands at asynchronous. Counts above every number.
pub const ASYNCHRONOUS: Position = u8::MAX - 1;

/// Everything the next card depends on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Facts {
    pub step: Step,
    pub phase: Phase,
    /// The card before this one; under a side card (trouble, slip, away) the card it lies on.
    pub from: Step,
    /// The card before this one, kept while a side card lies on it.
    pub came_from: Step,
    /// As read before anything was turned.
    pub found: Dials,
    /// What restore goes back to: as found; after trouble, as read again.
    pub back_to: Dials,
    /// Where the dials stand as far as anybody has said.
    pub stand: Dials,
    /// Dials that may stand elsewhere: something broke in while they were turned.
    pub doubt: Doubt,
    /// Dials that a card has had turned.
    #[serde(default)]
    pub turned: Turned,
    /// The dial this card asks to turn, and where to.
    pub dial: Dial,
    pub to: Position,
    /// A dial has been asked for in this check.
    pub touched: bool,
    pub first_look: FirstLook,
    pub asynchronous: Asynchronous,
    pub atrium: AtrialRhythm,
    /// The number asynchronous was left for, or the one tried for a blind generator.
    pub fallback_mv: Position,
    /// Output and rate the emergency set, if it did.
    pub emergency_output: Position,
    pub emergency_rate: Position,
    pub own: Own,
    pub own_slowest: u8,
    pub own_fastest: u8,
    /// Own rhythm was shown more than ten minutes ago.
    pub own_old: bool,
    /// The first own beat's question has been answered.
    pub first_own_asked: bool,
    /// The first own beat came among paced ones.
    pub among_paced: bool,
    /// The found number saw every own beat.
    pub found_sees: Known,
    /// Highest number that saw every own beat in this check.
    pub saw: Position,
    /// Lowest number that missed one.
    pub missed: Position,
    /// The found output captures.
    pub found_captures: Known,
    /// Lowest output proved to capture in this check.
    pub proved: Position,
    /// Highest output at which a spike made no beat.
    pub lost: Position,
    /// A spike made no beat and not every spike has made one since.
    pub loss_open: bool,
    /// A spike made no beat where capture was sought or taken for granted.
    pub spike_lost: bool,
    pub ups: u8,
    pub minimum_captures: Known,
    pub pauses: u8,
    pub sensing: Found,
    pub sensing_at: Position,
    pub capture: Found,
    pub capture_at: Position,
    pub capture_low: Position,
    /// Last output that held going down, recorded beside the threshold.
    pub held_down: Position,
    pub why_sensing: Why,
    pub why_capture: Why,
    /// NO BEATS was answered in this check: the plan is never below restore.
    pub no_beats: bool,
    /// The plan as far as it was turned: OUTPUT, then RATE, then mV.
    pub set: u8,
    pub row: Row,
    pub elsewhere: u8,
    /// The line of the list that was not true.
    pub blocked: Option<Line>,
    pub marks: Marks,
}

impl Facts {
    pub fn new(first: Step) -> Facts {
        Facts {
            step: first,
            phase: Phase::Open,
            from: first,
            came_from: first,
            found: Dials::UNREAD,
            back_to: Dials::UNREAD,
            stand: Dials::UNREAD,
            doubt: Doubt::NONE,
            turned: Turned::NONE,
            dial: Dial::Output,
            to: NONE,
            touched: false,
            first_look: FirstLook::NotLooked,
            asynchronous: Asynchronous::No,
            atrium: AtrialRhythm::NotAsked,
            fallback_mv: NONE,
            emergency_output: NONE,
            emergency_rate: NONE,
            own: Own::NotLooked,
            own_slowest: 0,
            own_fastest: 0,
            own_old: false,
            first_own_asked: false,
            among_paced: false,
            found_sees: Known::Unknown,
            saw: NONE,
            missed: NONE,
            found_captures: Known::Unknown,
            proved: NONE,
            lost: NONE,
            loss_open: false,
            spike_lost: false,
            ups: 0,
            minimum_captures: Known::Unknown,
            pauses: 0,
            sensing: Found::Nothing,
            sensing_at: NONE,
            capture: Found::Nothing,
            capture_at: NONE,
            capture_low: NONE,
            held_down: NONE,
            why_sensing: Why::None,
            why_capture: Why::None,
            no_beats: false,
            set: 0,
            row: Row::NothingTurned,
            elsewhere: 0,
            blocked: None,
            marks: Marks(0),
        }
    }

    /// Where a dial stands by what has been said: the card's own dial once it was said to stand.
    #[inline]
    pub fn current(&self, dial: Dial) -> Position {
        if self.asks(dial) && self.phase != Phase::Turning { self.to } else { self.stand.at(dial) }
    }

    #[inline]
    pub fn now(&self) -> Dials {
        Dials {
            output: self.current(Dial::Output),
            rate: self.current(Dial::Rate),
            mv: self.current(Dial::Mv),
        }
    }

    /// This card asks to turn this dial.
    #[inline]
    pub fn asks(&self, dial: Dial) -> bool {
        self.to != NONE && self.dial == dial
    }

    /// The dial may stand elsewhere than `at`: it does, it is in doubt, or this card may be turning it.
    #[inline]
    pub fn may_differ(&self, dial: Dial, at: Position) -> bool {
        let turning_away = self.asks(dial) && self.phase == Phase::Turning && self.to != at;
        self.current(dial) != at || turning_away || self.in_doubt(dial)
    }

    /// Nobody has said where the dial stands since something broke in.
    #[inline]
    pub fn in_doubt(&self, dial: Dial) -> bool {
        let said = self.asks(dial) && self.phase != Phase::Turning;
        self.doubt.has(dial) && !said
    }

    /// The lowest position at which OUTPUT may stand now.
    #[inline]
    pub fn lowest_output(&self) -> Position {
        let current = self.current(Dial::Output);
        match (self.in_doubt(Dial::Output), self.asks(Dial::Output)) {
            (true, _) => 0,
            (false, true) => current.min(self.to),
            (false, false) => current,
        }
    }

    /// The highest position at which OUTPUT was last said, or asked, to stand.
    pub fn highest_output(&self) -> Position {
        let current = self.current(Dial::Output);
        if self.asks(Dial::Output) { current.max(self.to) } else { current }
    }

    /// The highest number at which mV may stand now; asynchronous counts above every number.
    #[inline]
    pub fn highest_number(&self) -> Position {
        let current = self.current(Dial::Mv);
        if self.asks(Dial::Mv) { current.max(self.to) } else { current }
    }

    /// The found settings are known.
    #[inline]
    pub fn dials_read(&self) -> bool {
        self.found != Dials::UNREAD
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn facts_stay_small_enough_to_walk() {
        assert!(size_of::<Facts>() <= 60, "{}", size_of::<Facts>());
    }
}
