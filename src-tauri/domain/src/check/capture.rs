//! Stage 4: RATE above own, OUTPUT down until a spike makes no beat, then only up.

use super::answer::Answer;
use super::facts::{AtrialRhythm, Dial, Facts, Found, Known, Marks, NONE, Own, Phase, Row, Why};
use super::guard::Guard;
use super::setup::Setup;
use super::step::Step;
use super::target::plan;
use super::turn::{ask, turn, watch};
use super::{conclude, reading, restore};
use crate::plan::output_stride_down;
use crate::profile::Position;

pub fn answer(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let facts = *facts;
    Some(match (facts.step, answer) {
        (S::CaptureRate, Answer::EverySpikeMadeABeat) => {
            let mut next = facts;
            next.held_at(facts.stand.output);
            output_down(setup, next)
        }
        (S::CaptureRate, Answer::OwnAmongThem) => faster(setup, facts),
        (S::CaptureRate | S::CaptureDown | S::CaptureOut, Answer::PWithoutQrs) => {
            block_from_rate(setup, facts)
        }
        (S::CaptureRate, Answer::WideBeat) => wrong_chamber(setup, facts),
        (S::CaptureRateDown | S::CaptureOut, Answer::Fine) => conclude::capture_over(setup, facts),
        (S::CaptureDown, Answer::EverySpikeMadeABeat) => {
            let mut next = facts;
            next.held_at(facts.to);
            output_down(setup, next)
        }
        (S::CaptureDown, Answer::SpikeWithoutABeat) => loss_going_down(setup, facts),
        (S::CaptureBack | S::CaptureUp | S::CaptureRestore, Answer::BeatsAgain) => beats_again(setup, facts),
        (S::CaptureBack | S::CaptureUp | S::CaptureRestore, Answer::EverySpikeMadeABeat) => {
            output_down(setup, facts)
        }
        (S::CaptureBack | S::CaptureUp | S::CaptureCount, Answer::SpikeWithoutABeat) => {
            one_more_up(setup, facts)
        }
        (S::CaptureCount, Answer::EverySpikeMadeABeat) => counted(setup, facts),
        (S::CaptureOut, Answer::EverySpikeMadeABeat) => {
            let mut next = facts;
            next.held_at(facts.to);
            conclude::capture_over(setup, next)
        }
        (S::CaptureMaximum, Answer::EverySpikeMadeABeat) => {
            let mut next = facts;
            next.held_at(facts.to);
            conclude::at_maximum(setup, next)
        }
        (S::CaptureMaximum, Answer::SpikeWithoutABeat) => super::trouble::emergency(setup, lost(facts)),
        (
            S::CaptureRate | S::CaptureRestore | S::CaptureOut | S::CaptureRateDown,
            Answer::SpikeWithoutABeat,
        ) => fails(setup, facts),
        _ => return None,
    })
}

/// Enters capture, or skips it in words that are no fault.
pub fn begin(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    match refusal(setup, &facts).map_or_else(|| test_rate(setup, &facts), Err) {
        Ok(rate) => turn(facts, Step::CaptureRate, Dial::Rate, rate),
        Err(why) => skip(setup, facts, why),
    }
}

/// Why capture may not be tested now.
fn refusal(setup: &Setup<'_>, facts: &Facts) -> Option<Why> {
    let guards = setup.guards;
    let sees = facts.saw != NONE && facts.stand.mv <= facts.saw;
    if facts.own != Own::Shown && guards.on(Guard::OwnShown) {
        Some(Why::NoOwnBeats)
    } else if facts.own_old && guards.on(Guard::OwnFresh) {
        Some(Why::OwnTooOld)
    } else if !sees {
        Some(Why::NumberNotSeen)
    } else if facts.found_captures == Known::No && facts.proved == NONE {
        Some(Why::FoundDoesNotCapture)
    } else if matches!(facts.atrium, AtrialRhythm::FibrillationOrFlutter | AtrialRhythm::NoPWaves) {
        Some(Why::AtrialFibrillation)
    } else {
        None
    }
}

/// The higher of found and own plus the offset, rounded up; neither above the unit's highest test rate. A RATE found
/// faster is where somebody wants it, or was read wrong: it is no reason to test faster than the unit allows.
fn test_rate(setup: &Setup<'_>, facts: &Facts) -> Result<Position, Why> {
    let wanted = i32::from(facts.own_fastest) + i32::from(setup.rules.capture_offset);
    let above_own = setup.profile.rate_at_or_above(wanted).filter(|rate| setup.is_test_rate(*rate));
    let found = facts.back_to.rate;
    match above_own {
        None => Err(Why::OwnTooFast),
        Some(_) if !setup.is_test_rate(found) && setup.guards.on(Guard::TestRateBounded) => {
            Err(Why::FoundTooFast)
        }
        Some(rate) => Ok(rate.max(found)),
    }
}

fn skip(setup: &Setup<'_>, facts: Facts, why: Why) -> Facts {
    let why = if facts.why_capture == Why::None { why } else { facts.why_capture };
    conclude::capture_over(setup, Facts { why_capture: why, ..facts })
}

/// Own beats among the spikes: ten faster, up to the highest test rate.
fn faster(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    let wanted = i32::from(setup.profile.rate_at(facts.stand.rate)) + i32::from(setup.rules.capture_offset);
    match setup.profile.rate_at_or_above(wanted) {
        Some(to) if setup.is_test_rate(to) => turn(facts, Step::CaptureRate, Dial::Rate, to),
        _ => skip(setup, facts, Why::OwnAmongSpikes),
    }
}

/// A P wave without its QRS is a block from the faster rate, not a loss: RATE down at once.
fn block_from_rate(setup: &Setup<'_>, facts: Facts) -> Facts {
    let on_the_way_up = facts.step == Step::CaptureOut && facts.phase == Phase::Turning;
    let row = restore::row(setup, &facts);
    let mut next = if on_the_way_up { facts.broken_off() } else { facts.settled() };
    next.marks = next.marks.and(Marks::BLOCK_FROM_RATE);
    next.clear_own();
    next.why_capture = Why::BlockFromRate;
    next.capture = Found::Nothing;
    if next.in_doubt(Dial::Output) {
        return restore::open_row(next, row);
    }
    let rate = restore::target(setup, &next).rate;
    conclude::rate_back(setup, next, Step::CaptureRateDown, rate)
}

pub fn wrong_chamber(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts;
    next.marks = next.marks.and(Marks::WRONG_CHAMBER);
    next.not_tested(Why::WrongChamber);
    next.clear_own();
    restore::open(setup, next)
}

/// Down by strides until the first loss, then by single positions; the last position is "at most".
fn output_down(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    if let Some(why) = own_rhythm_gone(setup, &facts) {
        return held_at_most(setup, facts, why);
    }
    let next = if facts.lost == NONE {
        output_stride_down(setup.profile, setup.rules, facts.stand.output)
    } else {
        facts.stand.output.checked_sub(1)
    };
    match next {
        Some(to) => turn(facts, Step::CaptureDown, Dial::Output, to),
        None => held_at_most(setup, facts, Why::None),
    }
}

fn own_rhythm_gone(setup: &Setup<'_>, facts: &Facts) -> Option<Why> {
    if facts.own != Own::Shown && setup.guards.on(Guard::OwnShown) {
        return Some(Why::NoOwnBeats);
    }
    (facts.own_old && setup.guards.on(Guard::OwnFresh)).then_some(Why::OwnTooOld)
}

/// The card must not ask OUTPUT down on an own rhythm that has become too old meanwhile.
pub fn unless_too_old(setup: &Setup<'_>, facts: Facts) -> Facts {
    let asks_down = facts.step == Step::CaptureDown && facts.phase == Phase::Turning;
    match own_rhythm_gone(setup, &facts) {
        Some(why) if asks_down => held_at_most(setup, facts.broken_off(), why),
        _ => facts,
    }
}

/// "At most X": held at the lowest position; a bracket if a spike was lost below it. A search cut off
/// above the lowest position has no result: what held last is kept beside the reason.
fn held_at_most(setup: &Setup<'_>, facts: Facts, why: Why) -> Facts {
    if facts.proved == NONE {
        return skip(setup, facts, why);
    }
    if facts.lost == NONE && facts.proved > 0 {
        return out(setup, Facts { why_capture: why, held_down: facts.proved, ..facts });
    }
    let kind = if facts.lost == NONE { Found::AtMost } else { Found::Bracket };
    let next = Facts { capture: kind, capture_at: facts.proved, capture_low: facts.lost, ..facts };
    out(setup, next)
}

fn lost(facts: Facts) -> Facts {
    let mut next = facts.settled();
    next.spike_lost = true;
    next.lost_at(next.stand.output);
    next
}

/// The first loss in a stride goes straight back to the last that held; a loss by one position goes up by one.
fn loss_going_down(setup: &Setup<'_>, facts: Facts) -> Facts {
    let next = lost(Facts { held_down: facts.proved, ..facts });
    if next.proved == NONE {
        return straight_to_restore(setup, next);
    }
    let by_one_position = next.proved == next.stand.output + 1;
    if by_one_position && setup.rules.going_up {
        return up(setup, Facts { ups: 0, ..next });
    }
    let held = next.proved;
    turn(Facts { ups: 0, ..next }, Step::CaptureBack, Dial::Output, held)
}

fn one_more_up(setup: &Setup<'_>, facts: Facts) -> Facts {
    up(setup, lost(facts))
}

/// One position up; after the unit's number of ups the card itself is OUTPUT to restore.
fn up(setup: &Setup<'_>, facts: Facts) -> Facts {
    let to = facts.stand.output + 1;
    let restore_output = restore::target(setup, &facts).output;
    if facts.ups >= setup.rules.after_loss_ups || to >= restore_output {
        return straight_to_restore(setup, facts);
    }
    turn(Facts { ups: facts.ups + 1, ..facts }, Step::CaptureUp, Dial::Output, to)
}

/// OUTPUT to restore in one act; where that is not above the loss, to maximum.
pub fn straight_to_restore(setup: &Setup<'_>, facts: Facts) -> Facts {
    let output = restore::target(setup, &facts).output;
    if output <= facts.current(Dial::Output) {
        return maximum(setup, facts);
    }
    turn(facts, Step::CaptureRestore, Dial::Output, output)
}

/// Beats again: counted before anything else, at restore once OUTPUT stands there. The card it came from says what the count will mean.
fn beats_again(setup: &Setup<'_>, facts: Facts) -> Facts {
    let on_the_way = facts.step == Step::CaptureRestore && facts.phase == Phase::Turning;
    let counting = if on_the_way {
        turn(facts.broken_off(), Step::CaptureCount, Dial::Output, facts.to)
    } else {
        watch(facts, Step::CaptureCount)
    };
    if setup.guards.on(Guard::CountBeforeForward) { counting } else { counted(setup, counting) }
}

/// Every spike of the threshold count made a beat.
fn counted(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.settled();
    let (at, low) = (next.stand.output, facts.lost);
    next.held_at(at);
    match facts.from {
        Step::CaptureBack if setup.rules.going_up => return output_down(setup, next),
        Step::CaptureUp => next.capture = Found::Exact,
        _ => next.capture = Found::Bracket,
    }
    next.capture_at = at;
    next.capture_low = low;
    out(setup, next)
}

/// OUTPUT to the higher of restore and plan before any result is shown, or left where it was said to stand above
/// these; RATE stays at the test rate.
fn out(setup: &Setup<'_>, facts: Facts) -> Facts {
    if !setup.guards.on(Guard::OutputUpBeforeResult) {
        return ask(facts, Step::SetRate);
    }
    let target = restore::target(setup, &facts);
    let target = target.with(Dial::Output, target.output.max(plan(setup, &facts).output));
    turn(facts, Step::CaptureOut, Dial::Output, reading::kept(setup, &facts, target).output)
}

/// A spike without a beat where none was sought: OUTPUT to maximum in one act. Where own beats are not
/// seen the number goes down before OUTPUT goes up: more output would reach their T waves.
pub fn fails(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = lost(facts);
    next.not_tested(Why::SpikeWithoutBeat);
    next.marks = next.marks.and(Marks::LOST_UNSOUGHT);
    if next.found_captures == Known::No {
        next.marks = next.marks.and(Marks::FOUND_DID_NOT_CAPTURE);
    }
    let can_rise = next.current(Dial::Output) != setup.maximum();
    let after_no_beats = facts.step == Step::Restore && facts.row == Row::AfterNoBeats;
    let number_first = can_rise && restore::is_blind(&next) && !after_no_beats;
    if number_first && setup.guards.on(Guard::NumberDownBeforeOutputUp) {
        return restore::open_row(next, Row::Blind);
    }
    maximum(setup, next)
}

/// Nothing higher can be asked for, and somebody was called for it: under own beats with a pulse it stays so. Without a
/// pulse it is NO BEATS.
pub fn is_lost_at_maximum(setup: &Setup<'_>, facts: &Facts) -> bool {
    let known = facts.lost == setup.maximum() || facts.marks.has(Marks::NO_CAPTURE_AT_MAXIMUM);
    known && facts.current(Dial::Output) == setup.maximum()
}

pub fn still_lost(facts: Facts) -> Facts {
    let mut next = lost(facts);
    next.not_tested(Why::SpikeWithoutBeat);
    next.marks = next.marks.and(Marks::NO_CAPTURE_AT_MAXIMUM);
    next
}

fn maximum(setup: &Setup<'_>, facts: Facts) -> Facts {
    if facts.current(Dial::Output) == setup.maximum() {
        return super::trouble::emergency(setup, facts);
    }
    let next = Facts { emergency_output: setup.maximum(), row: Row::CaptureAfterLoss, ..facts };
    turn(next, Step::CaptureMaximum, Dial::Output, setup.maximum())
}
