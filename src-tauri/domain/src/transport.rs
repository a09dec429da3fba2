//! A patient on the way: a state machine beside the check, over `Facts`.
//!
//! Pads first, then what goes along; the dials read once per change of hands; on the way a look at capture and
//! pulse after each change of bed or vehicle; no threshold is sought until the patient has arrived. The order is
//! common practice, no source; local procedure comes first.

#![allow(
    clippy::wildcard_enum_match_arm,
    reason = "a card names the answers it takes; all others are refused in one place, and the walk tries them all"
)]

pub mod answer;
pub mod facts;
pub mod offer;
pub mod step;
mod trouble;

use answer::{Answer, Gap, Target};
use facts::{Facts, Leg};
use step::Step;

/// The next facts, or `None` where the card does not take this answer. `before`: for a slip.
pub fn answer(before: Option<&Facts>, facts: &Facts, answer: Answer) -> Option<Facts> {
    if !offer::is_open(before, facts, answer) {
        return None;
    }
    let facts = *facts;
    always(before, facts, answer)
        .or_else(|| leaving(facts, answer))
        .or_else(|| comparing(facts, answer))
        .or_else(|| on_the_way(facts, answer))
        .or_else(|| trouble::answer(facts, answer))
}

/// The card a slip goes back to: a break and a slip use it up, side cards keep it.
pub fn kept_before(before: Option<Facts>, facts: &Facts, answer: Answer, opened: &Facts) -> Option<Facts> {
    match answer {
        Answer::Woke(_) | Answer::Slip => None,
        Answer::Wrong => before,
        Answer::Back if facts.step.is_side() => before,
        _ if facts == opened => before,
        _ => Some(*facts),
    }
}

fn always(before: Option<&Facts>, facts: Facts, answer: Answer) -> Option<Facts> {
    Some(match answer {
        Answer::NoBeats => trouble::no_beats(facts),
        Answer::Wrong => over(facts, Step::Wrong),
        Answer::Slip => slip(before, facts),
        Answer::Stop => stop(facts),
        Answer::Woke(gap) => woke(facts, gap),
        _ => return None,
    })
}

pub(crate) fn ask(facts: Facts, step: Step) -> Facts {
    let from = if step.is_side() { facts.from } else { step };
    Facts { step, from, ..facts }
}

/// Opens a card over this one.
pub(crate) fn over(facts: Facts, step: Step) -> Facts {
    let from = if facts.step.is_side() { facts.from } else { facts.step };
    ask(Facts { from, ..facts }, step)
}

fn woke(facts: Facts, gap: Gap) -> Facts {
    let long = gap == Gap::Long || facts.away == Some(Gap::Long);
    let away = Some(if long { Gap::Long } else { Gap::Short });
    let compared = if long { 0 } else { facts.compared };
    over(Facts { away, compared, ..facts }, Step::AwayLook)
}

/// From "Something is wrong": after a break the patient is still to be looked at.
pub(crate) fn go_on(facts: Facts) -> Facts {
    ask(facts, if facts.away.is_some() { Step::AwayLook } else { facts.from })
}

/// The patient was looked at. After a long break others may have turned a dial.
pub(crate) fn looked_after_break(facts: Facts) -> Facts {
    let seen = Facts { away: None, ..facts };
    let is_long = facts.away == Some(Gap::Long);
    match (facts.leg, facts.from) {
        (Leg::OnTheWay, Step::OnTheWay | Step::Change) if is_long => ask(seen, Step::Unchanged),
        (Leg::Leaving, Step::Margin | Step::Initials | Step::LookLeave) if is_long => {
            compare(seen, seen.hands)
        }
        (Leg::Leaving | Leg::OnTheWay | Leg::Arriving, from) => ask(seen, from),
    }
}

/// What was seen of the patient is not taken back.
fn slip(before: Option<&Facts>, facts: Facts) -> Facts {
    let Some(before) = before.copied() else { return facts };
    if facts.step == Step::Wrong {
        return go_on(facts);
    }
    Facts { no_beats: facts.no_beats, shock: facts.shock, ..before }
}

/// Before it has begun nothing was moved; after, wherever the patient is now is the place of arrival.
fn stop(facts: Facts) -> Facts {
    match facts.leg {
        Leg::Leaving => ask(facts, Step::Ended),
        Leg::OnTheWay | Leg::Arriving => arrive(facts),
    }
}

fn arrive(facts: Facts) -> Facts {
    ask(Facts { leg: Leg::Arriving, in_vehicle: false, named: false, ..facts }, Step::SayNames)
}

/// The dials of each wire, from the first on.
pub(crate) fn compare(facts: Facts, hands: bool) -> Facts {
    read(Facts { hands, ..facts }, 0)
}

/// What was read for this change of hands is not asked for again, only what it means.
fn read(facts: Facts, wire: u8) -> Facts {
    let is_done = facts.leg == Leg::Leaving && facts.hands && facts.compared >> wire & 1 == 1;
    ask(Facts { wire, ..facts }, if is_done { Step::Margin } else { Step::Read })
}

fn leaving(facts: Facts, answer: Answer) -> Option<Facts> {
    use Answer as A;
    use Step as S;
    Some(match (facts.step, answer) {
        (S::Destination, A::Going(Target::Mri)) => ask(facts, S::MriStop),
        (S::Destination, A::Going(_)) => ask(Facts { aimed: true, ..facts }, S::Pads),
        (S::MriStop, A::Back) => ask(facts, S::Destination),
        (S::MriStop, A::Close) => ask(facts, S::Ended),
        (S::Pads, A::Yes) => ask(facts, S::Carry),
        (S::Carry, A::AllTrue) => compare(Facts { ready: true, ..facts }, true),
        (S::Pads | S::Carry, A::No) => over(facts, S::NotReady),
        (S::NotReady, A::Back) => ask(facts, facts.from),
        (S::NotReady, A::Close) => ask(facts, S::Ended),
        (S::LookLeave, A::Yes) => ask(Facts { leg: Leg::OnTheWay, ..facts }, S::OnTheWay),
        (S::LookLeave, A::No) => trouble::capture_lost(facts),
        _ => return None,
    })
}

/// One wire after the other; then who hands over and who takes over, where the hands change.
fn comparing(facts: Facts, answer: Answer) -> Option<Facts> {
    use Answer as A;
    use Step as S;
    Some(match (facts.step, answer) {
        (S::Read, A::Read) => ask(facts, S::Margin),
        (S::Margin, A::Back) => ask(facts, S::Read),
        (S::Margin, A::AllTrue) if facts.wire + 1 < facts.wires => read(facts, facts.wire + 1),
        (S::Margin, A::AllTrue) if facts.hands => ask(facts, S::Initials),
        (S::Margin, A::AllTrue) => compared(facts),
        (S::Initials, A::Signed) => compared(facts),
        _ => return None,
    })
}

/// On with what is not done yet: trouble may have come before it.
fn compared(facts: Facts) -> Facts {
    let next = match facts.leg {
        Leg::Leaving if !facts.aimed => Step::Destination,
        Leg::Leaving if !facts.ready => Step::Pads,
        Leg::Leaving => Step::LookLeave,
        Leg::OnTheWay => Step::OnTheWay,
        Leg::Arriving if !facts.named => Step::SayNames,
        Leg::Arriving => Step::LookArrived,
    };
    ask(Facts { hands: false, ..facts }, next)
}

fn on_the_way(facts: Facts, answer: Answer) -> Option<Facts> {
    use Answer as A;
    use Step as S;
    Some(match (facts.step, answer) {
        (S::OnTheWay, A::Changed) => ask(facts, S::Change),
        (S::OnTheWay, A::Arrived) => arrive(facts),
        (S::Change, A::AnotherBed) => ask(facts, S::Unchanged),
        (S::Change, A::IntoVehicle) => ask(Facts { in_vehicle: true, ..facts }, S::Unchanged),
        (S::Change, A::OutOfVehicle) => ask(Facts { in_vehicle: false, ..facts }, S::Unchanged),
        (S::Change, A::OtherTeam) => compare(facts, true),
        (S::Change, A::Back) => ask(facts, S::OnTheWay),
        (S::Unchanged, A::Yes) => ask(Facts { looks: facts.looks.saturating_add(1), ..facts }, S::OnTheWay),
        (S::Unchanged, A::DialChanged) => compare(facts, false),
        (S::Unchanged | S::LookArrived, A::No) => trouble::capture_lost(facts),
        (S::SayNames, A::Yes) => compare(Facts { named: true, ..facts }, true),
        (S::LookArrived, A::Yes) => ask(facts, S::Ended),
        _ => return None,
    })
}
