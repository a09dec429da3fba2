//! Opening a check, answering its cards, ending it.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::typed;
use crate::check::answer::{Answer, Gap};
use crate::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, NONE, Phase};
use crate::check::guard::Guards;
use crate::check::setup::Setup;
use crate::check::{self, Refused, offer, slip};
use crate::ending;
use crate::event::{Answered, What};
use crate::handover::history::newest_handed;
use crate::moment::Moment;
use crate::profile::{Position, Profile};
use crate::record::Record;
use crate::refusal::Refusal;
use crate::rules::Rules;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Names, OpenCheck, Origin, Wire};
use crate::state::screen::Screen;

type CheckStep = crate::check::step::Step;
type Values = BTreeMap<String, String>;

/// A name fits one line of the record.
pub const NAME_MOST: usize = 60;
pub const REASON_MOST: usize = 120;

/// An answer with the names given beside it.
pub struct Step {
    answer: Answer,
    names: Option<Names>,
    away_ms: Option<i64>,
}

impl Step {
    pub fn plain(answer: Answer) -> Step {
        Step { answer, names: None, away_ms: None }
    }

    pub fn woke(gap: Gap, away_ms: i64) -> Step {
        Step { answer: Answer::Woke(gap), names: None, away_ms: Some(away_ms) }
    }
}

/// One check on one wire: not while the patient's other wire has one open.
pub fn begin(state: &State, bed: u32, wire: u32, now: Moment) -> Result<Vec<What>, Refusal> {
    let found = state.bed(bed).ok_or(Refusal::NotOpen)?;
    let this = state.wire(bed, wire).ok_or(Refusal::NotOpen)?;
    if this.check.is_some() {
        return Ok(vec![What::Went(Screen::Check { bed, wire })]);
    }
    if found.wires.iter().any(|other| other.check.is_some()) {
        return Err(Refusal::said(Say::OtherWireOpen));
    }
    if found.wires.iter().any(|other| other.id != wire && other.owed.is_some()) {
        return Err(Refusal::said(Say::OtherWireUnread));
    }
    if found.wires.iter().any(|other| other.swap.is_some()) {
        return Err(Refusal::said(Say::EndSwapFirst));
    }
    if let Some(why) = super::transports::blocks_check(found) {
        return Err(Refusal::said(why));
    }
    if let Some(review) = state.rules.review_passed(now).filter(|_| state.rules.blocks_when_overdue()) {
        return Err(Refusal::said(Say::RulesReviewBlocks { review: review.to_string() }));
    }
    let first = if this.records.is_empty() { CheckStep::Order } else { CheckStep::SamePatient };
    let check = Uuid::from_bytes(now.fresh);
    let opened = What::CheckOpened { bed, wire, check, facts: Facts::new(first) };
    Ok(super::practice::broken_off(state).into_iter().chain([opened]).collect())
}

/// Builds the read-only surroundings of an open check and lends them.
pub fn with_setup<R>(
    state: &State,
    bed: u32,
    wire: u32,
    lend: impl FnOnce(&Setup<'_>, &OpenCheck) -> R,
) -> Option<R> {
    let this = state.checked_wire(bed, wire)?;
    let open = this.check.as_ref()?;
    let profile = state.generator(&this.generator)?;
    Some(lend(&setup(&open.rules, this, profile), open))
}

pub fn setup<'a>(rules: &'a Rules, wire: &Wire, profile: &'a Profile) -> Setup<'a> {
    let same_generator = wire.alike().iter().rev().filter(|record| record.generator == profile.id);
    let last_capture = same_generator.clone().find_map(|r| r.capture_text.as_deref());
    let last_seen = same_generator.clone().find_map(set_where_it_saw);
    Setup {
        profile,
        rules,
        chamber: wire.chamber,
        history: !wire.records.is_empty(),
        needs_acceptance: rules.example && !is_practice(wire),
        last_capture: last_capture.and_then(|text| profile.read_output(text).ok()).unwrap_or(NONE),
        last_seen: last_seen.unwrap_or(NONE),
        guards: Guards::ALL_ON,
    }
}

/// The number it was left at, where that saw every own beat: not the threshold, which has no margin.
fn set_where_it_saw(record: &Record) -> Option<Position> {
    let (left, saw) = (record.stays_at.mv, record.facts.saw);
    (left != ASYNCHRONOUS && left != NONE && saw != NONE && left <= saw).then_some(left)
}

/// A simulated patient needs nobody who accepts example rules.
fn is_practice(wire: &Wire) -> bool {
    wire.check.as_ref().is_some_and(|open| open.origin == Origin::Practice)
}

/// One answer to one open check, with the instants and names that follow.
pub fn step(state: &State, bed: u32, wire: u32, step: Step, now: Moment) -> Result<Answered, Refusal> {
    with_setup(state, bed, wire, |setup, open| {
        let before = open.before.as_ref();
        let facts = check::answer(setup, before, &open.facts, step.answer)
            .map_err(|refused| refusal(setup, &open.facts, refused, step.answer))?;
        let times = open.times.after(setup, &open.facts, &facts, now);
        let same_card = facts.step == open.facts.step && facts.to == open.facts.to;
        let only_opens = matches!(step.answer, Answer::Time(_)) && same_card;
        Ok(Answered {
            bed,
            wire,
            answer: step.answer,
            before: check::kept_before(open.before, &open.facts, step.answer, &facts),
            times,
            names: step.names.unwrap_or_else(|| open.names.clone()),
            away_ms: step.away_ms.unwrap_or(open.away_ms),
            new_card: !only_opens && facts != open.facts,
            good_opened: facts.phase == Phase::Open && open.facts.phase == Phase::Watching && only_opens,
            facts,
        })
    })
    .unwrap_or(Err(Refusal::NotOpen))
}

fn refusal(setup: &Setup<'_>, facts: &Facts, refused: Refused, answer: Answer) -> Refusal {
    match (refused, answer) {
        (Refused::OwnSlowerThanSetRate, Answer::OwnRate { slowest, .. }) => {
            Refusal::said(Say::OwnSlowerThanRate {
                own: slowest.to_string(),
                rate: setup.profile.rate_text(facts.current(Dial::Rate)).to_owned(),
            })
        }
        (Refused::NotARate | Refused::OwnSlowerThanSetRate, _) => Refusal::said(Say::NotARate),
        // Stop, restore stands on every dial card; after trouble there is no restore before the reading.
        (Refused::NotOpen, Answer::Stop) if offer::has_safety(facts) => Refusal::said(Say::ReadBeforeRestore),
        (Refused::NotOpen | Refused::NoSuchPosition, _) => Refusal::NotOpen,
    }
}

/// The answer, and the end of the check if that was the last card.
fn stepped(state: &State, given: Step, now: Moment) -> Result<Vec<What>, Refusal> {
    let (bed, wire, this, open) = state.check_on_screen().ok_or(Refusal::NotOpen)?;
    let answered = step(state, bed, wire, given, now)?;
    let facts = answered.facts;
    let names = answered.names.clone();
    let new_patient = open.facts.step == CheckStep::SamePatient && answered.answer == Answer::No;
    let mut whats = vec![What::Answered(Box::new(answered))];
    if facts.step == CheckStep::Done && open.facts.step != CheckStep::Done {
        let record = ending::record(state, this, open, &facts, &names, now);
        whats.extend(record.map(|record| {
            let due = ending::due_now(&record, this.due_now);
            What::CheckEnded { bed, wire, record: Box::new(record), due }
        }));
    } else if facts.step == CheckStep::Ended && open.facts.step != CheckStep::Ended {
        whats.push(What::CheckLeft { bed, wire, check: open.id });
        if new_patient {
            whats.push(What::Went(Screen::NewPatient { bed }));
        }
    }
    Ok(whats)
}

pub fn answer(state: &State, answer: Answer, _values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    stepped(state, Step::plain(answer), now)
}

/// Answers that carry a name: who accepts, who ordered, who was told and why.
pub fn named(state: &State, answer: Answer, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let (_, _, _, open) = state.check_on_screen().ok_or(Refusal::NotOpen)?;
    let mut names = open.names.clone();
    let name = |field: &str, say: Say| typed::line(values, field, say, NAME_MOST);
    match (open.facts.step, answer) {
        (CheckStep::Order, Answer::Yes) => names.clinician = Some(name("name", Say::ClinicianField)?),
        (CheckStep::Accept, Answer::Yes) => names.accepted_by = Some(name("name", Say::AcceptField)?),
        (CheckStep::AsynchronousOrdered, Answer::Yes) => {
            names.ordered_by = Some(name("name", Say::OrderedByField)?);
        }
        (CheckStep::MarginAsk, Answer::Yes) => names.clinician = Some(name("name", Say::ClinicianField)?),
        (_, Answer::ReasonAndName) => {
            names.reason = Some(typed::line(values, "reason", Say::ReasonField, REASON_MOST)?);
            names.told = Some(name("name", Say::ToldField)?);
            names.not_read = !matches!(open.facts.from, CheckStep::Differs | CheckStep::ReadLower);
        }
        _ => return Err(Refusal::NotOpen),
    }
    stepped(state, Step { answer, names: Some(names), away_ms: None }, now)
}

/// The dials as typed.
pub fn typed_dials(state: &State, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let (bed, wire, this, open) = state.check_on_screen().ok_or(Refusal::NotOpen)?;
    let profile = state.generator(&this.generator).ok_or(Refusal::NotOpen)?;
    let dials = typed::dials(profile, values)?;
    if open.facts.step == CheckStep::ReadFound && is_asked_again(profile, this, open.asked_again, dials) {
        return Ok(vec![What::AskedAgain { bed, wire, dials }]);
    }
    // A reading takes back the reason given for none.
    let names = Names { reason: None, told: None, not_read: false, ..open.names.clone() };
    stepped(state, Step { answer: Answer::Read(dials), names: Some(names), away_ms: None }, now)
}

/// The first reading of a check, a swap or a transport: everything after it hangs on it. It is asked for once more
/// where it is far from the last set, or where nothing is known to set it beside: then two equal readings in a row are
/// taken. `asked`: the one before this.
pub fn is_asked_again(profile: &Profile, wire: &Wire, asked: Option<Dials>, dials: Dials) -> bool {
    let doubtful = last_known(profile, wire).is_none() || far_from_last(profile, wire, dials).is_some();
    doubtful && asked != Some(dials)
}

/// Beats a minute between two settings that nobody makes without a word.
const RATE_FAR: u16 = 20;

/// The last set figure and the typed one, for the first dial that stands far from where it was left:
/// OUTPUT or mV less than half or more than double, RATE 20 or more away.
pub fn far_from_last(profile: &Profile, wire: &Wire, dials: Dials) -> Option<(String, String)> {
    let last = last_known(profile, wire)?;
    let twice = |one: u32, other: u32| one * 2 < other || other * 2 < one;
    let numbers = last.mv != ASYNCHRONOUS && dials.mv != ASYNCHRONOUS;
    if twice(profile.output_at(last.output), profile.output_at(dials.output)) {
        return Some((text(profile.output_text(last.output)), text(profile.output_text(dials.output))));
    }
    if profile.rate_at(last.rate).abs_diff(profile.rate_at(dials.rate)) >= RATE_FAR {
        return Some((text(profile.rate_text(last.rate)), text(profile.rate_text(dials.rate))));
    }
    let far = numbers && twice(profile.mv_at(last.mv), profile.mv_at(dials.mv));
    far.then(|| (text(profile.mv_text(last.mv)), text(profile.mv_text(dials.mv))))
}

/// Where the dials were last known to stand on this generator: read since, left by a check, or read beside a handover.
pub fn last_known(profile: &Profile, wire: &Wire) -> Option<Dials> {
    let standing = wire.standing.as_ref().map(|standing| standing.dials);
    let left = || wire.records.iter().rev().find(|record| record.generator == profile.id);
    let handed = || newest_handed(wire).filter(|_| !wire.another_box)?.compared.as_ref();
    let is_read = |dials: &Dials| *dials != Dials::UNREAD;
    standing
        .or_else(|| left().map(|record| record.stays_at).filter(is_read))
        .or_else(|| handed().map(|compared| compared.dials).filter(is_read))
}

fn text(printed: &str) -> String {
    printed.to_owned()
}

pub fn typed_own_rate(state: &State, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let slowest = typed::own_rate(values, "slowest", Say::SlowestField)?;
    let fastest = match values.get("fastest").map(|typed| typed.trim()) {
        None | Some("") => slowest,
        Some(_) => typed::own_rate(values, "fastest", Say::FastestField)?,
    };
    stepped(state, Step::plain(Answer::OwnRate { slowest, fastest }), now)
}

pub fn typed_one_dial(state: &State, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let (_, _, this, open) = state.check_on_screen().ok_or(Refusal::NotOpen)?;
    let profile = state.generator(&this.generator).ok_or(Refusal::NotOpen)?;
    let dial = open.before.as_ref().and_then(|earlier| slip::doubtful_dial(earlier, &open.facts));
    let typed = values.get("where").map(|typed| typed.trim()).unwrap_or_default();
    let position = match dial.ok_or(Refusal::NotOpen)? {
        Dial::Output => profile.read_output(typed).map_err(|none| typed::no_such(&none))?,
        Dial::Rate => profile.read_rate(typed).map_err(|none| typed::no_such(&none))?,
        Dial::Mv => typed::number(profile, typed)?,
    };
    stepped(state, Step::plain(Answer::StandsAt(position)), now)
}

/// The answer is the one that opens when the watch has passed.
pub fn is_good_on_screen(state: &State, answer: Answer) -> bool {
    let Some((bed, wire, _, _)) = state.check_on_screen() else { return false };
    with_setup(state, bed, wire, |setup, open| {
        let offer = offer::offer(setup, &open.facts);
        [offer.good, offer.also_good].contains(&Some(answer))
    })
    .unwrap_or(false)
}
