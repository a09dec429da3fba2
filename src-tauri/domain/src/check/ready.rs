//! Stage 1: same patient, order, the list, read the dials, first look.

use super::answer::{Answer, Line};
use super::facts::{
    ASYNCHRONOUS, Asynchronous, AtrialRhythm, Dial, Dials, Facts, FirstLook, Marks, NONE, Turned, Why,
};
use super::guard::Guard;
use super::setup::Setup;
use super::step::Step;
use super::turn::{ask, turn};
use super::{capture, conclude, own, side, trouble};
use crate::profile::Position;
use crate::rules::Chamber;

pub fn answer(setup: &Setup<'_>, facts: &Facts, answer: Answer) -> Option<Facts> {
    use Step as S;
    let facts = *facts;
    Some(match (facts.step, answer) {
        (S::SamePatient, Answer::Yes) if facts.marks.has(Marks::EMERGENCY) => ask(facts, S::ReadAfter),
        (S::SamePatient, Answer::Yes) => ask(facts, S::Order),
        (S::SamePatient, Answer::No) => ask(facts, S::Ended),
        (S::Order, Answer::Yes) if setup.needs_acceptance => ask(facts, S::Accept),
        (S::Order | S::Accept, Answer::Yes) => ask(facts, S::ListFirst),
        (S::Order, Answer::No) => blocked(facts, Line::Order),
        (S::Accept, Answer::No) => blocked(facts, Line::Acceptance),
        (S::ListFirst, Answer::AllTrue) => ask(facts, S::ListSecond),
        (S::ListSecond, Answer::AllTrue) => ask(facts, S::PulseTrace),
        (S::ListFirst | S::ListSecond, Answer::No) => ask(facts, S::WhichLine),
        (S::WhichLine, Answer::Line(line)) => blocked(facts, line),
        (S::WhichLine | S::Blocked, Answer::Back) => back(facts),
        (S::Blocked, Answer::AllTrue) => ask(facts, S::Ended),
        (S::PulseTrace, Answer::Yes) => ask(facts, S::Standby),
        (S::Standby, Answer::Yes) => ask(facts, S::RightWire),
        (S::RightWire, Answer::Yes) if !setup.guards.on(Guard::DialsReadFirst) => ask(facts, S::FirstLook),
        (S::RightWire, Answer::Yes) => ask(facts, S::ReadFound),
        (S::PulseTrace, Answer::No) => blocked(facts, Line::PulseTrace),
        (S::Standby, Answer::No) => blocked(facts, Line::Standby),
        (S::RightWire, Answer::No) => blocked(facts, Line::WireTraced),
        (S::ReadFound, Answer::Read(dials)) => read_found(facts, dials),
        (S::FirstLook, seen) => return first_look(setup, facts, seen),
        (S::FirstMaximum, Answer::EverySpikeMadeABeat) => {
            let mut next = facts;
            next.held_at(facts.to);
            ask(next, S::FirstConnections)
        }
        (S::FirstMaximum, Answer::SpikeWithoutABeat) => {
            let mut next = facts;
            next.lost_at(facts.to);
            ask(next, S::FirstConnections)
        }
        (S::FirstConnections, Answer::NoPulse) => trouble::emergency(setup, facts),
        (S::FirstConnections, Answer::AllTrue) => conclude::untested(setup, facts, Why::FoundDoesNotCapture),
        (S::Atrium, Answer::WideBeat) => capture::wrong_chamber(setup, facts),
        (S::Atrium, seen) => return atrium(setup, facts, seen),
        (S::AsynchronousOrdered, Answer::Yes) => {
            let marks = facts.marks.and(Marks::ASYNCHRONOUS_ORDERED);
            let ordered = Facts { asynchronous: Asynchronous::OrderedToday, marks, ..facts };
            conclude::untested(setup, ordered, Why::OrderedAsynchronous)
        }
        (S::AsynchronousOrdered, Answer::No) => leave_asynchronous(setup, facts),
        (S::AsynchronousOff, Answer::Fine) => after_asynchronous(setup, facts),
        (S::AsynchronousOff, Answer::BeatNotMarked) => side::number_missed(setup, facts.settled()),
        (S::AsynchronousOff, Answer::Pause) => back_to_asynchronous(facts),
        (S::AsynchronousOff | S::AsynchronousOn, Answer::SpikeWithoutABeat) => capture::fails(setup, facts),
        (S::AsynchronousOn, Answer::EverySpikeMadeABeat) => {
            let mut next = facts;
            next.held_at(facts.stand.output);
            conclude::untested(setup, next, Why::Pauses)
        }
        _ => return None,
    })
}

fn blocked(facts: Facts, line: Line) -> Facts {
    let from = if facts.step == Step::WhichLine { facts.from } else { facts.step };
    Facts { blocked: Some(line), from, ..ask(facts, Step::Blocked) }
}

fn back(facts: Facts) -> Facts {
    Facts { blocked: None, step: facts.from, ..facts }
}

fn read_found(facts: Facts, dials: Dials) -> Facts {
    let asynchronous = if dials.mv == ASYNCHRONOUS { Marks::FOUND_ASYNCHRONOUS } else { Marks(0) };
    let marks = facts.marks.and(asynchronous);
    let read = Facts { found: dials, back_to: dials, stand: dials, turned: Turned::NONE, marks, ..facts };
    ask(read, Step::FirstLook)
}

fn first_look(setup: &Setup<'_>, facts: Facts, seen: Answer) -> Option<Facts> {
    let looked = |first_look| Facts { first_look, ..facts };
    Some(match seen {
        Answer::EveryBeatPaced => {
            let mut next = looked(FirstLook::EveryBeatPaced);
            next.held_at(facts.found.output);
            looked_well(setup, next)
        }
        Answer::OnlyOwn => looked_well(setup, looked(FirstLook::OnlyOwn)),
        Answer::BothSeen => looked_well(setup, looked(FirstLook::Both)),
        Answer::SpikesWithoutBeats => {
            let mut next = looked(FirstLook::SpikesWithoutBeats);
            next.lost_at(facts.found.output);
            next.marks = next.marks.and(Marks::FOUND_DID_NOT_CAPTURE);
            to_maximum(setup, next)
        }
        _ => return None,
    })
}

/// OUTPUT to maximum in one act; where it stands there already, connections and the call come next.
fn to_maximum(setup: &Setup<'_>, facts: Facts) -> Facts {
    if facts.found.output == setup.maximum() {
        ask(facts, Step::FirstConnections)
    } else {
        turn(facts, Step::FirstMaximum, Dial::Output, setup.maximum())
    }
}

fn looked_well(setup: &Setup<'_>, facts: Facts) -> Facts {
    if facts.found.mv == ASYNCHRONOUS {
        return ask(facts, Step::AsynchronousOrdered);
    }
    ask_atrium_or_begin(setup, facts)
}

fn ask_atrium_or_begin(setup: &Setup<'_>, facts: Facts) -> Facts {
    if setup.chamber == Chamber::Atrium && facts.atrium == AtrialRhythm::NotAsked {
        return ask(facts, Step::Atrium);
    }
    own::begin(setup, facts)
}

fn atrium(setup: &Setup<'_>, facts: Facts, seen: Answer) -> Option<Facts> {
    let (rhythm, why) = match seen {
        Answer::PWavesSeen => (AtrialRhythm::PWaves, Why::None),
        Answer::FibrillationOrFlutter => (AtrialRhythm::FibrillationOrFlutter, Why::AtrialFibrillation),
        Answer::NoPWaves => (AtrialRhythm::NoPWaves, Why::NoPWaves),
        _ => return None,
    };
    let next = Facts { atrium: rhythm, ..facts };
    Some(if why == Why::None { own::begin(setup, next) } else { conclude::untested(setup, next, why) })
}

/// mV first, to the last number known to see, else the unit's starting number; OUTPUT is not touched.
fn leave_asynchronous(setup: &Setup<'_>, facts: Facts) -> Facts {
    let number = known_to_see(setup);
    if !setup.guards.on(Guard::RateKeptWhileAsynchronous) {
        return own::begin(setup, facts);
    }
    turn(Facts { fallback_mv: number, ..facts }, Step::AsynchronousOff, Dial::Mv, number)
}

/// The last number known to see, else the unit's starting number.
pub fn known_to_see(setup: &Setup<'_>) -> Position {
    if setup.last_seen == NONE { setup.starting_mv() } else { setup.last_seen }
}

fn after_asynchronous(setup: &Setup<'_>, facts: Facts) -> Facts {
    ask_atrium_or_begin(setup, facts.settled())
}

fn back_to_asynchronous(facts: Facts) -> Facts {
    let marks = facts.marks.and(Marks::PAUSES);
    let next = Facts { asynchronous: Asynchronous::SetForPauses, marks, ..facts };
    turn(next, Step::AsynchronousOn, Dial::Mv, ASYNCHRONOUS)
}

/// NO BEATS at the first look, before anything was turned: the emergency card at once.
pub fn no_beats_at_first_look(setup: &Setup<'_>, facts: Facts) -> Facts {
    let marks = facts.marks.and(Marks::NO_BEATS);
    let mut next = Facts { first_look: FirstLook::NoBeats, no_beats: true, marks, ..facts };
    next.not_tested(Why::NoBeats);
    trouble::emergency(setup, next)
}
