//! Educators and sign-off: who may do what with a PIN, and the form that is signed.

mod form;
mod pins;
mod results;

pub use pins::wait as pin_wait;

use std::collections::BTreeMap;

use super::typed;
use crate::event::What;
use crate::moment::Moment;
use crate::refusal::Refusal;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::teaching::ask::Ask;
use crate::teaching::paper::Says;
use crate::teaching::place::Place;

/// A name or initials, a reason: what a signed paper holds of each at most.
pub const LEARNER_MOST: usize = 40;
pub const REASON_MOST: usize = 60;

type Values = BTreeMap<String, String>;
type Decided = Result<Vec<What>, Refusal>;

pub fn asked(state: &State, ask: &Ask, values: &Values, now: Moment) -> Decided {
    match ask {
        Ask::PinDone(done) => results::pin_done(state, done, now),
        Ask::FileRead(file) => results::file_read(state, file),
        Ask::FileWritten { entry, file } => results::file_written(state, *entry, file),
        Ask::Enrol => pins::enrol(state, values, now),
        Ask::Vouch { at } => pins::vouch(state, *at, values, now),
        Ask::ApproverVouch { at } => pins::approver_vouch(state, *at, values, now),
        Ask::Renew { at } => pins::renew(state, *at, values, now),
        Ask::Sign => pins::sign(state, values, now),
        Ask::Revoke { at } => pins::revoke(state, *at, values, now),
        Ask::FileVouch => pins::file_vouch(state, values, now),
        Ask::Begin(subject) => form::begin(state, *subject),
        Ask::NameLearner => form::name_learner(state, values),
        Ask::Mark { item } => form::mark(state, *item, values),
        Ask::Leave { item } => form::leave(state, *item),
        Ask::PutAside => form::put_aside(state),
        Ask::Save { at } => form::save(state, *at),
        Ask::KeepRead => form::keep_read(state),
    }
}

/// The app ended while a PIN was tried, or waits go on in a new boot.
pub fn started(state: &State, now: Moment) -> Vec<What> {
    results::started(state, now)
}

pub fn exists(state: &State, place: Place) -> bool {
    let teaching = &state.teaching;
    let educator = |at| teaching.educator(at);
    let draft = teaching.draft.as_ref();
    match place {
        Place::Roster { from } => from == 0 || (from as usize) < teaching.entries.len(),
        Place::Educators | Place::Enrol | Place::ToSign | Place::NewFile => true,
        Place::Learner { entry: at } => {
            teaching.entry(at).is_some_and(|kept| matches!(kept.paper.says, Says::SignedOff(_)))
        }
        Place::Entry { at } => teaching.entry(at).is_some(),
        Place::Educator { at } => educator(at).is_some(),
        Place::Vouch { at } => educator(at).is_some_and(|one| one.vouched.is_none()),
        Place::ApproverVouch { at } => {
            educator(at).is_some_and(|one| one.vouched.is_none()) && state.rules_let_in.is_some()
        }
        Place::Renew { at } => educator(at).is_some_and(|one| one.can_sign()),
        Place::SignLearner => draft.is_some(),
        Place::SignItems | Place::SignItem { .. } | Place::SignPin => {
            draft.is_some_and(|draft| !draft.learner.is_empty())
        }
        Place::Working => false,
        Place::Revoke { at } => teaching.entry(at).is_some_and(|kept| {
            matches!(kept.paper.says, Says::SignedOff(_)) && teaching.revoked_by(&kept.hash).is_none()
        }),
        Place::FileRead => teaching.read.is_some(),
        Place::FileVouch => teaching.read.as_ref().is_some_and(|read| teaching.with_key(&read.key).is_none()),
    }
}

/// A sign-off that nobody has taken back.
pub fn can_revoke(state: &State, at: u32) -> bool {
    exists(state, Place::Revoke { at })
}

fn on(state: &State, place: Place) -> Result<(), Refusal> {
    if state.screen == Screen::Teaching(place) { Ok(()) } else { Err(Refusal::NotOpen) }
}

fn went(place: Place) -> What {
    What::Went(Screen::Teaching(place))
}

fn nothing(field: Say) -> Refusal {
    Refusal::said(Say::NothingTyped { field: Box::new(field) })
}

/// As `typed::line`, where nothing may stand.
fn maybe_line(values: &Values, field: &str, name: Say, most: usize) -> Result<Option<String>, Refusal> {
    let blank = values.get(field).is_none_or(|typed| typed.trim().is_empty());
    if blank { Ok(None) } else { typed::line(values, field, name, most).map(Some) }
}
