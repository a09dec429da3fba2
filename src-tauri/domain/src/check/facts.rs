//! What the guards read: one small `Facts`, and nothing else. Names, texts and history live beside it.

use serde::{Deserialize, Serialize};

use super::answer::Line;
use super::step::Step;
use crate::profile::Position;

/// No position: nothing proved, nothing seen, nothing found.
pub const NONE: Position = u8::MAX;
/// The sensitivity dial or switch stands at asynchronous. Counts above every number.
pub const ASYNCHRONOUS: Position = u8::MAX - 1;

/// The three dials of one wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Dial {
    Output,
    Rate,
    Mv,
}

/// Where the three dials stand. `mv` may be `ASYNCHRONOUS`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Dials {
    pub output: Position,
    pub rate: Position,
    pub mv: Position,
}

impl Dials {
    pub const UNREAD: Dials = Dials { output: NONE, rate: NONE, mv: NONE };

    #[inline]
    pub fn at(self, dial: Dial) -> Position {
        match dial {
            Dial::Output => self.output,
            Dial::Rate => self.rate,
            Dial::Mv => self.mv,
        }
    }

    #[inline]
    pub fn with(mut self, dial: Dial, to: Position) -> Dials {
        match dial {
            Dial::Output => self.output = to,
            Dial::Rate => self.rate = to,
            Dial::Mv => self.mv = to,
        }
        self
    }
}

/// The dials that may stand elsewhere than said, as bits; one more where mV may stand at asynchronous.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Doubt(u8);

impl Doubt {
    pub const NONE: Doubt = Doubt(0);
    pub const ALL: Doubt = Doubt(0b1111);
    const ASYNCHRONOUS: u8 = 0b1000;

    fn bit(dial: Dial) -> u8 {
        match dial {
            Dial::Output => 1,
            Dial::Rate => 1 << 1,
            Dial::Mv => 1 << 2,
        }
    }

    #[inline]
    pub fn has(self, dial: Dial) -> bool {
        self.0 & Doubt::bit(dial) != 0
    }

    #[inline]
    #[must_use]
    pub fn and(self, dial: Dial) -> Doubt {
        Doubt(self.0 | Doubt::bit(dial))
    }

    #[inline]
    #[must_use]
    pub fn less(self, dial: Dial) -> Doubt {
        let asynchronous = if dial == Dial::Mv { Doubt::ASYNCHRONOUS } else { 0 };
        Doubt(self.0 & !(Doubt::bit(dial) | asynchronous))
    }

    #[must_use]
    pub fn and_asynchronous(self) -> Doubt {
        Doubt(self.0 | Doubt::ASYNCHRONOUS)
    }

    #[inline]
    pub fn maybe_asynchronous(self) -> bool {
        self.0 & Doubt::ASYNCHRONOUS != 0
    }
}

/// How far one card has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Phase {
    /// The dial may still stand at the old position or already at the new one.
    Turning,
    /// It stands; the time of the watch is running.
    Watching,
    /// The watch has passed: the good answer is open.
    Open,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Known {
    Unknown,
    No,
    Yes,
}

/// The heart's own rhythm, as this check has shown it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Own {
    NotLooked,
    /// Every ventricular beat the heart's own, held, at or above the limit, tolerated.
    Shown,
    /// Paced down to the limit, below it, or not held.
    NotSeen,
    /// Shown, then a pause, a shock or no beats made it worthless.
    Cleared,
}

/// What the first look said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum FirstLook {
    NotLooked,
    EveryBeatPaced,
    OnlyOwn,
    Both,
    SpikesWithoutBeats,
    NoBeats,
}

/// Why the generator is, or is to be left, asynchronous.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Asynchronous {
    No,
    OrderedToday,
    SetForPauses,
    SetInEmergency,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum AtrialRhythm {
    NotAsked,
    PWaves,
    FibrillationOrFlutter,
    NoPWaves,
}

/// What kind of figure a test ended with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Found {
    /// Not tested, or not yet.
    Nothing,
    /// The threshold itself.
    Exact,
    /// Sensing: seen to the last number, or time was up.
    AtLeast,
    /// Capture: held at the lowest position.
    AtMost,
    /// Capture: between `capture_low` (lost) and `capture_at` (held).
    Bracket,
    /// Sensing: the number was not raised; every beat was marked where it stood.
    SeenWhereItStood,
    /// Sensing: no number saw every beat.
    SeenAtNone,
}

/// Why a test was not done. Each is a sentence on the screen, none is a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Why {
    /// Still to come, or done.
    None,
    OrderedAsynchronous,
    Pauses,
    NoOwnBeats,
    OwnBelowLimit,
    OwnNotHeld,
    NotTolerated,
    DidNotSee,
    AtrialFibrillation,
    NoPWaves,
    OwnTooSlowForDial,
    OwnTooFast,
    OwnTooOld,
    NumberNotSeen,
    FoundDoesNotCapture,
    NoCaptureAtMaximum,
    BlockFromRate,
    WrongChamber,
    OwnAmongSpikes,
    Stopped,
    NoBeats,
    Shock,
    Fibrillation,
    Away,
    SpikeWithoutBeat,
    Elsewhere,
    /// The dial has no position for the rate the test needs.
    NoSuchRate,
}

/// A row of the restore table: what was going on when the person stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Row {
    NothingTurned,
    OwnRhythm,
    /// Spikes fell through own beats.
    Blind,
    SensingOutputUp,
    SensingMinimum,
    AfterNoBeats,
    CaptureOwnFaster,
    CaptureFoundFaster,
    CaptureAfterLoss,
    Margin,
    Set,
    FirstLookMaximum,
    AfterShock,
}

/// Facts for flags: each one line in the result.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Marks(pub u16);

impl Marks {
    pub const DID_NOT_SEE_AS_FOUND: Marks = Marks(1);
    pub const EXTRA_BEAT_UNMARKED: Marks = Marks(1 << 1);
    pub const BLOCK_FROM_RATE: Marks = Marks(1 << 2);
    pub const WRONG_CHAMBER: Marks = Marks(1 << 3);
    pub const FOUND_DID_NOT_CAPTURE: Marks = Marks(1 << 4);
    pub const NO_BEATS: Marks = Marks(1 << 5);
    pub const SHOCK: Marks = Marks(1 << 6);
    pub const NOT_TOLERATED: Marks = Marks(1 << 7);
    pub const FOUND_ASYNCHRONOUS: Marks = Marks(1 << 8);
    pub const PAUSES: Marks = Marks(1 << 9);
    pub const AWAY: Marks = Marks(1 << 10);
    pub const SLIP: Marks = Marks(1 << 11);
    pub const SPIKE_AT_MINIMUM_MADE_A_BEAT: Marks = Marks(1 << 12);
    pub const IRREGULAR: Marks = Marks(1 << 13);
    pub const STILL_BLIND: Marks = Marks(1 << 14);
    pub const EMERGENCY: Marks = Marks(1 << 15);

    #[must_use]
    pub fn and(self, other: Marks) -> Marks {
        Marks(self.0 | other.0)
    }

    pub fn has(self, other: Marks) -> bool {
        self.0 & other.0 != 0
    }
}

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
