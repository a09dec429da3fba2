//! Stage 2: the heart's own rhythm, by lowering RATE alone.

use super::answer::Answer;
use super::facts::{Dial, Facts, FirstLook, Known, Marks, Own, Why};
use super::guard::Guard;
use super::setup::Setup;
use super::step::Step;
use super::turn::{ask, turn, watch};
use super::{capture, conclude, restore, sensing};
use crate::profile::Position;

pub fn answer(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let facts = *facts;
    Some(match (facts.step, answer) {
        (S::OwnDown, Answer::StillPaced) => {
            let mut next = facts;
            next.held_at(facts.stand.output);
            one_step_more(setup, next)
        }
        (S::OwnDown, Answer::OnlyOwn) if facts.first_own_asked => watch(facts, S::OwnHold),
        (S::OwnDown, Answer::BothSeen) if facts.first_own_asked => one_step_more(setup, facts),
        (S::OwnDown, Answer::OnlyOwn) => first_own(facts, false),
        (S::OwnDown, Answer::BothSeen) => first_own(facts, true),
        (S::FirstOwn, Answer::Yes) => first_own_marked(setup, facts),
        (S::FirstOwn, Answer::No) => blind(setup, facts),
        (S::BlindRateUp, Answer::EverySpikeMadeABeat) => blind_number_down(setup, facts),
        (S::BlindRateUp, Answer::OwnAmongThem | Answer::SpikeWithoutABeat) => {
            blind_rate_further_up(setup, facts)
        }
        (S::BlindMvDown, Answer::Fine) => look_once_more(setup, facts),
        (S::BlindMvDown, Answer::Pause) => give_up(setup, facts.paused(), Why::Pauses),
        (S::OwnHold, Answer::OwnHeld) => {
            let mut next = facts;
            next.saw_at(facts.stand.mv);
            ask(next, S::OwnRate)
        }
        (S::OwnHold, Answer::BothSeen) => one_step_more(setup, facts),
        (S::OwnHold, Answer::BeatNotMarked) => blind(setup, facts),
        (S::OwnRate, Answer::OwnRate { slowest, fastest }) => own_rate(setup, facts, slowest, fastest),
        (S::OwnBack, Answer::Fine) => conclude::after_own_back(setup, facts),
        (S::OwnBack | S::BlindMvDown, Answer::SpikeWithoutABeat) => capture::fails(setup, facts),
        _ => return None,
    })
}

/// After the first look. The first own beat's question comes first, then RATE; own beats alone need no
/// lowering, and a rate at or below the limit is not lowered.
pub fn begin(setup: &Setup<'_>, facts: Facts) -> Facts {
    if facts.stands_asynchronous() && setup.guards.on(Guard::RateKeptWhileAsynchronous) {
        return conclude::untested(setup, facts, Why::OrderedAsynchronous);
    }
    match facts.first_look {
        FirstLook::OnlyOwn => first_own(facts, false),
        FirstLook::Both => first_own(facts, true),
        FirstLook::NotLooked
        | FirstLook::EveryBeatPaced
        | FirstLook::SpikesWithoutBeats
        | FirstLook::NoBeats => one_step_more(setup, facts),
    }
}

/// The next step down, the last one exactly to the limit; at the limit the search is over.
fn one_step_more(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    match next_rate_down(setup, facts.stand.rate) {
        Some(to) => turn(facts, Step::OwnDown, Dial::Rate, to),
        None if facts.first_own_asked => give_up(setup, facts, Why::OwnNotHeld),
        None => give_up(setup, facts, Why::NoOwnBeats),
    }
}

fn next_rate_down(setup: &Setup<'_>, from: Position) -> Option<Position> {
    let limit = setup.search_limit()?;
    let a_step = i32::from(setup.profile.rate_at(from)) - i32::from(setup.rules.own_step);
    let below = setup.profile.rate_at_or_below(a_step).unwrap_or(0).max(limit);
    let to = if below < from { below } else { from.checked_sub(1)?.max(limit) };
    (to < from).then_some(to)
}

/// Single beats or only own beats: the first asks whether the generator saw it.
fn first_own(facts: Facts, among_paced: bool) -> Facts {
    Facts { among_paced, ..ask(facts, Step::FirstOwn) }
}

fn first_own_marked(setup: &Setup<'_>, facts: Facts) -> Facts {
    let next = Facts { first_own_asked: true, ..facts };
    if facts.among_paced { one_step_more(setup, next) } else { watch(next, Step::OwnHold) }
}

/// Spikes fell through own beats: RATE above own, then the number down, then look once more, not twice.
pub fn blind(setup: &Setup<'_>, facts: Facts) -> Facts {
    if facts.marks.has(Marks::DID_NOT_SEE_AS_FOUND) {
        return still_blind(facts);
    }
    let mut next = facts.settled();
    next.missed_at(next.stand.mv);
    next.clear_own();
    next.first_own_asked = false;
    next.marks = next.marks.and(Marks::DID_NOT_SEE_AS_FOUND);
    let own_rate_unknown = next.own_fastest == 0 && next.first_look != FirstLook::EveryBeatPaced;
    if own_rate_unknown { ask(next, Step::OwnRate) } else { blind_rate_up(setup, next) }
}

/// Above the own beats spikes cannot fall between them.
fn blind_rate_up(setup: &Setup<'_>, facts: Facts) -> Facts {
    match restore::rate_above_own(setup, &facts) {
        Some(above) => turn(facts, Step::BlindRateUp, Dial::Rate, above.max(facts.stand.rate)),
        None => number_down(setup, facts.settled()),
    }
}

/// Where no RATE of a test rises above the own beats, or its spikes make none, a fast one only adds spikes: back to found.
fn blind_rate_further_up(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    let want = i32::from(setup.profile.rate_at(facts.stand.rate)) + i32::from(setup.rules.own_step);
    match setup.profile.rate_at_or_above(want) {
        Some(to) if setup.is_test_rate(to) => turn(facts, Step::BlindRateUp, Dial::Rate, to),
        _ => still_blind(Facts { marks: facts.marks.and(Marks::NOT_PACED_OVER), ..facts }),
    }
}

fn blind_number_down(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.settled();
    next.held_at(next.stand.output);
    number_down(setup, next)
}

fn number_down(setup: &Setup<'_>, facts: Facts) -> Facts {
    match lower_number(setup, &facts) {
        Some(to) => turn(Facts { fallback_mv: to, ..facts }, Step::BlindMvDown, Dial::Mv, to),
        None => still_blind(facts),
    }
}

/// RATE down from above the own beats; where it never rose above them, they are there already.
fn look_once_more(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    let rate = setup.profile.rate_at(facts.stand.rate);
    if !facts.own_faster_than(rate) {
        return one_step_more(setup, facts);
    }
    first_own(facts, u16::from(facts.own_slowest) < rate)
}

/// The unit's starting number, or one position down if the dial stands there or below.
pub fn lower_number(setup: &Setup<'_>, facts: &Facts) -> Option<Position> {
    let start = setup.starting_mv();
    if facts.stand.mv > start { Some(start) } else { facts.stand.mv.checked_sub(1) }
}

fn still_blind(facts: Facts) -> Facts {
    let mut next = facts.settled();
    next.missed_at(next.stand.mv);
    next.marks = next.marks.and(Marks::STILL_BLIND);
    next.not_tested(Why::DidNotSee);
    restore::open_row(next, super::facts::Row::Blind)
}

fn own_rate(setup: &Setup<'_>, facts: Facts, slowest: u8, fastest: u8) -> Facts {
    let mut next = Facts { own_slowest: slowest, own_fastest: fastest, ..facts };
    if slowest != fastest {
        next.marks = next.marks.and(Marks::IRREGULAR);
    }
    if restore::is_blind(&next) {
        return blind_rate_up(setup, next);
    }
    if u16::from(slowest) < setup.rules.own_limit && setup.guards.on(Guard::OwnShown) {
        return give_up(setup, next, Why::OwnBelowLimit);
    }
    next.own = Own::Shown;
    next.own_old = false;
    sensing::begin(setup, next)
}

/// No own rhythm as defined: RATE back, and neither test is done.
pub fn give_up(setup: &Setup<'_>, facts: Facts, why: Why) -> Facts {
    let mut next = facts.settled();
    next.own = if next.own == Own::Shown { Own::Cleared } else { Own::NotSeen };
    next.not_tested(why);
    if next.found_sees == Known::No {
        return restore::open(setup, next);
    }
    let rate = restore::target(setup, &next).rate;
    if next.stand.rate == rate {
        return conclude::after_own_back(setup, next);
    }
    turn(next, Step::OwnBack, Dial::Rate, rate)
}
