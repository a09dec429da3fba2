//! One state of the walk: a card, the walk's own book beside it, and what a slip would go back to.

use domain::check::answer::Answer;
use domain::check::facts::{ASYNCHRONOUS, Dial, Facts, NONE, Phase};
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::check::{kept_before, slip};

use super::alphabet::Spent;
use super::fingerprint;
use super::ledger::{Ledger, index};

/// The card whose answer a slip takes back, with the book as it was there.
#[derive(Clone, Copy)]
pub struct Before {
    pub card: Facts,
    pub book: Ledger,
    /// Fingerprint of the two, once their essence is taken.
    pub key: Option<u64>,
}

#[derive(Clone, Copy)]
pub struct Node {
    pub facts: Facts,
    pub book: Ledger,
    pub before: Option<Before>,
    pub spent: Spent,
}

impl Node {
    pub fn first(step: Step) -> Node {
        Node { facts: Facts::new(step), book: Ledger::EMPTY, before: None, spent: Spent::NOTHING }
    }

    pub fn card_before(&self) -> Option<&Facts> {
        self.before.as_ref().map(|before| &before.card)
    }

    pub fn key(&self) -> u64 {
        let before = self.before.and_then(|before| before.key).unwrap_or(0);
        fingerprint::of(&(self.facts, self.book, self.spent, before))
    }

    /// The node after an answer that was taken.
    pub fn after(&self, setup: &Setup<'_>, answer: Answer, opened: Facts, spent: Spent) -> Node {
        let kept = kept_before(self.card_before().copied(), &self.facts, answer, &opened);
        let book = if self.is_taken_back(answer, &opened) {
            self.taken_back(setup, answer, &opened)
        } else {
            self.book.after(setup, &self.facts, answer, &opened)
        };
        let before = if kept.as_ref() == self.card_before() {
            self.before
        } else {
            kept.map(|card| Before { card, book: self.book, key: None })
        };
        Node { facts: opened, book, before, spent }
    }

    /// The card whose results stood before this answer: a slip brings back those of the card that opens again, which
    /// were borne out when they were announced.
    pub fn announced(&self, answer: Answer, opened: &Facts) -> &Facts {
        match &self.before {
            Some(before) if self.is_taken_back(answer, opened) => &before.card,
            _ => &self.facts,
        }
    }

    /// The slip was said, and where the dials stand now where that is asked.
    fn is_taken_back(&self, answer: Answer, opened: &Facts) -> bool {
        let told = self.facts.step == Step::Slip && matches!(answer, Answer::StandsAt(_) | Answer::Read(_));
        let slip = told || answer == Answer::Slip;
        slip && !opened.step.is_side() && self.before.is_some()
    }

    /// The book as it was before the answer taken back; the dials where they stand now; time goes on.
    fn taken_back(&self, setup: &Setup<'_>, answer: Answer, opened: &Facts) -> Ledger {
        let Some(mut before) = self.before else { return self.book };
        before.book.turned = self.turned_since(setup, &before, answer);
        if is_reading(before.card.step)
            && let Answer::Read(_) = answer
        {
            let mut book = before.book;
            book.own_old = self.book.own_old;
            return book.after(setup, &before.card, answer, opened);
        }
        let mut book = before.book;
        let mut now = self.book;
        now.note_last();
        book.note_last();
        if before.card.step == Step::Restore {
            book.leave_list(setup, &before.card);
        } else if !is_as_then(before.card.step) {
            for (then, now) in book.at.iter_mut().zip(now.at) {
                *then = then.and(now);
            }
        }
        if let Some(dial) = undone_turn(&before.card) {
            book.at[index(dial)] = None;
        }
        let number_undone = undone_turn(&before.card) == Some(Dial::Mv);
        book.maybe_asynchronous |= number_undone && before.card.to.max(before.card.stand.mv) == ASYNCHRONOUS;
        book.maybe_asynchronous |= now.maybe_asynchronous;
        book.own_old = now.own_old;
        book.watched = false;
        match answer {
            Answer::StandsAt(place) => {
                let doubtful = slip::doubtful_dial(&before.card, &self.facts);
                doubtful.into_iter().for_each(|dial| book.at[index(dial)] = Some(place));
            }
            Answer::Read(dials) => book.at = [Some(dials.output), Some(dials.rate), Some(dials.mv)],
            _ => {}
        }
        if before.card.step != Step::Restore && !is_as_then(before.card.step) {
            book.last = now.last;
        }
        book.note_last();
        let elsewhere = book.found.is_some_and(|f| book.at != [Some(f.output), Some(f.rate), Some(f.mv)]);
        book.asked |= elsewhere;
        book.owed |= book.at != before.book.at;
        book.reopened(setup, &self.facts, opened);
        book
    }
    /// What was turned meanwhile was turned, whatever is taken back.
    fn turned_since(&self, setup: &Setup<'_>, before: &Before, answer: Answer) -> [bool; 3] {
        let mut left = self.book;
        left.leave_card(&self.facts);
        left.leave_list(setup, &self.facts);
        let mut then = before.book;
        then.leave_card(&before.card);
        let output = self.facts.asks(Dial::Output) && answer == Answer::StandsAt(self.facts.to);
        let moves = self.book.at(Dial::Output) != Some(self.facts.to);
        left.turned[index(Dial::Output)] |= output && moves;
        std::array::from_fn(|dial| left.turned[dial] || then.turned[dial])
    }
}

fn is_reading(step: Step) -> bool {
    matches!(step, Step::ReadBack | Step::ReadAfter | Step::AwayRead)
}

/// Only the answer taken back said that this dial was turned.
fn undone_turn(card: &Facts) -> Option<Dial> {
    let unsaid = card.to != NONE && card.phase == Phase::Turning && card.stand.at(card.dial) != card.to;
    unsaid.then_some(card.dial)
}

/// Lists and readings: what was turned or read by the slip is not known.
fn is_as_then(step: Step) -> bool {
    use Step::*;
    is_reading(step) || matches!(step, Emergency | NoSpikes | Arrest)
}
