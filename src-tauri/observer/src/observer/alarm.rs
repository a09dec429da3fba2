//! What comes before any card: no beats, a pressure that falls, something to report.

use super::Observer;
use crate::card::{Card, Question};

/// What is reported by "Something is wrong".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trouble {
    NoPulse,
    FastWide,
    Shock,
    NotTolerated,
    Pause,
    ExtraBeat,
    MarkAlone,
    Elsewhere,
    SpikeWithoutBeat,
    BeatNotMarked,
}

/// Nobody waits longer for a beat.
const NO_BEATS_US: u64 = 4_000_000;
const PULSES: usize = 3;
/// Below this a fall is not tolerated, mmHg.
const LOW_MMHG: u16 = 80;
const LOOK_BACK_US: u64 = 8_000_000;

impl Trouble {
    pub fn key(self) -> &'static str {
        match self {
            Trouble::NoPulse => "no-pulse",
            Trouble::FastWide => "fast-wide",
            Trouble::Shock => "shock",
            Trouble::NotTolerated => "not-tolerated",
            Trouble::Pause => "pause",
            Trouble::ExtraBeat => "extra-beat",
            Trouble::MarkAlone => "mark-alone",
            Trouble::Elsewhere => "elsewhere",
            Trouble::SpikeWithoutBeat => "spike-without-beat",
            Trouble::BeatNotMarked => "beat-not-marked",
        }
    }

    /// The button that leads to it.
    pub fn key_on(self, card: Card<'_>) -> &'static str {
        if card.has(self.key()) { self.key() } else { "something-else" }
    }

    pub fn is_said_by(self, key: &str) -> bool {
        self.key() == key
    }
}

impl Observer {
    /// A button that cannot wait for the card's own answers.
    pub(super) fn alarm(&mut self, card: Card<'_>) -> Option<&'static str> {
        let question = card.question();
        let can_be_said = card.view.safety.is_some() || card.has("no-beats");
        if !can_be_said || matches!(question, Question::NoBeats | Question::Emergency) {
            return None;
        }
        let without_us = self.judge(card).without_qrs_us();
        if without_us > NO_BEATS_US && self.alarm_is_heard(without_us) {
            return Some("no-beats");
        }
        if self.is_away() {
            return None;
        }
        self.look_at_pressure(card);
        let already = matches!(question, Question::Pulse | Question::WhatElse);
        (self.trouble.is_some() && !already && card.has("wrong")).then_some("wrong")
    }

    /// Three low pulses while dials are tested: not tolerated, said once until it has risen again.
    fn look_at_pressure(&mut self, card: Card<'_>) {
        let testing = matches!(card.stage(), "StageOwnRhythm" | "StageSensing" | "StageCapture");
        let from_us = self.bedside.now_us().saturating_sub(LOOK_BACK_US);
        let last = self.bedside.strip().newest_pulses(PULSES, from_us);
        let low = last.len() == PULSES && last.iter().all(|(_, mmhg)| *mmhg < LOW_MMHG);
        if !low {
            self.low_pressure_said = false;
        } else if testing && !self.low_pressure_said {
            self.low_pressure_said = true;
            let none = last.iter().all(|(_, mmhg)| *mmhg == 0);
            self.report(if none { Trouble::NoPulse } else { Trouble::NotTolerated });
        }
    }
}
