//! A signed file that was handed in: unchanged or not, by whom, and what speaks against it.

use super::entry::{headline, not_passed, rows};
use super::{filled, to};
use crate::command::Command;
use crate::contract::{Act, FieldKind, Form, Outcome, Shape, Tone};
use crate::library::Paper as Kind;
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::teaching::ask::Ask;
use crate::teaching::paper::Says;
use crate::teaching::place::Place;
use crate::teaching::{Read, Teaching};
use crate::view::pieces::{head, isolated, plain};
use crate::view::{Screenful, act};

/// A clock that stands a little behind another is no remark.
const CLOCKS_APART_MS: i64 = 10 * 60 * 1_000;

pub fn new(now: Moment) -> Screenful {
    let form = Form {
        question: Say::CheckSignedFile,
        lines: vec![Say::CheckSignedFileLine],
        fields: vec![filled(Kind::SignedOff.kind(), Say::SignedFileField, FieldKind::File, "", 0)],
    };
    Screenful {
        answers: vec![to("back", Say::Back, Tone::Strong, Place::Roster { from: 0 })],
        ..plain(head(Say::SignOff, now), Shape::Form(form), Say::CheckSignedFile)
    }
}

pub fn read(state: &State, now: Moment) -> Option<Screenful> {
    let read = state.teaching.read.as_ref()?;
    let outcome = Outcome {
        headline: headline(&read.paper.says),
        rows: rows(state, &read.paper, &read.key),
        scales: Vec::new(),
        flags: remarks(&state.teaching, read, now),
        note: Some(Say::SignedFileUnchanged),
    };
    Some(Screenful {
        answers: answers(&state.teaching, read),
        ..plain(head(Say::SignOff, now), Shape::Result(outcome), Say::SignedFileUnchanged)
    })
}

fn answers(teaching: &Teaching, read: &Read) -> Vec<Act<Say>> {
    let mut acts = vec![to("back", Say::Back, Tone::Strong, Place::NewFile)];
    if teaching.with_key(&read.key).is_none() {
        if teaching.signing().next().is_some() {
            acts.push(to("vouch", Say::VouchFor, Tone::Strong, Place::FileVouch));
        }
    } else if !matches!(read.paper.says, Says::Vouched { .. }) {
        acts.push(act("keep", Say::KeepHere, Tone::Good, Command::Teach(Ask::KeepRead)));
    }
    acts
}

/// Nothing here makes the file another; each is for a person to weigh.
fn remarks(teaching: &Teaching, read: &Read, now: Moment) -> Vec<Say> {
    let known = teaching.with_key(&read.key);
    let name = || isolated(&read.paper.educator);
    let same_name = teaching.educators.iter().any(|educator| educator.name == read.paper.educator);
    let who = match known {
        None if same_name => Some(Say::SameNameOtherKey { name: name() }),
        None => Some(Say::EducatorUnknown { name: name() }),
        Some(educator) if educator.vouched.is_none() => Some(Say::NotVouchedFlag),
        Some(_) => None,
    };
    let enrolled = known.map_or(read.paper.enrolled_ms, |educator| educator.enrolled.wall_ms);
    let early = (read.paper.at_ms < enrolled).then_some(Say::BeforeEnrolment);
    let ahead = (read.paper.at_ms > now.wall_ms + CLOCKS_APART_MS).then_some(Say::AheadOfClock);
    let revoked = teaching.revoked_by(&read.hash).is_some().then_some(Say::RevokedHere);
    [not_passed(&read.paper.says), who, revoked, early, ahead].into_iter().flatten().collect()
}
