//! After a break the patient comes first, then where the pins are: others may have moved them.

use super::answer::{Answer, Gap};
use super::facts::{Away, Done, Facts, Own, Place, Standby, Work};
use super::step::Step;
use super::{ask, back_to_old, over, prepare};

/// What was seen before a long break is not known after it.
pub fn woke(facts: Facts, gap: Gap) -> Facts {
    let facts = match gap {
        Gap::Short => Facts { away: facts.away.max(Away::Short), ..facts },
        Gap::Long => Facts { away: Away::Long, ..anew(facts) },
    };
    over(facts, Step::AwayLook)
}

fn anew(facts: Facts) -> Facts {
    let gone = Done::LOOKED.and(Done::READY).and(Done::NEW_READ).and(Done::RUNS);
    Facts { own: Own::NotLooked, standby: Standby::Unknown, done: facts.done.less(gone), ..facts }
}

/// From a card that opened over another one: what a break left is asked first.
pub fn go_on(facts: Facts) -> Facts {
    match facts.away {
        Away::No => ask(facts, facts.from),
        Away::Short => ask(facts, Step::AwayLook),
        Away::Long => ask(facts, Step::AwayWhere),
    }
}

/// Trouble that came in a break has been met: where the pins are is still not known.
pub fn then(facts: Facts, step: Step) -> Facts {
    match facts.away {
        Away::Long => ask(facts, Step::AwayWhere),
        Away::No | Away::Short => ask(Facts { away: Away::No, ..facts }, step),
    }
}

pub fn asks_where(facts: Facts) -> Facts {
    over(Facts { away: Away::Long, ..anew(facts) }, Step::AwayWhere)
}

pub fn answer(facts: Facts, answer: Answer) -> Option<Facts> {
    use Answer as A;
    Some(match (facts.step, answer) {
        (Step::AwayLook, A::Yes) if facts.away == Away::Long || facts.is_off() => asks_where(facts),
        (Step::AwayLook, A::Yes) => ask(Facts { away: Away::No, ..facts }, facts.from),
        (Step::AwayWhere, A::PinsOld) => in_the_old(Facts { away: Away::No, ..facts }),
        (Step::AwayWhere, A::PinsNew) => in_the_new(Facts { away: Away::No, ..facts }),
        (Step::AwayWhere, A::PinsNeither) => in_neither(Facts { away: Away::No, ..facts }),
        _ => return None,
    })
}

/// Once a connection was open, capture and pulse are looked at; before, the preparation goes on.
fn in_the_old(facts: Facts) -> Facts {
    // What was asked of another box says nothing of this one.
    let maximum = facts.maximum && facts.place == Place::Old;
    let facts = Facts { place: Place::Old, old_on: true, new_on: false, maximum, ..facts };
    match facts.work {
        _ if facts.is_urgent() => ask(facts, Step::ReadEnd),
        Work::Battery if facts.opened => ask(facts, Step::LookBattery),
        Work::Box if facts.opened && is_going_back(facts.from) => ask(facts, Step::LookBack),
        Work::Battery | Work::Box => prepare::next(facts),
    }
}

fn is_going_back(from: Step) -> bool {
    matches!(from, Step::BackToOld | Step::LookBack | Step::ReadEnd | Step::EndDiffers)
}

fn in_the_new(facts: Facts) -> Facts {
    let maximum = facts.maximum && facts.place == Place::New;
    ask(Facts { place: Place::New, new_on: true, opened: true, maximum, ..facts }, Step::LookNew)
}

fn in_neither(facts: Facts) -> Facts {
    match facts.work {
        Work::Battery => ask(Facts { old_on: false, opened: true, ..facts }, Step::BatteryBack),
        Work::Box => back_to_old(Facts { place: Place::Between, ..facts }),
    }
}
