//! Opening a transport, answering its cards, ending it.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::check::is_asked_again;
use super::typed;
use crate::check::facts::{ASYNCHRONOUS, Dials};
use crate::event::{TransportAnswered, What};
use crate::handover::compare::{Beside, beside_what};
use crate::handover::history::standing;
use crate::handover::known::{Source, known};
use crate::moment::Moment;
use crate::profile::{AsynchronousBy, Profile};
use crate::refusal::Refusal;
use crate::rules::Rules;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, DueNow, Wire};
use crate::state::screen::Screen;
use crate::state::transport::{Hands, KEPT_MOST, Look, OpenTransport, Reading, Told, TransportRecord};
use crate::transport::answer::{Answer, Gap, Target};
use crate::transport::facts::{Facts, Leg};
use crate::transport::offer::has_safety;
use crate::transport::step::Step;
use crate::transport::{self, kept_before};

type Values = BTreeMap<String, String>;

const DESTINATION_MOST: usize = 40;
const INITIALS_MOST: usize = 12;
/// Two readings this near belong to one change of hands (common practice, no source).
const COMPARED_FRESH_MS: i64 = 15 * 60 * 1000;

/// A bed with a wire, and no check or change of box open in it.
pub fn begin(state: &State, bed: u32, now: Moment) -> Result<Vec<What>, Refusal> {
    let found = state.bed(bed).ok_or(Refusal::NotOpen)?;
    if found.transport.is_some() {
        return Ok(vec![What::Went(Screen::Transport { bed })]);
    }
    let wires = u8::try_from(found.wires.len()).unwrap_or(u8::MAX);
    if wires == 0 {
        return Err(Refusal::NotOpen);
    }
    if found.wires.iter().any(|wire| wire.check.is_some()) {
        return Err(Refusal::said(Say::EndCheckFirst));
    }
    if found.wires.iter().any(|wire| wire.swap.is_some()) {
        return Err(Refusal::said(Say::EndSwapFirst));
    }
    let transport = Uuid::from_bytes(now.fresh);
    let just_now: Vec<Option<Reading>> =
        found.wires.iter().map(|wire| compared_just_now(wire, now)).collect();
    let bits = just_now.iter().zip(0_u8..).filter(|(reading, _)| reading.is_some());
    let compared = bits.fold(0, |bits, (_, wire)| bits | 1_u8.checked_shl(wire.into()).unwrap_or(0));
    let readings = just_now.into_iter().flatten().collect();
    let opened = What::TransportOpened { bed, transport, facts: Facts::new(wires, compared), readings };
    Ok(super::practice::broken_off(state).into_iter().chain([opened]).collect())
}

/// Why no check begins in this bed now: no threshold is sought on the way.
pub fn blocks_check(bed: &Bed) -> Option<Say> {
    let open = bed.transport.as_ref()?;
    Some(if open.facts.in_vehicle { Say::NoCheckInVehicle } else { Say::NoCheckOnTheWay })
}

/// An answer with what is given beside it.
struct Given {
    answer: Answer,
    told: Told,
    reading: Option<Reading>,
    away_ms: Option<i64>,
}

fn step(bed: &Bed, open: &OpenTransport, given: Given) -> Result<TransportAnswered, Refusal> {
    let facts = transport::answer(open.before.as_ref(), &open.facts, given.answer);
    let facts = facts.ok_or_else(|| refusal(given.answer, &open.facts))?;
    Ok(TransportAnswered {
        bed: bed.id,
        answer: given.answer,
        before: kept_before(open.before, &open.facts, given.answer, &facts),
        told: given.told,
        reading: given.reading,
        away_ms: given.away_ms.unwrap_or(open.away_ms),
        new_card: facts != open.facts,
        facts,
    })
}

/// Stop stands on every card on which the patient is moved; where it is not taken, it says so.
fn refusal(answer: Answer, facts: &Facts) -> Refusal {
    if answer != Answer::Stop || !has_safety(facts) {
        return Refusal::NotOpen;
    }
    Refusal::said(if facts.away.is_some() { Say::LookFirst } else { Say::TransportNoStop })
}

fn stepped(bed: &Bed, open: &OpenTransport, given: Given, now: Moment) -> Result<Vec<What>, Refusal> {
    let answered = step(bed, open, given)?;
    let ended = (answered.facts.step == Step::Ended).then(|| end(bed, open, &answered, now));
    Ok([What::TransportAnswered(Box::new(answered))].into_iter().chain(ended).collect())
}

fn end(bed: &Bed, open: &OpenTransport, answered: &TransportAnswered, now: Moment) -> What {
    let facts = answered.facts;
    let record = TransportRecord {
        id: open.id,
        began: open.began,
        ended: now,
        no_beats: facts.no_beats,
        shock: facts.shock,
        told: answered.told.clone(),
    };
    What::TransportEnded { bed: bed.id, record: Box::new(record), due: due(&facts, &answered.told) }
}

/// What was seen outweighs that the patient was moved.
fn due(facts: &Facts, told: &Told) -> Option<DueNow> {
    match facts.leg {
        _ if facts.no_beats => Some(DueNow::NoBeats),
        _ if facts.shock => Some(DueNow::Shock),
        Leg::OnTheWay | Leg::Arriving => Some(DueNow::Moved),
        Leg::Leaving if told.readings.iter().any(|reading| !reading.compared.is_same()) => {
            Some(DueNow::Dials)
        }
        Leg::Leaving => None,
    }
}

pub fn answer(state: &State, answer: Answer, now: Moment) -> Result<Vec<What>, Refusal> {
    if matches!(answer, Answer::Going(_) | Answer::Read | Answer::Signed) {
        return Err(Refusal::NotOpen);
    }
    let (bed, open) = state.transport_on_screen().ok_or(Refusal::NotOpen)?;
    let mut told = told_by(open, answer, now);
    // A reading counts once both teams have seen what it means.
    let seen = (open.facts.step, answer) == (Step::Margin, Answer::AllTrue);
    let wire = bed.wires.get(usize::from(open.facts.wire)).map(|wire| wire.id).filter(|_| seen);
    let reading = told.readings.iter_mut().rev().find(|reading| Some(reading.wire) == wire);
    let reading = reading.map(|reading| {
        reading.seen = true;
        reading.clone()
    });
    stepped(bed, open, Given { answer, told, reading, away_ms: None }, now)
}

/// What a tap adds to the story: leaving, a look, the arrival.
fn told_by(open: &OpenTransport, answer: Answer, now: Moment) -> Told {
    let mut told = open.told.clone();
    match (open.facts.step, answer) {
        (Step::LookLeave, Answer::Yes) => told.left = Some(now),
        (Step::OnTheWay, Answer::Arrived) => told.arrived = Some(now),
        (_, Answer::Stop) if open.facts.leg == Leg::OnTheWay => told.arrived = Some(now),
        (_, Answer::Slip) => take_back(&mut told, open.last),
        _ => {}
    }
    let looked = matches!(open.facts.step, Step::LookLeave | Step::Unchanged | Step::LookArrived);
    if looked && answer == Answer::Yes && told.looks.len() < KEPT_MOST {
        told.looks.push(Look { at: now, leg: open.facts.leg, in_vehicle: open.facts.in_vehicle });
    }
    told
}

/// What was told with the last answer; both entries stay in the record.
fn take_back(told: &mut Told, last: Moment) {
    told.looks.retain(|look| look.at != last);
    told.hands.retain(|hands| hands.at != last);
    told.readings.retain(|reading| reading.compared.at != last);
    told.left = told.left.filter(|left| *left != last);
    told.arrived = told.arrived.filter(|arrived| *arrived != last);
}

pub fn going(state: &State, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let (bed, open) = state.transport_on_screen().ok_or(Refusal::NotOpen)?;
    let target = match values.get("target").map(String::as_str).unwrap_or_default() {
        "unit" => Target::Unit,
        "theatre" => Target::Theatre,
        "imaging" => Target::Imaging,
        "hospital" => Target::OtherHospital,
        "mri" => Target::Mri,
        _ => return Err(Refusal::said(Say::NothingTyped { field: Box::new(Say::TargetField) })),
    };
    let destination = match target {
        Target::Mri => None,
        _ => Some(typed::line(values, "destination", Say::DestinationField, DESTINATION_MOST)?),
    };
    let told = Told { target: Some(target), destination, ..open.told.clone() };
    stepped(bed, open, Given { answer: Answer::Going(target), told, reading: None, away_ms: None }, now)
}

pub fn typed_dials(state: &State, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let (bed, open) = state.transport_on_screen().ok_or(Refusal::NotOpen)?;
    let wire = bed.wires.get(usize::from(open.facts.wire)).ok_or(Refusal::NotOpen)?;
    let profile = state.generator(&wire.generator).ok_or(Refusal::NotOpen)?;
    let dials = typed::dials(profile, values)?;
    if dials.mv == ASYNCHRONOUS && profile.asynchronous() == AsynchronousBy::None {
        return Err(Refusal::NotOpen);
    }
    let reading = reading(profile, wire, &state.rules, (dials, open.facts.leg), now);
    // As a handover says, it is set beside that; on the way each reading stands beside the one on leaving.
    let is_first = (open.facts.step, open.facts.leg) == (Step::Read, Leg::Leaving);
    if is_first && !reading.compared.is_same() && is_asked_again(profile, wire, wire.asked_again, dials) {
        return Ok(vec![What::ReadingAskedAgain { bed: bed.id, wire: wire.id, dials }]);
    }
    let mut told = open.told.clone();
    // A typing slip that nobody went on from is not kept; beyond the most the oldest goes.
    told.readings.retain(|earlier| earlier.seen || earlier.wire != wire.id);
    told.readings.drain(..(told.readings.len() + 1).saturating_sub(KEPT_MOST));
    told.readings.push(reading);
    stepped(bed, open, Given { answer: Answer::Read, told, reading: None, away_ms: None }, now)
}

fn reading(
    profile: &Profile,
    wire: &Wire,
    rules: &Rules,
    (dials, leg): (Dials, Leg),
    now: Moment,
) -> Reading {
    let known = known(profile, wire);
    let said = known.dials.as_ref().map(|(_, said)| said);
    Reading {
        wire: wire.id,
        leg,
        by: known.dials.as_ref().map(|(by, _)| *by),
        compared: beside_what(profile, rules, dials, (said, known.thresholds.as_ref()), now),
        seen: false,
    }
}

/// A handover that was compared just now, on the tablet that takes the patient on: once per change of hands.
fn compared_just_now(wire: &Wire, now: Moment) -> Option<Reading> {
    let compared = standing(wire)?.compared.clone().filter(|_| !wire.another_box)?;
    let read_since = wire.standing.as_ref().is_some_and(|standing| standing.at != compared.at);
    let is_fresh = now.since(compared.at).is_some_and(|age| age <= COMPARED_FRESH_MS);
    let is_beside = compared.output != Beside::NotSaid;
    let reading = Reading { wire: wire.id, leg: Leg::Leaving, by: Some(Source::Code), compared, seen: false };
    (is_fresh && is_beside && !read_since).then_some(reading)
}

pub fn signed(state: &State, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let (bed, open) = state.transport_on_screen().ok_or(Refusal::NotOpen)?;
    let from = typed::line(values, "from", Say::InitialsFromField, INITIALS_MOST)?;
    let to = typed::line(values, "to", Say::InitialsToField, INITIALS_MOST)?;
    let mut told = open.told.clone();
    if told.hands.len() < KEPT_MOST {
        told.hands.push(Hands { at: now, from, to });
    }
    stepped(bed, open, Given { answer: Answer::Signed, told, reading: None, away_ms: None }, now)
}

/// On the way the tablet comes back to it, the patient first.
pub fn woke(bed: &Bed, open: &OpenTransport, gap: Gap, away_ms: i64) -> Option<What> {
    let given =
        Given { answer: Answer::Woke(gap), told: open.told.clone(), reading: None, away_ms: Some(away_ms) };
    step(bed, open, given).ok().map(|answered| What::TransportAnswered(Box::new(answered)))
}
