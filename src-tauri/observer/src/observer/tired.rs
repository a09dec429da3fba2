//! Hands and attention that fail: what would be done, done late, done wrong, or done without looking.

use std::borrow::Cow;

use domain::contract::{Form, Shape};
use domain::say::Say;

use super::answer::waits_for_more;
use super::{DECIDE_US, Next, Observer, READ_US};
use crate::card::{Card, Question};
use crate::dial::Dial;
use crate::weakness::{Mistake, Weakness};

/// A late tap comes so much later, µs.
const LATE_LEAST_US: u64 = 2_000_000;
const LATE_MOST_US: u64 = 8_000_000;
/// The monitor's own alarm for a ventricle that does not beat is heard even by who looks elsewhere (M).
const HEARD_US: u64 = 10_000_000;

#[derive(Clone, Debug)]
pub struct Tired {
    pub weakness: Weakness,
    /// This card is answered without a look at the monitor.
    pub away: bool,
    late: Option<Late>,
    /// Dial and position that are believed where the dials are first read, once that is drawn.
    believed: Option<Option<(Dial, String)>>,
    /// A slip that was noticed.
    take_back: bool,
}

#[derive(Clone, Debug)]
struct Late {
    card: u32,
    key: Cow<'static, str>,
    at_us: u64,
}

impl Observer {
    /// From now on these mistakes are made, so many in a thousand of the times each could be.
    pub fn tire(&mut self, kinds: &[Mistake], per_thousand: u64, seed: u64) {
        self.bedside.tire_eyes(Weakness::new(kinds, per_thousand, !seed));
        let weakness = Weakness::new(kinds, per_thousand, seed);
        self.tired = Some(Tired { weakness, away: false, late: None, believed: None, take_back: false });
    }

    /// In order of time.
    pub fn mistakes(&self) -> Vec<(u64, Mistake)> {
        let hands = self.tired.iter().flat_map(|tired| &tired.weakness.made);
        let mut made: Vec<_> = hands.chain(self.bedside.strip().mistakes()).copied().collect();
        made.sort_unstable();
        made
    }

    pub(super) fn is_away(&self) -> bool {
        self.tired.as_ref().is_some_and(|tired| tired.away)
    }

    /// Heard, not seen.
    pub(super) fn alarm_is_heard(&self, without_qrs_us: u64) -> bool {
        !self.is_away() || without_qrs_us > HEARD_US
    }

    /// Another card: is it looked away from?
    pub(super) fn perhaps_look_away(&mut self, card: Card<'_>) {
        let now_us = self.bedside.now_us();
        let watched = card.has("no-beats") && matches!(card.view.shape, Shape::Turn(_) | Shape::Ask(_));
        let can = watched && !waits_for_more(card.question()) && !is_asked(card.question());
        if let Some(tired) = &mut self.tired {
            tired.away = can && tired.weakness.makes(Mistake::LookedAway, now_us);
        }
    }

    /// The way on as soon as it is open.
    pub(super) fn answer_unseen(&self, card: Card<'_>) -> Next {
        if self.memory.answers_stand_for_us(self.bedside.now_us()) < DECIDE_US {
            return Next::Watch;
        }
        if card.has("stands") {
            return Next::tap("stands");
        }
        card.good().map_or(Next::Watch, |good| Next::tap(good.key.clone()))
    }

    /// What is done instead of what was to be done.
    pub(super) fn with_mistakes(&mut self, card: Card<'_>, next: Next) -> Next {
        let now_us = self.bedside.now_us();
        let read = now_us >= self.memory.opened_us + READ_US;
        match &mut self.tired {
            Some(tired) if read && tired.take_back && card.has("slip") => {
                tired.take_back = false;
                Next::tap("slip")
            }
            Some(tired) => tired.carry_out(card, next, now_us),
            None => next,
        }
    }

    /// Before anything was turned, one of the dials may be typed as another of its positions.
    pub(super) fn perhaps_mistype(&mut self, form: &Form<Say>) {
        if self.tired.is_none() || form.question != Say::ReadTheDials {
            return;
        }
        let believed = match self.tired.as_ref().and_then(|tired| tired.believed.clone()) {
            Some(believed) => believed,
            None => self.another_position(Mistake::MisreadDial),
        };
        self.tired.iter_mut().for_each(|tired| tired.believed = Some(believed.clone()));
        if let Some((dial, text)) = self.another_position(Mistake::Mistyped).or(believed) {
            self.type_instead(field_of(dial), &text);
        }
    }

    /// Where the mistake is made: one of the dials, and one of its positions.
    fn another_position(&mut self, mistake: Mistake) -> Option<(Dial, String)> {
        let now_us = self.bedside.now_us();
        let weakness = &mut self.tired.as_mut()?.weakness;
        if !weakness.makes(mistake, now_us) {
            return None;
        }
        let dial = *Dial::ALL.get(weakness.below(Dial::ALL.len()))?;
        let printed = self.bedside.printed_on(dial);
        let at = self.tired.as_mut()?.weakness.below(printed.len());
        Some((dial, printed.get(at)?.clone()))
    }
}

impl Tired {
    fn carry_out(&mut self, card: Card<'_>, next: Next, now_us: u64) -> Next {
        let late = self.late.take_if(|late| late.card != card.view.card || late.at_us <= now_us);
        let Next::Tap(key) = next else { return self.due(card, late).unwrap_or(next) };
        if !is_an_answer(card, &key) {
            self.late = None;
            return Next::Tap(key);
        }
        if let Some(due) = self.due(card, late) {
            return due;
        }
        if self.late.is_some() {
            return Next::Watch;
        }
        if let Some(slip) = self.slip(card, &key, now_us) {
            return Next::Tap(slip);
        }
        if self.weakness.makes(Mistake::Late, now_us) {
            let span = usize::try_from(LATE_MOST_US - LATE_LEAST_US).unwrap_or(0);
            let at_us = now_us + LATE_LEAST_US + self.weakness.below(span) as u64;
            self.late = Some(Late { card: card.view.card, key, at_us });
            return Next::Watch;
        }
        Next::Tap(key)
    }

    fn due(&self, card: Card<'_>, late: Option<Late>) -> Option<Next> {
        late.filter(|late| late.card == card.view.card && card.has(&late.key)).map(|late| Next::Tap(late.key))
    }

    fn slip(&mut self, card: Card<'_>, key: &str, now_us: u64) -> Option<Cow<'static, str>> {
        let others: Vec<&Cow<'static, str>> = card
            .view
            .answers
            .iter()
            .filter(|act| !act.with_fields && act.key != key && act.key != "stands")
            .map(|act| &act.key)
            .collect();
        if others.is_empty() || !self.weakness.makes(Mistake::Slipped, now_us) {
            return None;
        }
        self.take_back = self.weakness.below(2) == 0;
        others.get(self.weakness.below(others.len())).map(|other| (*other).clone())
    }
}

/// An answer of a card that touches a dial.
fn is_an_answer(card: Card<'_>, key: &str) -> bool {
    card.view.safety.is_some() && key != "stands" && card.view.answers.iter().any(|act| act.key == key)
}

/// Asked of the person, not of the monitor.
fn is_asked(question: Question) -> bool {
    matches!(question, Question::Pulse | Question::WhatElse | Question::Agree | Question::Type)
}

fn field_of(dial: Dial) -> &'static str {
    match dial {
        Dial::Output => "output",
        Dial::Rate => "rate",
        Dial::Mv => "mv",
    }
}
