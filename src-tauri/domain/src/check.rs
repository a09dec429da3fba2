//! The pacing check as a state machine over `Facts`: what a card offers, and what an answer makes of it.
//!
//! Pure and total: `answer` either refuses or returns the next facts. Time and sleep are answers too.

#![allow(
    clippy::wildcard_enum_match_arm,
    reason = "a card names the answers it takes; all others are refused in one place, and the walk tries them all"
)]

pub mod answer;
mod capture;
mod conclude;
mod evidence;
pub mod facts;
pub mod guard;
mod margin;
pub mod offer;
mod own;
pub mod reading;
mod ready;
pub mod restore;
pub mod sensing;
pub mod set;
pub mod setup;
pub mod side;
pub mod slip;
pub mod step;
pub mod target;
mod trouble;
mod turn;
pub mod watch;

use answer::{Answer, TimeUp};
use facts::{Dials, Facts, NONE, Phase};
use setup::Setup;
use step::Step;

use crate::contract::{OWN_LEAST, OWN_MOST};

/// Why an answer was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// The card does not offer it, or not yet.
    NotOpen,
    /// A dial position that the generator does not have.
    NoSuchPosition,
    /// Own beats cannot be slower than the set rate while the generator is silent.
    OwnSlowerThanSetRate,
    /// The slowest is faster than the fastest, or outside `OWN_LEAST` to `OWN_MOST`.
    NotARate,
}

/// The next facts. `before` is the card whose answer opened this one, for a slip.
pub fn answer(
    setup: &Setup<'_>,
    before: Option<&Facts>,
    facts: &Facts,
    answer: Answer,
) -> Result<Facts, Refused> {
    if !offer::is_open(setup, facts, answer) {
        return Err(Refused::NotOpen);
    }
    check_typed(setup, before, facts, answer)?;
    always(setup, before, facts, answer)
        .or_else(|| by_stage(setup, before, facts, answer))
        .ok_or(Refused::NotOpen)
}

/// The card a slip goes back to, once `answer` to `facts` has opened `opened`: the card of the last real
/// answer. Side cards, time and "it stands" keep it; a slip uses it up; after sleep nothing is taken back.
pub fn kept_before(before: Option<Facts>, facts: &Facts, answer: Answer, opened: &Facts) -> Option<Facts> {
    use Answer as A;
    match answer {
        A::Stands | A::Time(_) | A::Wrong | A::SomethingElse | A::DialElsewhere | A::Back => before,
        A::Woke(answer::Gap::Short) => before,
        A::Woke(_) => None,
        A::Yes | A::No if facts.step == Step::Away => before,
        A::Slip if opened.step.is_side() => before,
        A::Slip | A::StandsAt(_) => None,
        A::Read(_) if facts.step == Step::Slip => None,
        _ => Some(side::below(*facts)),
    }
}

fn always(setup: &Setup<'_>, before: Option<&Facts>, facts: &Facts, answer: Answer) -> Option<Facts> {
    let facts = *facts;
    Some(match answer {
        Answer::NoBeats if facts.step == Step::FirstLook => ready::no_beats_at_first_look(setup, facts),
        Answer::NoBeats if facts.step == Step::NoBeats && facts.phase == Phase::Turning => facts,
        Answer::NoBeats => trouble::no_beats(setup, restore::broken_off(setup, side::below(facts))),
        Answer::Stop => stop(setup, facts),
        Answer::Wrong => side::over(facts, Step::Wrong),
        Answer::Slip => slip::said(setup, before, facts),
        Answer::Stands => Facts { phase: Phase::Watching, ..facts },
        Answer::Time(up) => time_up(setup, facts, up),
        Answer::Woke(gap) => side::woke(setup, facts, gap),
        _ => return None,
    })
}

/// The card's own answers, by its stage.
fn by_stage(setup: &Setup<'_>, before: Option<&Facts>, facts: &Facts, answer: Answer) -> Option<Facts> {
    ready::answer(setup, facts, answer)
        .or_else(|| own::answer(setup, facts, answer))
        .or_else(|| sensing::answer(setup, facts, answer))
        .or_else(|| capture::answer(setup, facts, answer))
        .or_else(|| margin::answer(setup, facts, answer))
        .or_else(|| set::answer(setup, facts, answer))
        .or_else(|| trouble::answer(setup, facts, answer))
        .or_else(|| side::answer(setup, before, facts, answer))
}

/// Before the dials were read nothing was touched: the check just ends. From the emergency there is no
/// old setting to go back to: the dials are read as they stand. What held last on the way down is kept.
fn stop(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts;
    next.not_tested(facts::Why::Stopped);
    let under = side::below(facts).step;
    if under == Step::CaptureDown && facts.proved < facts.found.output {
        next.held_down = facts.proved;
    }
    match under {
        _ if !facts.dials_read() => turn::ask(next, Step::Ended),
        Step::NoSpikes | Step::Emergency | Step::Arrest => turn::ask(next, Step::ReadAfter),
        _ => restore::open(setup, next),
    }
}

fn time_up(setup: &Setup<'_>, facts: Facts, up: TimeUp) -> Facts {
    use Step as S;
    let under = side::below(facts);
    match up {
        TimeUp::Watch if facts.phase == Phase::Watching && !facts.step.is_side() => {
            Facts { phase: Phase::Open, ..facts }
        }
        TimeUp::OwnOld if facts.own != facts::Own::Shown => facts,
        TimeUp::OwnOld => capture::unless_too_old(setup, Facts { own_old: true, ..facts }),
        TimeUp::Minimum if matches!(under.step, S::SenseMinimum | S::SenseUp | S::SenseDown) => {
            sensing::time_up(setup, under.broken_off())
        }
        TimeUp::Loss if matches!(under.step, S::CaptureBack | S::CaptureUp) => {
            capture::straight_to_restore(setup, under.broken_off())
        }
        TimeUp::Watch | TimeUp::Minimum | TimeUp::Loss => facts,
    }
}

fn check_typed(
    setup: &Setup<'_>,
    before: Option<&Facts>,
    facts: &Facts,
    answer: Answer,
) -> Result<(), Refused> {
    match answer {
        Answer::Read(dials) => positions_exist(setup, dials),
        Answer::StandsAt(position) => {
            let dials = Dials { output: 0, rate: 0, mv: 0 };
            let dial = before.and_then(|card| slip::doubtful_dial(card, facts)).unwrap_or(facts.dial);
            positions_exist(setup, dials.with(dial, position))
        }
        Answer::OwnRate { slowest, fastest } => own_rate_is_possible(setup, facts, slowest, fastest),
        _ => Ok(()),
    }
}

fn positions_exist(setup: &Setup<'_>, dials: Dials) -> Result<(), Refused> {
    let number_exists =
        dials.mv <= setup.profile.mv_last() || (dials.mv == facts::ASYNCHRONOUS && setup.has_asynchronous());
    let exist = dials.output <= setup.profile.output_last()
        && dials.rate <= setup.profile.rate_last()
        && dials.mv != NONE
        && number_exists;
    if exist { Ok(()) } else { Err(Refused::NoSuchPosition) }
}

fn own_rate_is_possible(setup: &Setup<'_>, facts: &Facts, slowest: u8, fastest: u8) -> Result<(), Refused> {
    if slowest > fastest || slowest < OWN_LEAST || fastest > OWN_MOST {
        return Err(Refused::NotARate);
    }
    let set = setup.profile.rate_at(facts.current(facts::Dial::Rate));
    if u16::from(slowest) < set && !restore::is_blind(facts) {
        Err(Refused::OwnSlowerThanSetRate)
    } else {
        Ok(())
    }
}
