//! What each answer proves or disproves. Conservative: a later miss outweighs an earlier success.

use super::facts::{ASYNCHRONOUS, Dial, Facts, Found, Known, NONE, Own, Why};
use crate::profile::Position;

impl Facts {
    /// Every spike made a beat at this output.
    pub fn held_at(&mut self, at: Position) {
        if self.lost != NONE && at <= self.lost {
            self.lost = NONE;
        }
        if self.proved == NONE || at < self.proved {
            self.proved = at;
        }
        if at <= self.found.output {
            self.found_captures = Known::Yes;
        }
        self.loss_open = false;
    }

    /// A spike made no beat at this output: nothing at or below it is proved any more.
    pub fn lost_at(&mut self, at: Position) {
        if self.lost == NONE || at > self.lost {
            self.lost = at;
        }
        if self.proved != NONE && self.proved <= at {
            self.proved = NONE;
        }
        if self.found.output <= at {
            self.found_captures = Known::No;
        }
        if self.capture != Found::Nothing && self.capture_at <= at {
            self.capture = Found::Nothing;
            self.capture_at = NONE;
            self.capture_low = NONE;
            self.why_capture = Why::SpikeWithoutBeat;
        }
        self.loss_open = true;
    }

    /// Every own beat was marked at this number.
    pub fn saw_at(&mut self, at: Position) {
        let missed_here = self.missed != NONE && at >= self.missed;
        if at == ASYNCHRONOUS || missed_here {
            return;
        }
        if self.saw == NONE || at > self.saw {
            self.saw = at;
        }
        if self.found.mv != ASYNCHRONOUS && at >= self.found.mv {
            self.found_sees = Known::Yes;
        }
    }

    /// A beat was not marked at this number: nothing at or above it sees.
    pub fn missed_at(&mut self, at: Position) {
        if at == ASYNCHRONOUS {
            return;
        }
        if self.missed == NONE || at < self.missed {
            self.missed = at;
        }
        if self.saw != NONE && self.saw >= at {
            self.saw = NONE;
        }
        if self.found.mv != ASYNCHRONOUS && self.found.mv >= at {
            self.found_sees = Known::No;
        }
        if self.sensing != Found::Nothing && self.sensing_at != NONE && self.sensing_at >= at {
            self.sensing = Found::Nothing;
            self.sensing_at = NONE;
            self.why_sensing = Why::DidNotSee;
        }
    }

    /// The own rhythm this check has shown is worth nothing any more.
    pub fn clear_own(&mut self) {
        if self.own == Own::Shown {
            self.own = Own::Cleared;
        }
    }

    /// Names why the tests still to come are not done.
    pub fn not_tested(&mut self, why: Why) {
        if self.sensing == Found::Nothing && self.why_sensing == Why::None {
            self.why_sensing = why;
        }
        if self.capture == Found::Nothing && self.why_capture == Why::None {
            self.why_capture = why;
        }
    }

    /// The card was answered: its dial stands where it was asked to.
    pub fn settled(mut self) -> Facts {
        if self.to != NONE {
            self.stand = self.stand.with(self.dial, self.to);
            self.to = NONE;
        }
        self
    }

    /// The own rhythm is faster than the rate the dials were found at.
    pub fn own_faster_than(&self, per_minute: u16) -> bool {
        u16::from(self.own_fastest) > per_minute
    }

    pub fn stands_asynchronous(&self) -> bool {
        self.current(Dial::Mv) == ASYNCHRONOUS
    }
}
