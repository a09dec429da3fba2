//! Which scripted act is due on the card in front.

use std::collections::VecDeque;

use domain::contract::Shape;
use domain::say::Say;
use observer::Card;

use super::kebab;
use crate::scenario::{Act, On, Scripted};

/// Acts in their order: one waits for the one before it.
#[derive(Clone, Debug, Default)]
pub struct Script {
    /// How many have happened.
    done: usize,
    waiting: VecDeque<Scripted>,
    /// When a card came that fits the first of them, ms of this boot.
    since_ms: Option<i64>,
}

impl Script {
    pub fn new(scripted: &[Scripted]) -> Script {
        Script { done: 0, waiting: scripted.iter().cloned().collect(), since_ms: None }
    }

    /// The place in the script of the first act that has not happened.
    pub fn waits_at(&self) -> Option<usize> {
        (!self.waiting.is_empty()).then_some(self.done)
    }

    pub fn due(&mut self, card: Card<'_>, now_ms: i64) -> Option<Act> {
        let first = self.waiting.front()?;
        if !fits(&first.on, card) {
            return None;
        }
        let since = *self.since_ms.get_or_insert(now_ms);
        // A tap needs the time a person needs for it.
        let after_ms = i64::from(first.on.after_s) * 1000 + HAND_MS;
        if now_ms < since + after_ms {
            return None;
        }
        self.since_ms = None;
        self.done += 1;
        self.waiting.pop_front().map(|scripted| scripted.act)
    }
}

/// Past the time within which a tap counts as the second half of a double tap.
const HAND_MS: i64 = 400;

fn fits(on: &On, card: Card<'_>) -> bool {
    let stage =
        on.stage.as_ref().is_none_or(|stage| *stage == kebab(card.stage().trim_start_matches("Stage")));
    let asks = on.asks.as_ref().is_none_or(|asks| *asks == kebab(card.asks().name()));
    let figure = on.figure.as_ref().is_none_or(|figure| figure_of(card) == Some(figure.as_str()));
    let offers = on.offers.as_ref().is_none_or(|key| card.has(key));
    let notice = || card.view.notice.as_ref().map(|said| kebab(said.name()));
    let says = on.says.as_ref().is_none_or(|says| notice().as_ref() == Some(says));
    stage && asks && figure && offers && says
}

fn figure_of(card: Card<'_>) -> Option<&str> {
    let Shape::Turn(turn) = &card.view.shape else { return None };
    let Say::Figure { text } = &turn.figure else { return None };
    Some(text)
}
