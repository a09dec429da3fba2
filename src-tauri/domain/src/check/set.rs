//! Stages 5 to 8: set one dial a card, read the dials, confirm at the restored rate, done.

use super::answer::Answer;
use super::facts::{ASYNCHRONOUS, Asynchronous, Dial, Dials, Doubt, Facts, Marks, NONE, Row, Why};
use super::guard::Guard;
use super::offer::is_left_asynchronous;
use super::restore::Line;
use super::setup::Setup;
use super::step::Step;
use super::target::plan;
use super::turn::{ask, turn, watch};
use super::{capture, conclude, ready, restore, trouble};
use crate::profile::Position;

/// The plan was turned, and read: `Facts::set` when the reading itself is what stands.
pub const AS_READ: u8 = 4;

pub fn answer(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let facts = *facts;
    Some(match (facts.step, answer) {
        (S::SetOutput, Answer::EverySpikeMadeABeat) => {
            let mut next = facts;
            next.held_at(facts.to);
            conclude::rate_card(setup, Facts { set: 1, ..next })
        }
        (S::SetRate, Answer::Fine) => conclude::number_card(setup, Facts { set: 2, ..facts }),
        (S::SetMv, Answer::Fine) if facts.set == 2 => all_set(setup, Facts { set: 3, ..facts }),
        (S::SetMv, Answer::Fine) => all_set(setup, facts),
        (S::SetMv | S::Confirm, Answer::BeatNotMarked) => number_misses(setup, facts),
        (S::SetMv | S::Confirm, Answer::Pause) => number_pauses(setup, facts),
        (S::Confirm, Answer::OwnAmongThem) => out_of_asynchronous(setup, facts),
        (S::Confirm, Answer::SpikeWithoutABeat) if capture::is_lost_at_maximum(setup, &facts) => {
            still_lost(setup, facts)
        }
        (S::SetOutput | S::SetRate | S::Confirm, Answer::SpikeWithoutABeat) => capture::fails(setup, facts),
        // Read and looked at already: what shows in the last look again is called for, not looked for for ever.
        (S::Stays, Answer::AllTrue) if facts.from == S::Confirm => ask(facts, S::Guarded),
        (S::Stays, Answer::AllTrue) => to_reading(setup, Facts { row: Row::NothingTurned, ..facts }),
        (S::Restore, Answer::AllTrue) => restored(setup, facts),
        (S::Restore, Answer::SpikeWithoutABeat) => lost_on_the_way(setup, facts),
        (S::ReadBack, Answer::Read(dials)) => compare(setup, facts, dials),
        (S::ReadBack | S::ReadAfter | S::Differs | S::ReadLower, Answer::No) => ask(facts, S::Reason),
        (S::Reason, Answer::Back) => Facts { step: facts.from, ..facts },
        (S::Differs, Answer::Back) => ask(facts, S::ReadBack),
        (S::ReadLower, Answer::Back) => ask(facts, S::ReadAfter),
        (S::Reason, Answer::ReasonAndName) => reasoned(setup, facts),
        (S::ReadAfter, Answer::Read(dials)) => read_after(facts, dials),
        (S::Confirm, Answer::Fine) => ask(facts, S::Guarded),
        (S::Guarded, Answer::AllTrue) => ask(facts, S::Done),
        (S::Done, Answer::AllTrue) => ask(facts, S::Ended),
        _ => return None,
    })
}

fn to_reading(setup: &Setup<'_>, facts: Facts) -> Facts {
    if setup.guards.on(Guard::ReadBeforeEnd) { ask(facts, Step::ReadBack) } else { ask(facts, Step::Done) }
}

/// OUTPUT has no card of its own where capture was not tested: where each dial stays is said.
fn all_set(setup: &Setup<'_>, facts: Facts) -> Facts {
    let untold = facts.why_capture != Why::None;
    if untold && setup.guards.on(Guard::StaysSaid) {
        return ask(facts, Step::Stays);
    }
    to_reading(setup, Facts { row: Row::NothingTurned, ..facts })
}

/// A reason and who was told: the dials stay as read, or unread; after trouble unread dials end the check.
fn reasoned(setup: &Setup<'_>, facts: Facts) -> Facts {
    match facts.from {
        Step::Differs => {
            let left = differences(setup, &facts).left_alone;
            let marks = if left.is_empty() { facts.marks } else { facts.marks.and(Marks::LEFT_AS_READ) };
            as_read(Facts { marks, ..facts }, facts.stand)
        }
        Step::ReadLower => {
            stay_as_read(Facts { marks: facts.marks.and(Marks::LEFT_AS_READ), ..facts }, facts.stand)
        }
        Step::ReadAfter => ask(facts, Step::Done),
        _ => to_confirming(facts),
    }
}

/// After trouble: the dials as they stand now are the settings to go back to. Where trouble came before the first
/// reading, this is the first.
/// Lower than what was gone back to before, they are put beside it once.
pub fn read_after(facts: Facts, dials: Dials) -> Facts {
    if !read_lower(&facts, dials).is_empty() {
        return ask(facts.standing(dials), Step::ReadLower);
    }
    stay_as_read(facts, dials)
}

fn stay_as_read(facts: Facts, dials: Dials) -> Facts {
    let found = if facts.dials_read() { facts.found } else { dials };
    as_read(Facts { found, ..facts.looked_at_anew() }, dials)
}

/// The dials that do less for the patient than before, each with where it stood then: less output, a slower rate, a
/// number that sees less. Asynchronous that was ordered or set is meant.
pub fn read_lower(facts: &Facts, dials: Dials) -> Vec<Line> {
    if !facts.dials_read() {
        return Vec::new();
    }
    let before = facts.back_to;
    let is_lower = |dial: &Dial| match dial {
        Dial::Output => dials.output < before.output,
        Dial::Rate => dials.rate < before.rate,
        Dial::Mv => dials.mv > before.mv && facts.asynchronous == Asynchronous::No,
    };
    Dial::ALL.into_iter().filter(is_lower).map(|dial| Line { dial, to: before.at(dial) }).collect()
}

/// The dials stay as read: after trouble, or for a reason given.
fn as_read(facts: Facts, dials: Dials) -> Facts {
    to_confirming(Facts { set: AS_READ, ..facts.going_back_to(dials) })
}

/// Beats that stop again in the last look are called for, not looked for for ever; but right behind an emergency own
/// beats under asynchronous pacing are asked for.
fn to_confirming(facts: Facts) -> Facts {
    let just_left = facts.step == Step::ReadAfter && is_left_asynchronous(&facts);
    if facts.marks.has(Marks::NO_BEATS_AGAIN) && !just_left {
        return ask(Facts { step: Step::Confirm, ..facts }, Step::Stays);
    }
    watch(facts, Step::Confirm)
}

/// Every dial of the list stands as listed.
fn as_listed(setup: &Setup<'_>, facts: Facts) -> Facts {
    let wanted = restore::wanted(setup, &facts, facts.row);
    let touched = facts.touched || wanted != facts.stand;
    let lines = restore::lines(setup, &facts, facts.row);
    let turned = lines.iter().fold(facts.turned, |turned, line| turned.and(line.dial));
    Facts { stand: wanted, doubt: Doubt::NONE, touched, turned, ..facts.settled() }
}

/// Nobody knows how far the list was turned: the loss counts at the highest OUTPUT it may have been at. A list
/// that asks for the maximum already cannot ask for more: emergency.
fn lost_on_the_way(setup: &Setup<'_>, facts: Facts) -> Facts {
    let highest = facts.stand.output.max(restore::wanted(setup, &facts, facts.row).output);
    let mut next = restore::broken_off(setup, facts);
    next.lost_at(highest);
    if facts.row == Row::Blind && highest == setup.maximum() {
        return trouble::emergency(setup, next);
    }
    capture::fails(setup, next)
}

fn restored(setup: &Setup<'_>, facts: Facts) -> Facts {
    let next = as_listed(setup, facts);
    to_reading(setup, next)
}

/// The reading against restore, or the plan as turned.
pub fn compare(setup: &Setup<'_>, facts: Facts, dials: Dials) -> Facts {
    let next = facts.standing(dials);
    if dials == expected(setup, &facts) {
        return to_confirming(next);
    }
    if dials.output < lowest_output(setup, &facts) {
        return restore::open_row(next, Row::Set);
    }
    ask(next, Step::Differs)
}

/// Below this OUTPUT stands below both restore and plan.
pub fn lowest_output(setup: &Setup<'_>, facts: &Facts) -> Position {
    restore::target(setup, facts).output.min(plan(setup, facts).output)
}

/// What the reading should say: restore, or the plan as turned; above own where the number is blind.
pub fn expected(setup: &Setup<'_>, facts: &Facts) -> Dials {
    restore::meant(setup, facts, facts.row)
}

/// What the reading at the end found elsewhere, each dial with where it was believed to stand.
pub struct Differences {
    pub put_right: Vec<Line>,
    pub left_alone: Vec<Line>,
}

pub fn differences(setup: &Setup<'_>, facts: &Facts) -> Differences {
    let expected = expected(setup, facts);
    let wanted = restore::wanted(setup, facts, facts.row);
    let differs = |dial: &Dial| facts.stand.at(*dial) != expected.at(*dial);
    let is_put_right = |dial: &Dial| wanted.at(*dial) == expected.at(*dial);
    let line = |dial| Line { dial, to: expected.at(dial) };
    // As on the list: out of asynchronous the number comes before RATE.
    let in_order = restore::in_order(setup, facts, facts.row, wanted);
    let put_right = in_order.into_iter().filter(differs).filter(is_put_right).map(line).collect();
    let left_alone =
        Dial::ALL.into_iter().filter(differs).filter(|dial| !is_put_right(dial)).map(line).collect();
    Differences { put_right, left_alone }
}

/// How far the plan counts as turned where its number has to move once more.
fn set_without_number(facts: &Facts) -> u8 {
    if facts.set == AS_READ { AS_READ } else { facts.set.min(2) }
}

/// The number does not see here: it goes lower by what is known, or somebody is called.
fn number_misses(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = not_back_to_asynchronous(setup, facts.settled());
    let a_second_time = next.marks.has(Marks::DID_NOT_SEE_AS_FOUND);
    next.missed_at(next.stand.mv);
    next.marks = next.marks.and(Marks::DID_NOT_SEE_AS_FOUND);
    next.not_tested(Why::DidNotSee);
    next.set = set_without_number(&next);
    let lower = plan(setup, &next).mv;
    if a_second_time || lower == next.stand.mv {
        next.marks = next.marks.and(Marks::STILL_BLIND);
        let looks_again = facts.step == Step::SetMv && lower < next.stand.mv;
        // Called for only once: a RATE that somebody will not raise is not asked for again.
        let spikes_between = next.stand.rate < restore::blind_rate(setup, &next);
        let rate_above = !facts.marks.has(Marks::STILL_BLIND) && spikes_between;
        return match (rate_above, looks_again) {
            (true, _) => restore::open_row(next, Row::Blind),
            (false, true) => restore::open_row(next, Row::Set),
            (false, false) => stays_and_call(next.marks, next),
        };
    }
    turn(next, Step::SetMv, Dial::Mv, lower)
}

/// Own beats are there: asynchronous that an emergency turned to, or that was read and nobody ordered, is over.
pub fn not_back_to_asynchronous(setup: &Setup<'_>, facts: Facts) -> Facts {
    if matches!(facts.asynchronous, Asynchronous::OrderedToday | Asynchronous::SetForPauses) {
        return facts;
    }
    let read_so = facts.back_to.mv == ASYNCHRONOUS && facts.fallback_mv == NONE;
    let fallback_mv = if read_so { ready::known_to_see(setup) } else { facts.fallback_mv };
    Facts { asynchronous: Asynchronous::No, fallback_mv, ..facts }
}

/// Nothing captures, and it was called for. Own beats are there, else it is NO BEATS: an emergency's asynchronous is
/// left, for a wire that captures again would fall among them.
fn still_lost(setup: &Setup<'_>, facts: Facts) -> Facts {
    let next = capture::still_lost(facts);
    if is_left_asynchronous(&facts) {
        out_of_asynchronous(setup, next)
    } else {
        stays_and_call(next.marks, next)
    }
}

/// Own beats have come back under asynchronous pacing, as it is left from an emergency: a number that sees them.
fn out_of_asynchronous(setup: &Setup<'_>, facts: Facts) -> Facts {
    let set = set_without_number(&facts);
    let fallback_mv = ready::known_to_see(setup);
    let next = Facts { asynchronous: Asynchronous::No, fallback_mv, set, ..facts.settled() };
    let to = plan(setup, &next).mv;
    turn(Facts { fallback_mv: to, ..next }, Step::SetMv, Dial::Mv, to)
}

/// Pauses at the number just set: it sees too much. Back to the found one if that saw every own beat. Not back to an
/// emergency's asynchronous that own beats have ended: they are there.
fn number_pauses(setup: &Setup<'_>, facts: Facts) -> Facts {
    let mut next = facts.settled();
    next.marks = next.marks.and(Marks::PAUSES);
    next.set = set_without_number(&next);
    let back = plan(setup, &next).mv;
    if back == next.stand.mv {
        return stays_and_call(next.marks, next);
    }
    turn(next, Step::SetMv, Dial::Mv, back)
}

/// No other number is known to be better: it stays, and the card says whom to call.
fn stays_and_call(marks: Marks, facts: Facts) -> Facts {
    ask(Facts { marks, ..facts }, Step::Stays)
}
