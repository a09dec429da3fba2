//! Before anything is unplugged: the patient, the order, the old dials, the new box running and set, standby.

use super::answer::Answer;
use super::carry;
use super::facts::{Block, Done, Facts, Own, Place, Standby, Work};
use super::step::Step;
use super::{Setup, ask, over};
use crate::check::facts::{Dial, Dials};

/// What another box needs, in this order, each with the card that asks it.
const FOR_BOX: [(Done, Step); 12] = [
    (Done::LOOKED, Step::Look),
    (Done::SHARED, Step::Shared),
    (Done::ORDER, Step::Order),
    (Done::OLD_READ, Step::ReadOld),
    (Done::PICKED, Step::PickBox),
    (Done::SOUND, Step::Sound),
    (Done::RUNS, Step::NewOn),
    (Done::MODE, Step::NewMode),
    (Done::RATE, Step::NewRate),
    (Done::OUTPUT, Step::NewOutput),
    (Done::MV, Step::NewMv),
    (Done::NEW_READ, Step::ReadNew),
];
const FOR_BATTERY: [(Done, Step); 5] = [
    (Done::LOOKED, Step::Look),
    (Done::SHARED, Step::Shared),
    (Done::ORDER, Step::Order),
    (Done::OLD_READ, Step::ReadOld),
    (Done::SOUND, Step::Sound),
];

/// Opens the card of the first thing that is not done; when all is, the act itself.
pub fn next(facts: Facts) -> Facts {
    if facts.place == Place::New {
        return ask(facts, Step::LookNew);
    }
    if facts.is_urgent() && !facts.is_off() {
        return ask(facts, Step::ReadEnd);
    }
    let needs: &[(Done, Step)] = match facts.work {
        Work::Box => &FOR_BOX,
        Work::Battery => &FOR_BATTERY,
    };
    if let Some((_, step)) = needs.iter().find(|(done, _)| !facts.done.has(*done)) {
        return ask(facts, *step);
    }
    if facts.work == Work::Battery && facts.own != Own::Shown {
        return ask(facts, Step::UseBox);
    }
    if !facts.is_off() && !facts.is_covered() {
        return ask(facts, Step::Standby);
    }
    if !facts.done.has(Done::READY) {
        return ask(facts, Step::Ready);
    }
    let facts = Facts { opened: true, ..facts };
    match facts.work {
        Work::Box => ask(Facts { place: Place::Between, ..facts }, Step::Move),
        Work::Battery => ask(Facts { old_on: false, ..facts }, Step::BatteryOut),
    }
}

fn done(facts: Facts, what: Done) -> Facts {
    next(Facts { done: facts.done.and(what), ..facts })
}

fn block(facts: Facts, why: Block) -> Facts {
    Facts { block: Some(why), ..over(facts, Step::Blocked) }
}

pub fn prepares(step: Step) -> bool {
    use Step as S;
    matches!(
        step,
        S::Look
            | S::Shared
            | S::Order
            | S::UseBox
            | S::ReadOld
            | S::PickBox
            | S::Sound
            | S::NewOn
            | S::NewMode
            | S::NewRate
            | S::NewOutput
            | S::NewMv
            | S::ReadNew
            | S::NewDiffers
            | S::Standby
            | S::Ready
    )
}

/// Own beats seen long ago count no more; once a connection is open the card stands.
pub fn own_old(facts: Facts) -> Facts {
    let waits = facts.own == Own::Shown && facts.place == Place::Old && facts.old_on;
    if !waits {
        return facts;
    }
    let stale = Facts {
        own: Own::NotLooked,
        done: facts.done.less(Done::LOOKED.and(Done::ORDER).and(Done::READY)),
        ..facts
    };
    if prepares(facts.step) { next(stale) } else { stale }
}

pub fn answer(setup: &Setup<'_>, facts: Facts, answer: Answer) -> Option<Facts> {
    use Answer as A;
    use Step as S;
    Some(match (facts.step, answer) {
        (S::Look, A::Paced) => looked(facts, Own::NotShown),
        (S::Look, A::OnlyOwn) => looked(facts, Own::Shown),
        (S::Shared, A::Yes) => shared(setup, facts),
        (S::Shared, A::No) => done(Facts { shared: false, ..facts }, Done::SHARED),
        (S::Order, A::Yes) => done(facts, Done::ORDER),
        (S::Order, A::No) => block(facts, Block::Order),
        (S::UseBox, A::OtherBox) => next(Facts { work: Work::Box, ..facts }),
        (S::UseBox | S::Blocked, A::Close) => ask(facts, S::Ended),
        (S::ReadOld, A::Read(old)) => done(Facts { old, ..facts }, Done::OLD_READ),
        (S::PickBox, A::Picked) => picked(setup, facts),
        (S::Sound, A::AllTrue) => done(facts, Done::SOUND),
        (S::Sound, A::No) => block(facts, Block::NotSound),
        (S::NewOn, A::Yes) => done(facts, Done::RUNS),
        (S::NewOn, A::No) => block(facts, Block::BoxOff),
        (S::NewMode, A::Yes) => done(facts, Done::MODE),
        (S::NewMode, A::No) => block(facts, Block::WrongMode),
        (S::NewRate, A::Stands) => done(facts, Done::RATE),
        (S::NewOutput, A::Stands) => done(facts, Done::OUTPUT),
        (S::NewMv, A::Stands) => done(facts, Done::MV),
        (S::ReadNew, A::Read(read)) if read == facts.new => {
            done(Facts { new_on: true, read: Dials::UNREAD, ..facts }, Done::NEW_READ)
        }
        (S::ReadNew, A::Read(read)) => ask(Facts { read, ..facts }, S::NewDiffers),
        (S::NewDiffers, A::Back) => set_again(facts),
        (S::Standby, A::Yes) => next(Facts { standby: tested(facts), ..facts }),
        (S::Standby, A::No) if facts.place == Place::New => ask(facts, S::LookNew),
        (S::Standby, A::No) => block(facts, Block::NoStandby),
        (S::Ready, A::AllTrue) => done(facts, Done::READY),
        (S::Ready, A::No) => block(facts, Block::NotReady),
        (S::Blocked, A::Back) => put_right(facts),
        _ => return None,
    })
}

fn looked(facts: Facts, own: Own) -> Facts {
    let facts = Facts { own, done: facts.done.and(Done::LOOKED), ..facts };
    let to_box = facts.work == Work::Battery && own == Own::NotShown;
    if to_box { ask(facts, Step::UseBox) } else { next(facts) }
}

/// The wire that the patient hangs on leads, and own beats count only when no spike of either wire is among them.
fn shared(setup: &Setup<'_>, facts: Facts) -> Facts {
    if setup.ventricle_first {
        return block(facts, Block::VentricleFirst);
    }
    let both = Facts { shared: true, ..facts };
    if facts.own != Own::Shown {
        return done(both, Done::SHARED);
    }
    let seen_of_one = Facts { own: Own::NotLooked, done: facts.done.less(Done::LOOKED), ..both };
    done(seen_of_one, Done::SHARED)
}

/// The question of the card asks for what this patient needs.
fn tested(facts: Facts) -> Standby {
    if facts.own == Own::Shown { Standby::Ready } else { Standby::Captures }
}

fn picked(setup: &Setup<'_>, facts: Facts) -> Facts {
    let facts = without_box(facts);
    match carry::asked(setup.old, setup.new, setup.chamber, facts.old) {
        Ok(new) => done(Facts { new, ..facts }, Done::PICKED),
        Err(why) => block(facts, why),
    }
}

/// Nothing of another box is done.
pub fn without_box(facts: Facts) -> Facts {
    Facts {
        done: facts.done.less(Done::NEW_BOX.and(Done::PICKED).and(Done::READY)),
        new: Dials::UNREAD,
        new_on: false,
        ..facts
    }
}

/// The dials that were read to stand elsewhere are set once more.
fn set_again(facts: Facts) -> Facts {
    let dials = [(Dial::Rate, Done::RATE), (Dial::Output, Done::OUTPUT), (Dial::Mv, Done::MV)];
    let differ = dials.into_iter().filter(|(dial, _)| facts.read.at(*dial) != facts.new.at(*dial));
    let undone = differ.fold(facts.done, |done, (_, which)| done.less(which));
    next(Facts { done: undone, read: Dials::UNREAD, ..facts })
}

/// A box that is not sound, or cannot do what is asked, gives way to another; the rest is asked again.
fn put_right(facts: Facts) -> Facts {
    let other = facts.work == Work::Box && matches!(facts.from, Step::Sound | Step::NewOn | Step::NewMode);
    match facts.from {
        _ if other => next(without_box(facts)),
        step => ask(facts, step),
    }
}
