//! From card to card: read, turn, watch, answer.

mod alarm;
mod answer;
mod list;
mod memory;
mod tired;
mod typing;

use std::borrow::Cow;
use std::collections::BTreeMap;

use domain::contract::{Sent, Shape, View};
use domain::say::Say;

use crate::bedside::Bedside;
use crate::card::{Card, Question};
use crate::dial::Dial;
use crate::judge::Judge;
use crate::puzzled::Puzzled;
pub use alarm::Trouble;
use memory::Memory;
use tired::Tired;

/// What a person does next.
#[derive(Clone, Debug, PartialEq)]
pub enum Deed {
    /// Taps a button.
    Tap {
        key: Cow<'static, str>,
        sent: Sent,
    },
    Wait {
        ms: i64,
    },
    /// Help is there and takes over: this person answers no more.
    HandOver,
}

/// Reading a card, turning a dial, making up one's mind.
const READ_US: u64 = 1_000_000;
const TURN_US: u64 = 1_000_000;
const DECIDE_US: u64 = 400_000;
const GLANCE_MS: i64 = 200;

/// A person at the bedside.
#[derive(Clone, Debug)]
pub struct Observer {
    pub bedside: Bedside,
    memory: Memory,
    trouble: Option<Trouble>,
    low_pressure_said: bool,
    extra_beat_said: bool,
    marks_alone_said: bool,
    emergencies: u32,
    times_without_beats: u32,
    /// Where asynchronous is found: somebody has ordered it today.
    pub knows_of_an_order: bool,
    /// In the last 24 hours.
    pub knows_of_a_shock: bool,
    /// Between two looks at the monitor.
    pub glance_ms: i64,
    typed_instead: BTreeMap<String, String>,
    /// `None`: makes no mistakes.
    tired: Option<Tired>,
}

enum Next {
    Tap(Cow<'static, str>),
    Watch,
    HandOver,
}

impl Next {
    fn tap(key: impl Into<Cow<'static, str>>) -> Next {
        Next::Tap(key.into())
    }
}

impl Observer {
    pub fn new(bedside: Bedside) -> Observer {
        Observer {
            bedside,
            memory: Memory::default(),
            trouble: None,
            low_pressure_said: false,
            extra_beat_said: false,
            marks_alone_said: false,
            emergencies: 0,
            times_without_beats: 0,
            knows_of_an_order: false,
            knows_of_a_shock: false,
            glance_ms: GLANCE_MS,
            typed_instead: BTreeMap::new(),
            tired: None,
        }
    }

    /// Looks at the card, the dials and the strip once, and does one thing.
    ///
    /// # Errors
    /// The card asks for something that cannot be done at this bedside.
    pub fn look(&mut self, view: &View<Say>) -> Result<Deed, Puzzled> {
        let card = Card::read(view);
        self.notice(card);
        let next = match self.alarm(card) {
            Some(key) => Next::tap(key),
            None if self.memory.opened_us + READ_US > self.bedside.now_us() => Next::Watch,
            None => self.next(card)?,
        };
        match self.with_mistakes(card, next) {
            Next::Tap(key) => self.tap(view, &key),
            Next::Watch => Ok(Deed::Wait { ms: self.glance_ms }),
            Next::HandOver => Ok(Deed::HandOver),
        }
    }

    /// Taps one button, filling the card's fields where it sends them.
    ///
    /// # Errors
    /// The card has no such button, or a field nobody can fill.
    pub fn tap(&mut self, view: &View<Say>, key: &str) -> Result<Deed, Puzzled> {
        let card = Card::read(view);
        self.notice(card);
        let act = card.act(key)?;
        let values = if act.with_fields { self.fill(card)? } else { BTreeMap::new() };
        self.memory.stands = key == "stands";
        if self.trouble.is_some_and(|trouble| trouble.is_said_by(key)) {
            self.trouble = None;
        }
        let sent = Sent { card: view.card, command: act.command.clone(), values, stood_ms: None };
        Ok(Deed::Tap { key: act.key.clone(), sent })
    }

    /// Something to be reported by "Something is wrong", as soon as the card allows.
    pub fn report(&mut self, trouble: Trouble) {
        self.trouble = Some(trouble);
    }

    /// What was typed is not taken. Own beats slower than a silent generator's rate: it holds its spikes for
    /// something else.
    pub fn refused(&mut self, said: &Say) {
        if matches!(said, Say::OwnSlowerThanRate { .. }) {
            self.report(Trouble::Pause);
        }
    }

    /// The next time this field is asked for, this is typed instead of what is so.
    pub fn type_instead(&mut self, field: &str, text: &str) {
        self.typed_instead.insert(field.to_owned(), text.to_owned());
    }

    fn notice(&mut self, card: Card<'_>) {
        if self.memory.is_of(card) {
            self.memory.see_answers(card, self.bedside.now_us());
            return;
        }
        self.emergencies += u32::from(card.question() == Question::Emergency);
        self.times_without_beats += u32::from(card.question() == Question::NoBeats);
        self.memory = self.memory.next(card, self.bedside.now_us());
        self.perhaps_look_away(card);
    }

    fn judge(&self, card: Card<'_>) -> Judge<'_> {
        Judge {
            strip: self.bedside.strip(),
            wire: card.chamber(),
            from_us: self.memory.from_us,
            now_us: self.bedside.seen_until_us().max(self.memory.from_us),
            set_interval_us: self.bedside.set_interval_us(),
        }
    }

    fn next(&mut self, card: Card<'_>) -> Result<Next, Puzzled> {
        match card.question() {
            Question::Type => Ok(self.typing(card)),
            Question::Pulse | Question::WhatElse => {
                // What this list does not name, the card below asks for itself, or it is too late for it.
                let named = |trouble: &Trouble| card.question() == Question::Pulse || card.has(trouble.key());
                self.trouble = self.trouble.filter(named);
                Ok(Next::tap(self.trouble.map_or("back", |trouble| trouble.key_on(card))))
            }
            Question::Restore => self.restore(card),
            Question::Emergency => self.emergency(card),
            Question::Agree => self.agree(card),
            Question::FirstLook
            | Question::Atrium
            | Question::OwnRhythm
            | Question::FirstOwn
            | Question::OwnHold
            | Question::PacedOnTime
            | Question::PacedWithPulse
            | Question::OnlyOwnMarked
            | Question::Spikes
            | Question::EveryBeatMarked
            | Question::OwnWithPulse
            | Question::Capture
            | Question::BeatsAgain
            | Question::MarkedOrPaced
            | Question::NoBeats
            | Question::Confirm => self.watch(card),
        }
    }

    /// Turns the card's dial, says that it stands, watches, answers.
    fn watch(&mut self, card: Card<'_>) -> Result<Next, Puzzled> {
        if let Shape::Turn(turn) = &card.view.shape
            && !self.memory.turned
        {
            let dial = dial_of(&turn.instruction);
            let to = figure_of(&turn.instruction).unwrap_or_else(|| turn.figure.clone());
            self.bedside.turn(dial, &to)?;
            self.memory.turn(self.bedside.now_us());
            return Ok(Next::Watch);
        }
        if self.memory.busy_until_us > self.bedside.now_us() {
            return Ok(Next::Watch);
        }
        if card.question() == Question::NoBeats && self.stays_with_help() {
            return Ok(Next::HandOver);
        }
        if self.memory.turned_back {
            return Ok(Next::tap(MADE_A_BEAT));
        }
        let next = if self.is_away() { self.answer_unseen(card) } else { self.answer(card) };
        if matches!(&next, Next::Tap(key) if key == MADE_A_BEAT) && self.turn_straight_back(card)? {
            return Ok(Next::Watch);
        }
        Ok(next)
    }

    /// "A spike makes a beat: mV back, then tap." `true` where the card says so: the hand is busy first.
    fn turn_straight_back(&mut self, card: Card<'_>) -> Result<bool, Puzzled> {
        let Shape::Turn(turn) = &card.view.shape else { return Ok(false) };
        let told = turn.reason == Some(Say::SenseUpReason);
        let Some(Say::FromFigure { figure, .. }) = turn.from.as_ref().filter(|_| told) else {
            return Ok(false);
        };
        self.bedside.turn(Dial::Mv, &Say::Figure { text: figure.clone() })?;
        self.memory.turn(self.bedside.now_us());
        self.memory.turned_back = true;
        Ok(true)
    }
}

const MADE_A_BEAT: &str = "spike-made-beat";

/// The dial a sentence tells to turn. Only mV can be told to go to asynchronous, or out of it.
fn dial_of(instruction: &Say) -> Dial {
    let named = |dial: &Say| Dial::named(dial).unwrap_or(Dial::Mv);
    if let Say::TurnDownTo { dial } | Say::TurnUpTo { dial } | Say::StaysAt { dial } = instruction {
        named(dial)
    } else {
        Dial::Mv
    }
}

fn figure_of(instruction: &Say) -> Option<Say> {
    if let Say::LeaveAsynchronousSwitch { number } = instruction {
        return Some(Say::Figure { text: number.clone() });
    }
    None
}
