//! What a person keeps in mind about the card in front of them.

use domain::say::Say;

use super::TURN_US;
use crate::card::Card;

#[derive(Clone, Debug, Default)]
pub struct Memory {
    card: u32,
    asks: Option<Say>,
    /// When the card came.
    pub opened_us: u64,
    /// What is judged began here: the dial was turned, or the card came.
    pub from_us: u64,
    /// The card's dial was turned, or the first `lines` of its list.
    pub turned: bool,
    pub lines: usize,
    pub busy_until_us: u64,
    /// The card's dial was turned back where it came from; what was seen is said next.
    pub turned_back: bool,
    /// The last dial turned on any card: beats from before met other settings.
    pub last_turned_us: u64,
    /// "It stands" was tapped: the next card watches on.
    pub stands: bool,
    /// Within one card answers only come, and none goes.
    answers: usize,
    answers_since_us: u64,
}

impl Memory {
    pub fn is_of(&self, card: Card<'_>) -> bool {
        self.asks.is_some() && self.card == card.view.card
    }

    /// Another card. After "it stands" the watch goes on from where the dial was turned.
    pub fn next(&self, card: Card<'_>, now_us: u64) -> Memory {
        let goes_on = self.stands && self.asks.as_ref() == Some(card.asks());
        let mut next = Memory {
            card: card.view.card,
            asks: Some(card.asks().clone()),
            opened_us: now_us,
            from_us: if goes_on { self.from_us } else { now_us },
            turned: goes_on && self.turned,
            last_turned_us: self.last_turned_us,
            ..Memory::default()
        };
        next.see_answers(card, now_us);
        next
    }

    pub fn see_answers(&mut self, card: Card<'_>, now_us: u64) {
        let answers = card.view.answers.len();
        if answers != self.answers {
            self.answers = answers;
            self.answers_since_us = now_us;
        }
    }

    pub fn answers_stand_for_us(&self, now_us: u64) -> u64 {
        now_us - self.answers_since_us
    }

    /// A dial was turned now; the hand is busy a while. A beat of this very instant met the dial as it was.
    pub fn turn(&mut self, now_us: u64) {
        self.turned = true;
        self.from_us = now_us + 1;
        self.last_turned_us = self.from_us;
        self.busy_until_us = now_us + TURN_US;
    }
}
