//! Opening a swap, answering its cards, ending it.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::check::{NAME_MOST, REASON_MOST, is_asked_again};
use super::typed;
use crate::check::facts::{Dials, Phase};
use crate::event::{SwapAnswered, What};
use crate::moment::Moment;
use crate::record::Printed;
use crate::refusal::Refusal;
use crate::rules::Chamber;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, DueNow, Standing, Wire};
use crate::state::screen::Screen;
use crate::state::swap::{Names, OpenSwap, Outcome, SwapRecord};
use crate::swap::answer::{Answer, Gap};
use crate::swap::facts::{Away, Facts, Place, Work};
use crate::swap::step::Step;
use crate::swap::{self, Refused, Setup, kept_before, offer};

type Values = BTreeMap<String, String>;

/// An answer with what is given beside it.
struct Given {
    answer: Answer,
    names: Option<Names>,
    new: Option<String>,
    away_ms: Option<i64>,
}

impl Given {
    fn plain(answer: Answer) -> Given {
        Given { answer, names: None, new: None, away_ms: None }
    }
}

/// Not beside an open check of the bed: one hand, one guide.
pub fn begin(state: &State, bed: u32, wire: u32, work: Work, now: Moment) -> Result<Vec<What>, Refusal> {
    let found = state.bed(bed).ok_or(Refusal::NotOpen)?;
    let this = state.wire(bed, wire).ok_or(Refusal::NotOpen)?;
    if this.swap.is_some() {
        return Ok(vec![What::Went(Screen::Swap { bed, wire })]);
    }
    if found.wires.iter().any(|wire| wire.check.is_some()) {
        return Err(Refusal::said(Say::EndCheckFirst));
    }
    if found.wires.iter().any(|wire| wire.swap.is_some()) {
        return Err(Refusal::said(Say::EndSwapFirst));
    }
    let swap = Uuid::from_bytes(now.fresh);
    let opened = What::SwapOpened { bed, wire, swap, facts: Facts::new(work) };
    Ok(super::practice::broken_off(state).into_iter().chain([opened]).collect())
}

/// Builds the read-only surroundings of an open swap and lends them.
pub fn with_swap<R>(
    state: &State,
    bed: u32,
    wire: u32,
    lend: impl FnOnce(&Setup<'_>, &OpenSwap) -> R,
) -> Option<R> {
    let this = state.wire(bed, wire)?;
    let open = this.swap.as_ref()?;
    Some(lend(&setup(state, bed, this, open.new.as_deref())?, open))
}

fn setup<'a>(state: &'a State, bed: u32, wire: &Wire, new: Option<&str>) -> Option<Setup<'a>> {
    let old = state.generator(&wire.generator)?;
    let new = new.map_or(Some(old), |id| state.generator(id))?;
    let others = state.bed(bed)?.may_share(wire);
    // A wire that is not on this tablet may be a ventricular one.
    let all_atrial = !others.is_empty() && others.iter().all(|other| other.chamber == Chamber::Atrium);
    let ventricle_first = wire.chamber == Chamber::Atrium && !all_atrial;
    Some(Setup { old, new, chamber: wire.chamber, ventricle_first, rules: &state.rules })
}

fn step(state: &State, bed: u32, wire: u32, given: Given, now: Moment) -> Result<SwapAnswered, Refusal> {
    let this = state.wire(bed, wire).ok_or(Refusal::NotOpen)?;
    let open = this.swap.as_ref().ok_or(Refusal::NotOpen)?;
    let new = given.new.or_else(|| open.new.clone());
    let setup = setup(state, bed, this, new.as_deref()).ok_or(Refusal::NotOpen)?;
    let facts = swap::answer(&setup, open.before.as_ref(), &open.facts, given.answer)
        .map_err(|refused| refusal(refused, given.answer, &open.facts))?;
    let times = open.times.after(&setup, &open.facts, &facts, now);
    let only_opens = matches!(given.answer, Answer::Time(_)) && facts.step == open.facts.step;
    Ok(SwapAnswered {
        bed,
        wire,
        answer: given.answer,
        before: kept_before(open.before, &open.facts, given.answer, &facts),
        times,
        names: given.names.unwrap_or_else(|| open.names.clone()),
        new,
        away_ms: given.away_ms.unwrap_or(open.away_ms),
        new_card: !only_opens && facts != open.facts,
        good_opened: only_opens && facts.phase == Phase::Open && open.facts.phase == Phase::Watching,
        facts,
    })
}

/// Stop stands on every card of a swap; where there is no box to go back to, it says so.
fn refusal(refused: Refused, answer: Answer, facts: &Facts) -> Refusal {
    match (refused, answer) {
        (Refused::NotOpen, Answer::Stop) if facts.away != Away::No => Refusal::said(Say::LookFirst),
        (Refused::NotOpen, Answer::Stop) if offer::has_safety(facts) => Refusal::said(Say::SwapNoWayBack),
        (Refused::NotOpen | Refused::NoSuchPosition, _) => Refusal::NotOpen,
    }
}

fn stepped(state: &State, given: Given, now: Moment) -> Result<Vec<What>, Refusal> {
    let (bed, wire, this, open) = state.swap_on_screen().ok_or(Refusal::NotOpen)?;
    let answered = step(state, bed, wire, given, now)?;
    let ends = answered.facts.step == Step::Ended;
    let ended = ends.then(|| end(state, this, open, &answered, now)).flatten();
    Ok([What::SwapAnswered(Box::new(answered))].into_iter().chain(ended).collect())
}

fn end(state: &State, wire: &Wire, open: &OpenSwap, answered: &SwapAnswered, now: Moment) -> Option<What> {
    let facts = answered.facts;
    let setup = setup(state, answered.bed, wire, answered.new.as_deref())?;
    let profile = setup.box_of(&facts);
    let known = |dials: Dials| (dials != Dials::UNREAD).then_some(dials);
    let left = known(facts.read).filter(|_| facts.opened || facts.is_urgent());
    let outcome = outcome(&facts);
    let record = SwapRecord {
        id: open.id,
        opened: open.opened,
        ended: now,
        work: facts.work,
        outcome,
        own_beats: facts.own == swap::facts::Own::Shown,
        no_beats: facts.no_beats,
        shock: facts.shock,
        shared: facts.shared,
        from: wire.generator.clone(),
        to: profile.id.clone(),
        old: known(facts.old).map(|dials| Printed::of(setup.old, dials)),
        left: left.map(|dials| Printed::of(profile, dials)),
        names: answered.names.clone(),
    };
    Some(What::SwapEnded {
        bed: answered.bed,
        wire: answered.wire,
        standing: left.map(|dials| Standing { dials, printed: Printed::of(profile, dials), at: now }),
        owed: left.is_none() && (facts.opened || facts.is_urgent()),
        due: due(&facts, outcome),
        others: others(state.bed(answered.bed)?, wire, &facts),
        record: Box::new(record),
    })
}

fn outcome(facts: &Facts) -> Outcome {
    match (facts.place, facts.work) {
        (Place::New, _) => Outcome::Moved,
        _ if !facts.opened => Outcome::NothingChanged,
        (Place::Old | Place::Between, Work::Battery) => Outcome::BatteryChanged,
        (Place::Old | Place::Between, Work::Box) => Outcome::BackInTheOld,
    }
}

/// What was opened, or turned up in trouble, was theirs too.
fn others(bed: &Bed, wire: &Wire, facts: &Facts) -> Vec<u32> {
    if !facts.shared || !(facts.opened || facts.is_urgent()) {
        return Vec::new();
    }
    bed.may_share(wire).into_iter().map(|other| other.id).collect()
}

/// What was seen outweighs what was done.
fn due(facts: &Facts, outcome: Outcome) -> Option<DueNow> {
    match outcome {
        _ if facts.no_beats => Some(DueNow::NoBeats),
        _ if facts.shock => Some(DueNow::Shock),
        Outcome::NothingChanged if facts.is_urgent() => Some(DueNow::Dials),
        Outcome::NothingChanged => None,
        Outcome::Moved => Some(DueNow::Generator),
        Outcome::BatteryChanged => Some(DueNow::Battery),
        Outcome::BackInTheOld => Some(DueNow::Reconnected),
    }
}

pub fn answer(state: &State, answer: Answer, now: Moment) -> Result<Vec<What>, Refusal> {
    // What carries a name is taken by `named`.
    let (_, _, _, open) = state.swap_on_screen().ok_or(Refusal::NotOpen)?;
    if offer::is_named(&open.facts, answer) {
        return Err(Refusal::NotOpen);
    }
    stepped(state, Given::plain(answer), now)
}

pub fn named(state: &State, answer: Answer, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let (_, _, _, open) = state.swap_on_screen().ok_or(Refusal::NotOpen)?;
    if !offer::is_named(&open.facts, answer) {
        return Err(Refusal::NotOpen);
    }
    let name = |say: Say| typed::line(values, "name", say, NAME_MOST);
    let mut names = open.names.clone();
    if open.facts.step == Step::Order {
        names.clinician = Some(name(Say::ClinicianField)?);
    } else {
        names.reason = Some(typed::line(values, "reason", Say::ReasonField, REASON_MOST)?);
        names.told = Some(name(Say::ToldField)?);
    }
    stepped(state, Given { names: Some(names), ..Given::plain(answer) }, now)
}

pub fn typed_dials(state: &State, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let (bed, wire, this, _) = state.swap_on_screen().ok_or(Refusal::NotOpen)?;
    let read = with_swap(state, bed, wire, |setup, open| {
        let dials = typed::dials(swap::read_on(setup, &open.facts), values)?;
        let is_first = open.facts.step == Step::ReadOld;
        Ok((dials, is_first && is_asked_again(setup.old, this, this.asked_again, dials)))
    });
    match read.ok_or(Refusal::NotOpen)?? {
        (dials, true) => Ok(vec![What::ReadingAskedAgain { bed, wire, dials }]),
        (dials, false) => stepped(state, Given::plain(Answer::Read(dials)), now),
    }
}

/// Also one of the same type: another box.
pub fn picked(state: &State, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let picked = values.get("generator").map(String::as_str).unwrap_or_default();
    let generator = state.generator(picked).map(|profile| profile.id.clone());
    let new =
        generator.ok_or_else(|| Refusal::said(Say::NothingTyped { field: Box::new(Say::GeneratorField) }))?;
    stepped(state, Given { new: Some(new), ..Given::plain(Answer::Picked) }, now)
}

pub fn woke(state: &State, bed: u32, wire: u32, gap: Gap, away_ms: i64, now: Moment) -> Option<What> {
    let given = Given { away_ms: Some(away_ms), ..Given::plain(Answer::Woke(gap)) };
    step(state, bed, wire, given, now).ok().map(|answered| What::SwapAnswered(Box::new(answered)))
}

pub fn time_passed(state: &State, now: Moment) -> Vec<What> {
    state
        .open_swaps()
        .filter_map(|(bed, wire, _, open)| {
            let (at, up) = open.times.due(&open.facts).filter(|_| open.times.boot == now.boot)?;
            if at > now.boot_ms {
                return None;
            }
            let answered = step(state, bed, wire, Given::plain(Answer::Time(up)), now).ok()?;
            Some(What::SwapAnswered(Box::new(answered)))
        })
        .collect()
}

/// The answer is the one that opens when the watch has passed.
pub fn is_good_on_screen(state: &State, answer: Answer) -> bool {
    state.swap_on_screen().is_some_and(|(.., open)| offer::offer(&open.facts).good == Some(answer))
}
