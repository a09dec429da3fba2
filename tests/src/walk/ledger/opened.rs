//! What the opened card asks for, and what is owed from now on.

use domain::check::answer::{Answer, Gap};
use domain::check::facts::{Dial, Facts, NONE};
use domain::check::setup::Setup;
use domain::check::step::Step;

use super::{Blindness, Ledger, index, is_after_trouble};

impl Ledger {
    pub(super) fn note_opened(&mut self, setup: &Setup<'_>, opened: &Facts, card: &Facts, answer: Answer) {
        if answer == Answer::Stands {
            self.watched = false;
        }
        if answer == Answer::Woke(Gap::TooLong) && is_after_trouble(opened) {
            self.in_doubt();
        }
        if opened.step.is_side() || (answer != Answer::Slip && same_card(card, opened)) {
            return;
        }
        self.watched &= card.step.is_side();
        if opened.to != NONE {
            self.asked = true;
            self.owed |= self.at(opened.dial) != Some(opened.to);
        }
        match opened.step {
            Step::AsynchronousOff | Step::BlindMvDown => self.fallback = Some(opened.to),
            Step::SetMv if matches!(answer, Answer::OwnAmongThem | Answer::SpikeWithoutABeat) => {
                self.fallback = Some(opened.to);
                self.own_ends_asynchronous(Step::Confirm);
            }
            Step::NoBeats | Step::AfterShock | Step::CaptureMaximum => {
                self.emergency_output = Some(opened.to);
                self.lost_in_capture |= opened.step == Step::CaptureMaximum;
            }
            Step::Emergency | Step::NoSpikes => self.note_emergency(setup),
            Step::Arrest | Step::AwayRead => self.in_doubt(),
            Step::Stays => self.said = 7,
            Step::Restore => {
                // A number that stood too high: OUTPUT to maximum is the list's first line.
                if answer == Answer::ShockGiven {
                    self.emergency_output = Some(setup.profile.output_last());
                }
                self.note_restore(setup, opened);
            }
            Step::SetOutput | Step::SetRate | Step::SetMv => self.said |= 1 << index(opened.dial),
            _ => {}
        }
    }

    fn in_doubt(&mut self) {
        self.at = [None; 3];
        self.maybe_asynchronous = true;
        self.owed = true;
        self.asked = true;
    }

    fn note_restore(&mut self, setup: &Setup<'_>, opened: &Facts) {
        self.said = 7;
        let turns = !domain::check::restore::lines(setup, opened, opened.row).is_empty();
        self.owed |= turns;
        self.asked |= turns;
    }

    /// The emergency card lists three dials and asks for none of them singly.
    fn note_emergency(&mut self, setup: &Setup<'_>) {
        let own = (0..=setup.profile.rate_last())
            .find(|p| setup.profile.rate_at(*p) >= setup.rules.emergency_rate)
            .unwrap_or(setup.profile.rate_last());
        let fastest = self.found.map_or(0, |_| self.last[index(Dial::Rate)]);
        self.in_doubt();
        self.turned = [true; 3];
        self.own_now = false;
        self.set = 0;
        self.asynchronous = Blindness::Emergency;
        self.emergency_output = Some(setup.profile.output_last());
        self.emergency_rate = Some(own.max(self.found.map_or(0, |found| found.rate)).max(fastest));
    }
}

fn same_card(card: &Facts, opened: &Facts) -> bool {
    let below = if card.step.is_side() { card.from } else { card.step };
    (opened.step, opened.to, opened.row) == (below, card.to, card.row)
}
