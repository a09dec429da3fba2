//! What each answer proves or disproves. Conservative: a later miss outweighs an earlier success.

use super::facts::{
    ASYNCHRONOUS, Asynchronous, Dial, Dials, Doubt, Facts, FirstLook, Found, Known, Marks, NONE, Own, Phase,
    Turned, Why,
};
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
        if at <= self.back_to.output {
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
        if self.back_to.output <= at {
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
        if self.back_to.mv != ASYNCHRONOUS && at >= self.back_to.mv {
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
        if self.back_to.mv != ASYNCHRONOUS && self.back_to.mv >= at {
            self.found_sees = Known::No;
        }
        if self.sensing != Found::Nothing && self.sensing_at != NONE && self.sensing_at >= at {
            self.sensing = Found::Nothing;
            self.sensing_at = NONE;
            self.why_sensing = Why::DidNotSee;
        }
    }

    /// Pauses at a number: it sees too much. Where asynchronous was left for it, asynchronous again.
    #[must_use]
    pub fn paused(mut self) -> Facts {
        self.marks = self.marks.and(Marks::PAUSES);
        if self.back_to.mv == ASYNCHRONOUS && self.fallback_mv != NONE {
            self.asynchronous = Asynchronous::SetForPauses;
        }
        self
    }

    /// After trouble somebody has looked at the patient: older losses and successes say nothing of now.
    pub fn looked_at_anew(mut self) -> Facts {
        self.lost = NONE;
        self.proved = NONE;
        self.loss_open = false;
        self
    }

    /// What this check has shown of capture is worth nothing any more.
    pub fn forget_capture(&mut self, why: Why) {
        self.proved = NONE;
        self.found_captures = Known::Unknown;
        self.held_down = NONE;
        self.capture = Found::Nothing;
        self.capture_at = NONE;
        self.capture_low = NONE;
        self.why_capture = why;
    }

    /// The own rhythm this check has shown is worth nothing any more.
    pub fn clear_own(&mut self) {
        if self.own == Own::Shown {
            self.own = Own::Cleared;
        }
    }

    /// The upper end of the bracket is where it held, not where the threshold lies.
    pub fn is_wide_bracket(&self) -> bool {
        self.capture == Found::Bracket && self.capture_at > self.capture_low.saturating_add(1)
    }

    /// Own beats were seen, whether or not they were measured.
    pub fn own_was_seen(&self) -> bool {
        let at_first = matches!(self.first_look, FirstLook::OnlyOwn | FirstLook::Both);
        at_first || self.first_own_asked || self.missed != NONE
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
    #[inline]
    pub fn settled(mut self) -> Facts {
        if self.to != NONE {
            if self.asks_elsewhere() {
                self.turned = self.turned.and(self.dial);
            }
            self.stand = self.stand.with(self.dial, self.to);
            self.doubt = self.doubt.less(self.dial);
            self.to = NONE;
        }
        self
    }

    /// The card asks its dial to where it does not, or may not, stand.
    fn asks_elsewhere(&self) -> bool {
        self.to != NONE && (self.stand.at(self.dial) != self.to || self.doubt.has(self.dial))
    }

    /// Something broke in: a dial that was said to stand stands, one that may be turning is in doubt. RATE
    /// then counts as the faster of its two places: above the own beats.
    #[inline]
    pub fn broken_off(mut self) -> Facts {
        if self.to == NONE || self.phase != Phase::Turning {
            return self.settled();
        }
        let from = self.stand.at(self.dial);
        if from != self.to {
            self.doubt = self.doubt.and(self.dial);
        }
        self.turned = self.may_have_turned();
        if self.dial == Dial::Mv && from.max(self.to) == ASYNCHRONOUS {
            self.doubt = self.doubt.and_asynchronous();
        }
        if self.dial == Dial::Rate {
            self.stand.rate = from.max(self.to);
        }
        self.to = NONE;
        self
    }

    /// The dials turned so far, with the one that this card asks for. OUTPUT counts once it was said to stand: where
    /// it was not, what was seen to capture may have been seen at another place than believed.
    pub fn may_have_turned(&self) -> Turned {
        let said = self.dial != Dial::Output || self.phase != Phase::Turning;
        if self.asks_elsewhere() && said { self.turned.and(self.dial) } else { self.turned }
    }

    /// The three dials as read.
    #[inline]
    pub fn standing(self, dials: Dials) -> Facts {
        let touched = self.touched || dials != self.back_to;
        let turned = self.may_have_turned();
        Facts { stand: dials, doubt: Doubt::NONE, to: NONE, phase: Phase::Open, touched, turned, ..self }
    }

    /// The dials as read are the settings to go back to from now on.
    pub fn going_back_to(self, dials: Dials) -> Facts {
        let mut next = self.standing(dials);
        next.back_to = dials;
        next.turned = Turned::NONE;
        next.fallback_mv = NONE;
        next.emergency_output = NONE;
        next.emergency_rate = NONE;
        next.asynchronous = Asynchronous::No;
        next.found_captures = next.output_known(dials.output);
        next.found_sees = next.number_known(dials.mv);
        next
    }

    fn output_known(&self, output: Position) -> Known {
        match (self.lost, self.proved) {
            (lost, _) if lost != NONE && output <= lost => Known::No,
            (_, proved) if proved != NONE && output >= proved => Known::Yes,
            _ => Known::Unknown,
        }
    }

    fn number_known(&self, number: Position) -> Known {
        match (self.missed, self.saw) {
            _ if number == ASYNCHRONOUS => Known::Unknown,
            (missed, _) if missed != NONE && number >= missed => Known::No,
            (_, saw) if saw != NONE && number <= saw => Known::Yes,
            _ => Known::Unknown,
        }
    }

    /// The own rhythm is faster than the rate the dials were found at.
    pub fn own_faster_than(&self, per_minute: u16) -> bool {
        u16::from(self.own_fastest) > per_minute
    }

    #[inline]
    pub fn stands_asynchronous(&self) -> bool {
        self.current(Dial::Mv) == ASYNCHRONOUS
    }
}
