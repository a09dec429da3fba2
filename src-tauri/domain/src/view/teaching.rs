//! Educators and sign-off: the roster, the form, the signed papers.

mod educators;
mod entry;
mod file;
mod form;
mod pins;
mod roster;

use std::borrow::Cow;

use super::Screenful;
use super::pieces::{field, go, head, plain};
use crate::contract::{Act, Ask, Field, FieldKind, Shape, Tone};
use crate::moment::{Moment, date_text};
use crate::practice::ExerciseId;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::teaching::Teaching;
use crate::teaching::paper::{Says, Work};
use crate::teaching::place::Place;

pub fn screenful(state: &State, place: Place, now: Moment) -> Screenful {
    let shown = match place {
        Place::Roster { from } => Some(roster::roster(state, from, now)),
        Place::Learner { entry } => roster::learner(state, entry, now),
        Place::Entry { at } => entry::entry(state, at, now),
        Place::Educators => Some(educators::educators(state, now)),
        Place::Educator { at } => educators::educator(state, at, now),
        Place::Enrol => Some(pins::enrol(state, now)),
        Place::Vouch { at } => pins::vouch(state, at, now),
        Place::ApproverVouch { at } => pins::approver_vouch(state, at, now),
        Place::Renew { at } => pins::renew(state, at, now),
        Place::ToSign => Some(form::to_sign(state, now)),
        Place::SignLearner => form::learner(state, now),
        Place::SignItems => form::items(state, now),
        Place::SignItem { item } => form::item(state, item, now),
        Place::SignPin => pins::sign(state, now),
        Place::Working => Some(working(now)),
        Place::Revoke { at } => pins::revoke(state, at, now),
        Place::NewFile => Some(file::new(now)),
        Place::FileRead => file::read(state, now),
        Place::FileVouch => pins::file_vouch(state, now),
    };
    shown.unwrap_or_else(|| roster::roster(state, 0, now))
}

/// What is on the screen comes from practice: its own mark, on every screen of it.
pub fn is_of_practice(state: &State) -> bool {
    let Screen::Teaching(place) = state.screen else { return false };
    let teaching = &state.teaching;
    match place {
        Place::SignLearner | Place::SignItems | Place::SignItem { .. } | Place::SignPin => {
            teaching.draft.as_ref().is_some_and(|draft| draft.work.is_practice())
        }
        Place::Entry { at } | Place::Revoke { at } => {
            teaching.entry(at).is_some_and(|kept| is_practice(&kept.paper.says))
        }
        Place::FileRead | Place::FileVouch => {
            teaching.read.as_ref().is_some_and(|read| is_practice(&read.paper.says))
        }
        Place::Learner { entry } => roster::has_practice(state, entry),
        Place::Roster { .. }
        | Place::Educators
        | Place::Educator { .. }
        | Place::Enrol
        | Place::Vouch { .. }
        | Place::ApproverVouch { .. }
        | Place::Renew { .. }
        | Place::ToSign
        | Place::Working
        | Place::NewFile => false,
    }
}

fn is_practice(says: &Says) -> bool {
    matches!(says, Says::SignedOff(sign_off) if sign_off.work.is_practice())
}

/// No time is said: it takes a moment, and whoever has something to do at a bed goes there.
fn working(now: Moment) -> Screenful {
    let ask = Ask {
        question: Say::PinWorking,
        lines: vec![Say::PinWorkingLine],
        reason: None,
        watch: None,
        scale: None,
        others: Vec::new(),
    };
    Screenful {
        answers: vec![go("beds", Say::AllBeds, Tone::Strong, Screen::Beds)],
        ..plain(head(Say::SignOff, now), Shape::Ask(ask), Say::PinWorking)
    }
}

fn to(key: impl Into<Cow<'static, str>>, label: Say, tone: Tone, place: Place) -> Act<Say> {
    go(key, label, tone, Screen::Teaching(place))
}

fn filled(id: &str, label: Say, kind: FieldKind, value: &str, max_chars: usize) -> Field<Say> {
    Field { value: value.to_owned(), ..field(id, label, kind, max_chars) }
}

fn work(work: &Work, offset_min: i16) -> Say {
    match work {
        Work::Supervised { ended_ms, .. } => Say::WorkSupervised { date: date_text(*ended_ms, offset_min) },
        Work::Practice { exercise, ended_ms, passed, .. } => {
            let exercise = Box::new(exercise_name(exercise));
            let date = date_text(*ended_ms, offset_min);
            if *passed { Say::WorkPractice { exercise, date } } else { Say::WorkNotPassed { exercise, date } }
        }
    }
}

/// An exercise that this version does not know stands by its id.
fn exercise_name(id: &str) -> Say {
    let known = ExerciseId::ALL.iter().find(|exercise| exercise.id() == id);
    known.map_or_else(|| crate::say::figure(id), |exercise| exercise.name())
}

/// Whoever stands for the educator with this key, or that nobody does.
fn vouched(teaching: &Teaching, key: &str) -> Say {
    use crate::teaching::educator::Vouched;
    match teaching.with_key(key).and_then(|educator| educator.vouched.as_ref()) {
        Some(Vouched::Educator { name, .. }) => Say::VouchedBy { name: name.clone() },
        Some(Vouched::Approver { name, role, .. }) => {
            Say::VouchedByApprover { name: name.clone(), role: role.clone() }
        }
        None => Say::NotVouched,
    }
}

/// Enough of the key's digits to compare two tablets by eye.
fn short_key(key: &str) -> Say {
    crate::say::figure(super::rules::fingerprint(key))
}
