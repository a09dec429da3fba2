//! A card as a person reads it: what it asks, about which wire, and which buttons it has.

use domain::contract::{Act, Shape, Tone, View};
use domain::say::Say;
use simulator::Chamber;

use crate::puzzled::Puzzled;

/// What a card asks to look for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Question {
    FirstLook,
    Atrium,
    OwnRhythm,
    FirstOwn,
    OwnHold,
    PacedOnTime,
    PacedWithPulse,
    OnlyOwnMarked,
    Spikes,
    EveryBeatMarked,
    OwnWithPulse,
    Capture,
    BeatsAgain,
    MarkedOrPaced,
    NoBeats,
    Confirm,
    Pulse,
    WhatElse,
    /// Answered by a yes, or by "all true".
    Agree,
    /// Dials to be turned one after the other.
    Restore,
    Emergency,
    /// Fields to fill.
    Type,
}

/// The view, read.
#[derive(Clone, Copy, Debug)]
pub struct Card<'a> {
    pub view: &'a View<Say>,
    question: Question,
}

impl<'a> Card<'a> {
    pub fn read(view: &'a View<Say>) -> Card<'a> {
        Card { view, question: question(view) }
    }

    pub fn question(self) -> Question {
        self.question
    }

    /// The sentence that asks.
    pub fn asks(self) -> &'a Say {
        asks(self.view)
    }

    /// "StageCapture"; empty off a check.
    pub fn stage(self) -> &'static str {
        let Some(Say::WireAndStage { stage, .. }) = &self.view.head.subtitle else { return "" };
        stage.name()
    }

    /// The chamber of the wire in the card's head.
    pub fn chamber(self) -> Chamber {
        let Some(Say::WireAndStage { wire, .. }) = &self.view.head.subtitle else {
            return Chamber::Ventricle;
        };
        if matches!(**wire, Say::AtrialWire | Say::AtrialLead) { Chamber::Atrium } else { Chamber::Ventricle }
    }

    pub fn has(self, key: &str) -> bool {
        self.find(key).is_some()
    }

    /// # Errors
    /// The card has no such button.
    pub fn act(self, key: &str) -> Result<&'a Act<Say>, Puzzled> {
        self.find(key).ok_or_else(|| Puzzled::NoSuchButton {
            card: self.view.card,
            key: key.to_owned(),
            buttons: self.buttons().map(|act| act.key.to_string()).collect(),
        })
    }

    /// The way on, where it is open. "It stands" is not an answer.
    pub fn good(self) -> Option<&'a Act<Say>> {
        self.view.answers.iter().rev().find(|act| act.tone == Tone::Good && act.key != "stands")
    }

    fn find(self, key: &str) -> Option<&'a Act<Say>> {
        self.buttons().find(|act| act.key == key)
    }

    fn buttons(self) -> impl Iterator<Item = &'a Act<Say>> {
        let always = self.view.safety.iter().flat_map(|safety| safety.acts());
        self.view.answers.iter().chain(&self.view.aside).chain(always)
    }
}

fn asks(view: &View<Say>) -> &Say {
    match &view.shape {
        Shape::Turn(turn) => &turn.question,
        Shape::Ask(ask) => &ask.question,
        Shape::List(list) => &list.instruction,
        Shape::Form(form) => &form.question,
        Shape::Result(result) => &result.headline,
        Shape::Code(code) => &code.note,
        Shape::Chart(chart) => &chart.headline,
        Shape::Beds(beds) => &beds.empty,
    }
}

#[allow(clippy::wildcard_enum_match_arm, reason = "few sentences ask")]
fn question(view: &View<Say>) -> Question {
    if matches!(view.shape, Shape::Form(_)) {
        return Question::Type;
    }
    match asks(view) {
        Say::AskFirstLook => Question::FirstLook,
        Say::AskAtrium => Question::Atrium,
        Say::AskOwnRhythm => Question::OwnRhythm,
        Say::AskFirstOwn => Question::FirstOwn,
        Say::AskOwnHold | Say::AskOwnHoldAtrium => Question::OwnHold,
        Say::AskPacedOnTime => Question::PacedOnTime,
        Say::AskPacedWithPulse | Say::AskAfterShock | Say::AskSteadyRate => Question::PacedWithPulse,
        Say::AskOnlyOwnMarked => Question::OnlyOwnMarked,
        Say::AskSpikes => Question::Spikes,
        Say::AskEveryBeatMarked => Question::EveryBeatMarked,
        Say::AskOwnWithPulse => Question::OwnWithPulse,
        Say::AskCaptureVentricle | Say::AskCaptureAtrium | Say::AskEverySpike | Say::AskCaptureCount => {
            Question::Capture
        }
        Say::AskBeatsAgain => Question::BeatsAgain,
        Say::AskMarkedOrPaced => Question::MarkedOrPaced,
        Say::AskNoBeats => Question::NoBeats,
        Say::AskConfirm | Say::AskConfirmAsynchronous => Question::Confirm,
        Say::AskPulse => Question::Pulse,
        Say::AskWhatElse => Question::WhatElse,
        Say::RestoreTitle => Question::Restore,
        Say::EmergencyTitle | Say::NoSpikesTitle | Say::ArrestTitle => Question::Emergency,
        _ => Question::Agree,
    }
}
