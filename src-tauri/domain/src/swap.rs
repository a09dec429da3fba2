//! Another generator, or another battery, for a wire that paces: a state machine beside the check, over `Facts`.
//!
//! The order of acts is common practice, no source; local procedure comes first and the cards say so. What holds
//! always: no card asks for a connection to be opened while no standby pacing covers the patient, and NO BEATS is
//! answered by the first act that can pace.

#![allow(
    clippy::wildcard_enum_match_arm,
    reason = "a card names the answers it takes; all others are refused in one place, and the walk tries them all"
)]

pub mod answer;
mod away;
pub mod carry;
pub mod facts;
pub mod offer;
mod prepare;
pub mod step;
mod take_over;
pub mod times;
mod urgent;

use crate::check::facts::{ASYNCHRONOUS, Dials, Phase};
use crate::profile::{AsynchronousBy, Profile};
use crate::rules::{Chamber, Rules};
use answer::{Answer, TimeUp};
use facts::{Facts, Place, Work};
use step::Step;
pub use take_over::expected;

/// Read-only surroundings of one swap. Until another box is chosen, `new` is the old one.
#[derive(Clone, Copy)]
pub struct Setup<'a> {
    pub old: &'a Profile,
    pub new: &'a Profile,
    pub chamber: Chamber,
    /// An atrial wire, and the box may pace the ventricle too.
    pub ventricle_first: bool,
    pub rules: &'a Rules,
}

impl Setup<'_> {
    /// The box that the pins are in, or go back to.
    pub fn box_of(&self, facts: &Facts) -> &Profile {
        if facts.place == Place::New { self.new } else { self.old }
    }
}

/// Why an answer was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    NotOpen,
    NoSuchPosition,
}

/// The next facts. `before` is the card whose answer opened this one, for a slip.
pub fn answer(
    setup: &Setup<'_>,
    before: Option<&Facts>,
    facts: &Facts,
    answer: Answer,
) -> Result<Facts, Refused> {
    if !offer::is_open(before, facts, answer) {
        return Err(Refused::NotOpen);
    }
    if let Answer::Read(dials) = answer {
        positions_exist(read_on(setup, facts), dials)?;
    }
    let facts = *facts;
    always(setup, before, facts, answer)
        .or_else(|| prepare::answer(setup, facts, answer))
        .or_else(|| take_over::answer(setup, facts, answer))
        .or_else(|| urgent::answer(setup, facts, answer))
        .or_else(|| away::answer(facts, answer))
        .ok_or(Refused::NotOpen)
}

/// The card a slip goes back to: side cards and time keep it, a break and a slip use it up.
pub fn kept_before(before: Option<Facts>, facts: &Facts, answer: Answer, opened: &Facts) -> Option<Facts> {
    match answer {
        Answer::Woke(_) | Answer::Slip => None,
        Answer::Time(_) | Answer::Wrong => before,
        Answer::Back if facts.step == Step::Wrong => before,
        _ if facts == opened => before,
        _ => Some(*facts),
    }
}

/// The box whose dials are typed on this card.
pub fn read_on<'a>(setup: &Setup<'a>, facts: &Facts) -> &'a Profile {
    match facts.step {
        Step::ReadNew => setup.new,
        _ if facts.place == Place::New => setup.new,
        _ => setup.old,
    }
}

fn positions_exist(profile: &Profile, dials: Dials) -> Result<(), Refused> {
    let asynchronous = dials.mv == ASYNCHRONOUS && profile.asynchronous() != AsynchronousBy::None;
    let exist = dials.output <= profile.output_last()
        && dials.rate <= profile.rate_last()
        && (dials.mv <= profile.mv_last() || asynchronous);
    if exist { Ok(()) } else { Err(Refused::NoSuchPosition) }
}

fn always(setup: &Setup<'_>, before: Option<&Facts>, facts: Facts, answer: Answer) -> Option<Facts> {
    Some(match answer {
        Answer::NoBeats => urgent::no_beats(setup, facts),
        Answer::Wrong => over(facts, Step::Wrong),
        Answer::Slip => slip(before, facts),
        Answer::Stop => stop(facts),
        Answer::Time(TimeUp::Watch) if facts.phase == Phase::Watching => {
            Facts { phase: Phase::Open, ..facts }
        }
        Answer::Time(TimeUp::Watch) => facts,
        Answer::Time(TimeUp::OwnOld) => prepare::own_old(facts),
        Answer::Woke(gap) => away::woke(facts, gap),
        _ => return None,
    })
}

/// Opens a card; one that watches begins its watch.
pub(crate) fn ask(facts: Facts, step: Step) -> Facts {
    let phase = match step {
        Step::Maximum => Phase::Turning,
        _ if step.watches() => Phase::Watching,
        _ => Phase::Open,
    };
    let from = if step.is_side() { facts.from } else { step };
    Facts { step, from, phase, block: None, ..facts }
}

/// Opens a card over this one.
pub(crate) fn over(facts: Facts, step: Step) -> Facts {
    let from = if facts.step.is_side() { facts.from } else { facts.step };
    ask(Facts { from, ..facts }, step)
}

/// Where a connection was opened or closed since, nobody knows where the pins are: it is asked.
fn slip(before: Option<&Facts>, facts: Facts) -> Facts {
    let Some(before) = before.copied() else { return facts };
    if facts.step == Step::Wrong {
        return away::go_on(facts);
    }
    if before.place != facts.place || before.old_on != facts.old_on || before.new_on != facts.new_on {
        return away::asks_where(facts);
    }
    let kept = Facts { no_beats: facts.no_beats, shock: facts.shock, maximum: facts.maximum, ..before };
    Facts { block: before.block, ..ask(kept, before.step) }
}

/// With the pins in the running old box there is nothing to undo; else they go back there.
fn stop(facts: Facts) -> Facts {
    match facts.place {
        Place::Old if !facts.opened && !facts.is_urgent() => ask(facts, Step::Ended),
        Place::Old => ask(facts, Step::ReadEnd),
        Place::Between => back_to_old(facts),
        Place::New if facts.is_covered() => back_to_old(facts),
        // A box that may be pacing is not unplugged without standby.
        Place::New => ask(facts, Step::Standby),
    }
}

/// The pins go into the old box; where that is off, the patient waits for a box with standby pacing.
pub(crate) fn back_to_old(facts: Facts) -> Facts {
    let facts = Facts { opened: true, ..facts };
    match facts.work {
        _ if facts.old_on => ask(Facts { place: Place::Between, ..facts }, Step::BackToOld),
        Work::Battery => ask(facts, Step::BatteryBack),
        Work::Box => ask(facts, Step::BoxDead),
    }
}
