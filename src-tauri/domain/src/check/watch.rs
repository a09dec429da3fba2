//! How long a card watches before its good answer opens.

use super::facts::{Dial, Facts};
use super::setup::Setup;
use super::step::Step;
use crate::units::interval_ms;

/// What the bar under a card measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Watch {
    Beats(u8),
    Seconds(u16),
    /// Three spikes or ten seconds, whichever is longer seen from the card: ten seconds.
    ThreeSpikes,
}

/// Three beats are enough to see that a dial turned back has not broken anything (P).
const BEATS_ON_THE_WAY_OUT: u8 = 3;
const THREE_SPIKES_S: u16 = 10;

pub fn watch(setup: &Setup<'_>, facts: &Facts) -> Watch {
    use Step as S;
    let rules = setup.rules;
    match facts.step {
        S::OwnDown => Watch::Seconds(rules.own_watch_s),
        S::OwnHold => Watch::Seconds(rules.own_hold_s),
        S::SenseMinimum => Watch::ThreeSpikes,
        S::SenseDown | S::CaptureCount | S::AsynchronousOff => Watch::Beats(rules.beats_threshold),
        S::Confirm => Watch::Beats(rules.beats_confirm),
        S::SenseMvOut | S::SenseOutputOut | S::MarginOne | S::MarginHalf | S::MarginBack => {
            Watch::Beats(BEATS_ON_THE_WAY_OUT)
        }
        _ => Watch::Beats(rules.beats_down),
    }
}

/// In sensing the longer of the own beats (slowest) and as many set intervals, since a miss shows
/// only as a spike after the set interval.
pub fn length_ms(setup: &Setup<'_>, facts: &Facts) -> i64 {
    match watch(setup, facts) {
        Watch::Seconds(seconds) => i64::from(seconds) * 1000,
        Watch::ThreeSpikes => i64::from(THREE_SPIKES_S) * 1000,
        Watch::Beats(beats) => {
            let set = setup.profile.rate_at(facts.current(Dial::Rate));
            let own = u16::from(facts.own_slowest);
            let slowest = if own > 0 { set.min(own) } else { set };
            i64::from(beats) * interval_ms(slowest)
        }
    }
}
