//! Where the dials stand, by what was said of them.

use domain::check::answer::{Answer, Gap, TimeUp};
use domain::check::facts::{Dial, Facts, NONE, Phase};
use domain::check::offer::offer;
use domain::check::setup::Setup;
use domain::check::step::Step;

use super::{Ledger, index, under};

impl Ledger {
    /// An answer to the card's own question says that its dial stands as asked; anything that breaks in
    /// while it may be turning leaves it in doubt.
    pub(super) fn note_place(&mut self, setup: &Setup<'_>, card: &Facts, answer: Answer, opened: &Facts) {
        if let Answer::Read(dials) = answer {
            self.leave_card(card);
            self.at = [Some(dials.output), Some(dials.rate), Some(dials.mv)];
            self.asked |= self.found.is_some_and(|found| found != dials);
            return;
        }
        if card.step == Step::Restore && answer == Answer::AllTrue {
            for line in domain::check::restore::lines(setup, card, card.row) {
                self.at[index(line.dial)] = Some(line.to);
                self.turned[index(line.dial)] = true;
            }
            return;
        }
        let same = opened.step == under(card) && opened.to == card.to;
        if goes_on_lying(card, answer) && (same || opened.step.is_side()) {
            return;
        }
        // A spike that made no beat on a list, or a shock, breaks it off, whatever list comes then.
        let breaks_off = matches!(answer, Answer::SpikeWithoutABeat | Answer::ShockGiven);
        let same_list = opened.step == Step::Restore && !breaks_off;
        if !same_list {
            self.leave_list(setup, card);
        }
        if card.to == NONE {
            return;
        }
        if opened.step == under(card) && opened.to == card.to && opened.phase == Phase::Turning {
            return;
        }
        let below = Facts { step: under(card), ..*card };
        let own = is_own_answer(setup, &below, answer);
        let turned = own || answer == Answer::Stands || card.phase != Phase::Turning;
        let place = &mut self.at[index(card.dial)];
        let moves = *place != Some(card.to);
        if turned {
            *place = Some(card.to);
        } else if moves {
            *place = None;
        }
        self.turned[index(card.dial)] |= moves && (turned || card.dial != Dial::Output);
    }

    /// Whatever is said of it then, the card's RATE or mV may have been turned; of OUTPUT that has to be said.
    pub fn leave_card(&mut self, card: &Facts) {
        let moves = card.to != NONE && self.at[index(card.dial)] != Some(card.to);
        self.turned[index(card.dial)] |= moves && card.dial != Dial::Output;
    }
}

/// Answers that open, close or pass through a side card and say nothing of the dial.
fn goes_on_lying(card: &Facts, answer: Answer) -> bool {
    use Answer as A;
    match answer {
        A::Wrong | A::SomethingElse | A::DialElsewhere | A::Back | A::Slip => true,
        A::Yes | A::No => card.step == Step::Away,
        A::Time(TimeUp::Watch | TimeUp::OwnOld) | A::Woke(Gap::Short) => true,
        A::ExtraBeatNotMarked | A::MarkWithoutBeat => true,
        _ => false,
    }
}

fn is_own_answer(setup: &Setup<'_>, below: &Facts, answer: Answer) -> bool {
    let beats_came_first = matches!(below.step, Step::NoBeats | Step::CaptureRestore);
    let breaks_in = match answer {
        Answer::NotTolerated | Answer::NoPulse => true,
        Answer::SpikeWithoutABeat if below.step == Step::BlindRateUp => return true,
        Answer::BeatsAgain => beats_came_first,
        // Said before OUTPUT was up: it may stand where it was.
        Answer::BeatNotMarked => below.step == Step::SenseOutputOut && below.phase == Phase::Turning,
        Answer::PWithoutQrs => below.step == Step::CaptureOut && below.phase == Phase::Turning,
        Answer::Pause => matches!(below.step, Step::SenseUp | Step::SenseDown),
        _ => false,
    };
    let offer = offer(setup, below);
    let offered = offer.free.contains(&answer) || [offer.good, offer.also_good].contains(&Some(answer));
    offered && !breaks_in
}
