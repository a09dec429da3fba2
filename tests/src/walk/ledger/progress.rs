//! How far the check has come: readings, the plan as turned, what is gone back to.

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts};
use domain::check::setup::Setup;
use domain::check::step::Step;

use super::super::table;
use super::{AS_READ, Blindness, Ledger, index, is_after_trouble, lies_on};

impl Ledger {
    pub(super) fn note_progress(&mut self, setup: &Setup<'_>, card: &Facts, answer: Answer) {
        use Answer as A;
        match (card.step, answer) {
            (Step::ReadFound, A::Read(dials)) => {
                self.found = Some(dials);
                self.turned = [false; 3];
            }
            (Step::ReadAfter | Step::Elsewhere, A::Read(dials))
                if is_after_trouble(card) && !self.is_lower(dials) =>
            {
                self.stays_as_read(dials);
            }
            (Step::Reason, A::ReasonAndName) if card.from == Step::Differs => self.reasoned(),
            (Step::Reason, A::ReasonAndName) if card.from == Step::ReadLower => {
                if let [Some(output), Some(rate), Some(mv)] = self.at {
                    self.stays_as_read(Dials { output, rate, mv });
                }
            }
            (Step::ReadBack, A::Read(_)) | (_, A::ReasonAndName) => self.owed = false,
            (Step::AsynchronousOrdered, A::Yes) => self.asynchronous = Blindness::Ordered,
            (Step::SetOutput, A::EverySpikeMadeABeat) => self.set = 1,
            (Step::SetRate, A::Fine) => self.set = 2,
            (Step::SetMv, A::Fine) if self.set == 2 => self.set = 3,
            (_, A::Pause | A::BeatNotMarked) if matches!(lies_on(card), Step::SetMv | Step::Confirm) => {
                self.set = if self.set == AS_READ { AS_READ } else { self.set.min(2) };
            }
            (Step::AwayRead, A::Read(dials)) => self.raised_by_others(setup, card, dials),
            _ => {}
        }
    }

    /// Of a list nobody knows which of its dials were turned.
    pub fn leave_list(&mut self, setup: &Setup<'_>, card: &Facts) {
        if lies_on(card) == Step::Restore {
            self.maybe_asynchronous |= self.at(Dial::Mv) == Some(ASYNCHRONOUS);
            for line in domain::check::restore::lines(setup, card, card.row) {
                self.at[index(line.dial)] = None;
                self.turned[index(line.dial)] = true;
                if line.dial == Dial::Rate {
                    self.last[index(Dial::Rate)] = self.last[index(Dial::Rate)].max(line.to);
                }
            }
        }
    }

    /// A card opened once more after a slip, the dials where they were said to stand.
    pub fn reopened(&mut self, setup: &Setup<'_>, slip: &Facts, opened: &Facts) {
        let (at, maybe_asynchronous) = (self.at, self.maybe_asynchronous);
        self.note_opened(setup, opened, slip, Answer::Slip);
        (self.at, self.maybe_asynchronous) = (at, maybe_asynchronous);
    }

    /// "These are the new restore settings."
    fn go_back_to(&mut self, dials: Dials) {
        self.found = Some(dials);
        self.turned = [false; 3];
        self.emergency_output = None;
        self.emergency_rate = None;
        self.asynchronous = Blindness::No;
        self.fallback = None;
        self.set = AS_READ;
        self.owed = false;
        self.said = 7;
    }

    /// Less output, a slower rate, or a number that sees less than what was gone back to before.
    fn is_lower(&self, dials: Dials) -> bool {
        let meant = self.asynchronous != Blindness::No;
        self.found.is_some_and(|before| {
            let sees_less = dials.mv > before.mv && !meant;
            dials.output < before.output || dials.rate < before.rate || sees_less
        })
    }

    /// After trouble: what the heart did before it says nothing of now.
    fn stays_as_read(&mut self, dials: Dials) {
        self.evidence.bad = None;
        self.evidence.good = None;
        self.loss_open = false;
        self.go_back_to(dials);
    }

    /// An OUTPUT that somebody has raised meanwhile is not turned down again.
    fn raised_by_others(&mut self, setup: &Setup<'_>, card: &Facts, dials: Dials) {
        if dials.output > table::target(setup, self, card).output {
            self.emergency_output = Some(dials.output);
        }
    }

    /// The dials stay as they were read, for a reason.
    fn reasoned(&mut self) {
        if let [Some(output), Some(rate), Some(mv)] = self.at {
            self.go_back_to(Dials { output, rate, mv });
        }
    }
}
