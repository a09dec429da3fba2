//! Stage 3: RATE below own, OUTPUT to minimum, the number up in strides and down by single positions.

use super::answer::Answer;
use super::facts::{ASYNCHRONOUS, Dial, Facts, Found, Known, Marks, NONE, Phase, Row, Why};
use super::guard::Guard;
use super::setup::Setup;
use super::step::Step;
use super::turn::{again, turn};
use super::{capture, own, restore, side};
use crate::plan::{late_rate, mv_stride_up, spike_comes_late};
use crate::profile::Position;

pub fn answer(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let facts = *facts;
    Some(match (facts.step, answer) {
        (S::SenseRate, Answer::EveryBeatMarked) => seen_at_test_rate(setup, facts),
        (S::SenseRate, Answer::BothSeen) => own::give_up(setup, facts, Why::OwnNotHeld),
        // OUTPUT may still stand at minimum: the list, which asks for it.
        (S::SenseOutputOut, Answer::BeatNotMarked) if facts.phase == Phase::Turning => {
            side::number_missed(setup, facts)
        }
        (S::SenseRate | S::SenseOutputOut, Answer::BeatNotMarked) => own::blind(setup, facts),
        (S::SenseMinimum, Answer::NoSpikesCame) => number_up(setup, facts),
        (S::SenseMinimum, Answer::SpikesNoneMadeABeat) => {
            number_up(setup, Facts { minimum_captures: Known::No, ..facts })
        }
        (S::SenseMinimum | S::SenseUp | S::SenseDown, Answer::SpikeMadeABeat) => {
            minimum_captures(setup, facts)
        }
        (S::SenseUp, Answer::EveryBeatMarked) => {
            let mut next = facts;
            next.saw_at(facts.to);
            number_up(setup, next)
        }
        (S::SenseUp | S::SenseDown, Answer::BeatNotMarked) => {
            let mut next = facts;
            next.missed_at(facts.to);
            number_down(setup, next)
        }
        (S::SenseDown, Answer::EveryBeatMarked) => {
            let mut next = facts;
            next.saw_at(facts.to);
            finished(setup, next, Found::Exact, facts.to)
        }
        (S::SenseUp | S::SenseDown, Answer::Pause) => pause(setup, facts),
        (S::SenseUp | S::SenseDown, Answer::ExtraBeatNotMarked) => {
            again(Facts { marks: facts.marks.and(Marks::EXTRA_BEAT_UNMARKED), ..facts })
        }
        (S::SenseMvOut, Answer::EveryBeatMarked) => output_out(setup, facts),
        (S::SenseMvOut, Answer::BeatNotMarked) => further_down(setup, facts),
        (S::SenseMvOut, Answer::SpikeMadeABeat) => {
            let marks = facts.marks.and(Marks::SPIKE_AT_MINIMUM_MADE_A_BEAT);
            further_down(setup, Facts { minimum_captures: Known::Yes, marks, ..facts })
        }
        (S::SenseOutputOut, Answer::Fine) => capture::begin(setup, facts),
        _ => return None,
    })
}

/// RATE to where it is tested; until it is known whether the minimum captures, from there down to where a spike
/// after missed beats comes late, if there is such a position.
pub fn begin(setup: &Setup<'_>, facts: Facts) -> Facts {
    let Some(highest) = highest_rate(setup, &facts) else {
        return capture::begin(setup, Facts { why_sensing: Why::NoSuchRate, ..facts });
    };
    let late = late_rate(setup.profile, highest, facts.own_slowest, facts.own_fastest);
    let may_be_raised = !setup.minimum_may_capture();
    let must_be_late =
        may_be_raised && setup.minimum_may_surprise(&facts) && setup.guards.on(Guard::SpikeLateAfterMiss);
    let rate = late.filter(|_| must_be_late).unwrap_or(highest);
    turn(facts, Step::SenseRate, Dial::Rate, rate)
}

/// The lower of found and own less the offset, never raised; `None` where the dial does not go so low.
pub fn highest_rate(setup: &Setup<'_>, facts: &Facts) -> Option<Position> {
    let slowest = i32::from(facts.own_slowest);
    let wanted = if setup.rules.half_rate_in_sensing {
        slowest / 2
    } else {
        slowest - i32::from(setup.rules.sensing_offset)
    };
    let rate = setup.profile.rate_at_or_below(wanted)?.min(facts.back_to.rate);
    let never_raised = setup.guards.on(Guard::RateNotRaisedInSensing);
    Some(if never_raised { rate.min(facts.stand.rate) } else { rate })
}

/// Whether the minimum captures shows only at the first spike: it must not fall on a T wave. Where marks came without
/// beats, nobody can say from when the timer runs.
fn spike_may_fall_on_t(setup: &Setup<'_>, facts: &Facts) -> bool {
    let rate = setup.profile.rate_at(facts.stand.rate);
    let late = spike_comes_late(rate, facts.own_slowest, facts.own_fastest)
        && !facts.marks.has(Marks::MARKS_WITHOUT_BEATS);
    setup.minimum_may_surprise(facts) && !late && setup.guards.on(Guard::SpikeLateAfterMiss)
}

/// Marks came where no beat is. Where the number is being raised, from now on nobody can say when a spike comes.
pub fn marks_alone(setup: &Setup<'_>, facts: Facts) -> Facts {
    let next = Facts { marks: facts.marks.and(Marks::MARKS_WITHOUT_BEATS), ..facts };
    if next.step == Step::SenseUp && spike_may_fall_on_t(setup, &next) {
        return time_up(setup, Facts { why_sensing: Why::SpikeMayFallOnT, ..next.broken_off() });
    }
    next
}

fn seen_at_test_rate(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.settled();
    next.saw_at(next.stand.mv);
    if !setup.guards.on(Guard::OutputDownBeforeNumberUp) {
        return number_up(setup, next);
    }
    let seen_to_capture = next.minimum_captures == Known::Yes;
    let captures = seen_to_capture || setup.minimum_may_capture() || next.stand.output == 0;
    if captures && setup.guards.on(Guard::MinimumDoesNotCapture) {
        return not_raised(setup, next);
    }
    if spike_may_fall_on_t(setup, &next) {
        return not_raised(setup, Facts { why_sensing: Why::SpikeMayFallOnT, ..next });
    }
    turn(next, Step::SenseMinimum, Dial::Output, 0)
}

/// The number stays where it saw every beat.
fn not_raised(setup: &Setup<'_>, facts: Facts) -> Facts {
    let at = facts.stand.mv;
    capture::begin(setup, Facts { sensing: Found::SeenWhereItStood, sensing_at: at, ..facts })
}

/// A spike at minimum output made a beat: the number is not raised, and goes down at once if it was.
fn minimum_captures(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.settled();
    next.minimum_captures = Known::Yes;
    next.marks = next.marks.and(Marks::SPIKE_AT_MINIMUM_MADE_A_BEAT);
    if facts.step == Step::SenseMinimum && !setup.guards.on(Guard::MinimumDoesNotCapture) {
        return number_up(setup, next);
    }
    time_up(setup, next)
}

/// Up by strides of at most half the present value, but not to a number that has missed in this check; at
/// the last number the search is over.
fn number_up(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    if spike_may_fall_on_t(setup, &facts) {
        return time_up(setup, Facts { why_sensing: Why::SpikeMayFallOnT, ..facts });
    }
    let stride = mv_stride_up(setup.profile, setup.rules, facts.stand.mv);
    let below_missed =
        if facts.missed == NONE { setup.profile.mv_last() } else { facts.missed.saturating_sub(1) };
    match stride.map(|to| to.min(below_missed)) {
        Some(to) if to > facts.stand.mv => turn(facts, Step::SenseUp, Dial::Mv, to),
        _ if facts.saw == NONE => finished(setup, facts, Found::SeenAtNone, NONE),
        None => finished(setup, facts, Found::AtLeast, facts.saw),
        Some(_) => finished(setup, facts, Found::Exact, facts.saw),
    }
}

/// Only down, one position a card, from where it was missed.
fn number_down(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    match facts.stand.mv.checked_sub(1) {
        Some(to) => turn(facts, Step::SenseDown, Dial::Mv, to),
        None => finished(setup, facts, Found::SeenAtNone, NONE),
    }
}

/// A pause as long as the set interval, then a spike: watch again, twice, then "at least".
fn pause(setup: &Setup<'_>, facts: Facts) -> Facts {
    let next = Facts { pauses: facts.pauses + 1, ..facts };
    if next.pauses > 2 { time_up(setup, next.broken_off()) } else { again(next) }
}

/// The search at minimum output is over without a miss: what was seen last is "at least".
pub fn time_up(setup: &Setup<'_>, facts: Facts) -> Facts {
    let raised = facts.saw != NONE && (facts.back_to.mv == ASYNCHRONOUS || facts.saw > facts.back_to.mv);
    match (raised, facts.saw) {
        (_, NONE) => finished(setup, facts, Found::SeenAtNone, NONE),
        (true, saw) => finished(setup, facts, Found::AtLeast, saw),
        (false, saw) => finished(setup, facts, Found::SeenWhereItStood, saw),
    }
}

fn finished(setup: &Setup<'_>, facts: Facts, kind: Found, at: Position) -> Facts {
    let next = Facts { sensing: kind, sensing_at: at, ..facts.settled() };
    if kind == Found::SeenAtNone {
        return seen_at_none(next);
    }
    if setup.guards.on(Guard::NumberDownBeforeOutputUp) {
        way_out(setup, next)
    } else {
        output_out(setup, next)
    }
}

/// No number sees: RATE above the own beats first, so that no spike can fall between them; OUTPUT last.
fn seen_at_none(facts: Facts) -> Facts {
    let marks = facts.marks.and(Marks::STILL_BLIND);
    let mut next = Facts { marks, ..facts };
    next.not_tested(Why::NumberNotSeen);
    restore::open_row(next, Row::Blind)
}

/// mV first: the lower number of the restore target and the unit's rule.
fn way_out(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = facts.settled();
    let to = number_out(setup, &facts);
    if facts.stand.mv == to && !facts.in_doubt(Dial::Mv) {
        return output_out(setup, facts);
    }
    turn(facts, Step::SenseMvOut, Dial::Mv, to)
}

fn number_out(setup: &Setup<'_>, facts: &Facts) -> Position {
    let number = restore::target(setup, facts).mv;
    number.min(restore::rule_position(setup, facts).unwrap_or(number))
}

/// Where nothing lower is left, spikes would fall through own beats: RATE above them first.
fn further_down(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts;
    next.missed_at(facts.to);
    if number_out(setup, &next) >= facts.to && setup.guards.on(Guard::NumberDownBeforeOutputUp) {
        return seen_at_none(next.settled());
    }
    way_out(setup, next)
}

fn output_out(setup: &Setup<'_>, facts: Facts) -> Facts {
    let output = restore::target(setup, &facts).output;
    turn(facts, Step::SenseOutputOut, Dial::Output, output)
}
