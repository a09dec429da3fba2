//! Acts that need a PIN: everything else is settled before it is tried.

use super::{Decided, LEARNER_MOST, REASON_MOST, Values, nothing, on, went};
use crate::decide::{NAME_MOST, typed};
use crate::event::What;
use crate::moment::{Moment, date_text};
use crate::refusal::Refusal;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::teaching::educator::{EDUCATORS_MOST, Educator, Vouched};
use crate::teaching::paper::{MOST_BYTES, Paper, Says};
use crate::teaching::pin::{NEW_KEY, NEW_PIN, NEW_PIN_AGAIN, PIN, PinShape};
use crate::teaching::place::Place;
use crate::teaching::taught::Taught;
use crate::teaching::{Task, Wanted, paper};

/// Nobody stands for a new educator yet; every signature will say so.
pub fn enrol(state: &State, values: &Values, now: Moment) -> Decided {
    on(state, Place::Enrol)?;
    let name = typed::line(values, "name", Say::EducatorNameField, LEARNER_MOST)?;
    if state.teaching.signing().any(|(_, educator)| educator.name == name) {
        return Err(Refusal::said(Say::EducatorKnown { name }));
    }
    if state.teaching.signing().count() >= EDUCATORS_MOST {
        let most = u32::try_from(EDUCATORS_MOST).unwrap_or(u32::MAX);
        return Err(Refusal::said(Say::TooManyEducators { most }));
    }
    let key = new_key(values)?;
    tried(state, Task::Enrol { name, key }, Place::Enrol, now)
}

pub fn vouch(state: &State, at: u32, values: &Values, now: Moment) -> Decided {
    let back = Place::Vouch { at };
    on(state, back)?;
    let other = state.teaching.educator(at).ok_or(Refusal::NotOpen)?;
    let (by, educator) = who(state, values, Some(at))?;
    if !state.teaching.may_vouch(educator) {
        return Err(Refusal::said(Say::VouchedFirst { name: educator.name.clone() }));
    }
    ready(educator, values, now)?;
    let says = Says::Vouched { name: other.name.clone(), key: other.key.clone() };
    signed(state, by, educator, says, back, now)
}

/// By a typed name, as the rules were let in.
pub fn approver_vouch(state: &State, at: u32, values: &Values, now: Moment) -> Decided {
    on(state, Place::ApproverVouch { at })?;
    let approver = state.rules_let_in.as_ref().ok_or(Refusal::NotOpen)?;
    let name = typed::line(values, "name", Say::ApproverField, NAME_MOST)?;
    if name != approver.by {
        return Err(Refusal::said(Say::NotTheApprover { name: approver.by.clone() }));
    }
    let vouched = Vouched::Approver { name, role: approver.role.clone(), at: now };
    Ok(vec![What::Taught(Taught::Vouched { educator: at, vouched }), went(Place::Educator { at })])
}

/// A PIN cannot be found again: another educator lets the same person choose a new one.
pub fn renew(state: &State, at: u32, values: &Values, now: Moment) -> Decided {
    let back = Place::Renew { at };
    on(state, back)?;
    let old = state.teaching.educator(at).filter(|old| old.can_sign()).ok_or(Refusal::NotOpen)?;
    let (by, educator) = who(state, values, Some(at))?;
    let key = new_key(values)?;
    let says = Says::Vouched { name: old.name.clone(), key: key.clone() };
    let paper = checked(paper(educator, says, now))?;
    ready(educator, values, now)?;
    tried(state, Task::Renew { by, paper: Box::new(paper), place: at, key }, back, now)
}

pub fn sign(state: &State, values: &Values, now: Moment) -> Decided {
    on(state, Place::SignPin)?;
    let draft = state.teaching.draft.as_ref().ok_or(Refusal::NotOpen)?;
    if draft.counts().1 == 0 {
        return Err(Refusal::said(Say::NoItemLookedAt));
    }
    if let Some(why) = draft.unexplained() {
        return Err(Refusal::said(why));
    }
    let (by, educator) = who(state, values, None)?;
    if educator.name.to_lowercase() == draft.learner.to_lowercase() {
        return Err(Refusal::said(Say::NotForOneself));
    }
    ready(educator, values, now)?;
    signed(state, by, educator, Says::SignedOff(draft.sign_off()), Place::SignPin, now)
}

/// A newer entry takes an older one back; both stay.
pub fn revoke(state: &State, at: u32, values: &Values, now: Moment) -> Decided {
    let back = Place::Revoke { at };
    on(state, back)?;
    if !super::exists(state, back) {
        return Err(Refusal::NotOpen);
    }
    let kept = state.teaching.entry(at).ok_or(Refusal::NotOpen)?;
    let reason = typed::line(values, "reason", Say::ReasonField, REASON_MOST)?;
    let (by, educator) = who(state, values, None)?;
    ready(educator, values, now)?;
    signed(state, by, educator, Says::Revoked { entry: kept.hash.clone(), reason }, back, now)
}

pub fn file_vouch(state: &State, values: &Values, now: Moment) -> Decided {
    on(state, Place::FileVouch)?;
    let read = state.teaching.read.as_ref().ok_or(Refusal::NotOpen)?;
    let (by, educator) = who(state, values, None)?;
    if !state.teaching.may_vouch(educator) {
        return Err(Refusal::said(Say::VouchedFirst { name: educator.name.clone() }));
    }
    ready(educator, values, now)?;
    let says = Says::Vouched { name: read.paper.educator.clone(), key: read.key.clone() };
    signed(state, by, educator, says, Place::FileVouch, now)
}

/// The educator who was picked, not the one at `except`.
fn who<'s>(state: &'s State, values: &Values, except: Option<u32>) -> Result<(u32, &'s Educator), Refusal> {
    let picked = values.get("educator").and_then(|place| place.parse::<u32>().ok());
    let place = picked.filter(|place| Some(*place) != except).ok_or_else(|| nothing(Say::EducatorField))?;
    let educator = state.teaching.educator(place).filter(|one| one.can_sign());
    educator.map(|educator| (place, educator)).ok_or(Refusal::NotOpen)
}

fn signed(state: &State, by: u32, educator: &Educator, says: Says, back: Place, now: Moment) -> Decided {
    let paper = checked(paper(educator, says, now))?;
    tried(state, Task::Sign { by, paper: Box::new(paper) }, back, now)
}

/// The PIN has the form of one, the clock has not gone back before the enrolment, and no wait is left.
fn ready(educator: &Educator, values: &Values, now: Moment) -> Result<(), Refusal> {
    PinShape::of_id(values.get(PIN).map(String::as_str).unwrap_or_default()).taken()?;
    if now.wall_ms < educator.enrolled.wall_ms {
        let date = date_text(educator.enrolled.wall_ms, educator.enrolled.offset_min);
        return Err(Refusal::said(Say::ClockBeforeEnrolment { date }));
    }
    match educator.tries.left_ms(now) {
        0 => Ok(()),
        left => Err(Refusal::said(wait(left))),
    }
}

/// Rounded up: nobody is sent away a second too early.
pub fn wait(left_ms: i64) -> Say {
    let seconds = u32::try_from((left_ms + 999) / 1_000).unwrap_or(u32::MAX);
    if seconds <= 90 {
        Say::PinWaitSeconds { seconds }
    } else {
        Say::PinWaitMinutes { minutes: seconds.div_ceil(60) }
    }
}

/// What is signed fits into a token.
fn checked(paper: Paper) -> Result<Paper, Refusal> {
    let length = paper.bytes().map_err(|_| Refusal::said(Say::NotTaken))?.len();
    if length > MOST_BYTES { Err(Refusal::said(Say::SignOffTooLong)) } else { Ok(paper) }
}

/// The session has drawn a key and put its public half here; the PIN was typed twice and has the form of one.
fn new_key(values: &Values) -> Result<String, Refusal> {
    let shape = |field: &str| PinShape::of_id(values.get(field).map(String::as_str).unwrap_or_default());
    shape(NEW_PIN).taken()?;
    shape(NEW_PIN_AGAIN).taken()?;
    values.get(NEW_KEY).cloned().ok_or(Refusal::NotOpen)
}

/// Counted before it is made.
fn tried(state: &State, task: Task, back: Place, now: Moment) -> Decided {
    if state.teaching.wanted.is_some() {
        return Err(Refusal::NotOpen);
    }
    let by = task.by().and_then(|place| Some((place, state.teaching.educator(place)?)));
    let tries = by.map(|(place, educator)| (place, educator.tries.after_one_more(now)));
    let wanted = Box::new(Wanted { task, back: Screen::Teaching(back) });
    Ok(vec![What::Taught(Taught::PinTried { wanted, tries }), went(Place::Working)])
}
