//! The form of a sign-off, card by card, before anybody signs.

use super::{Decided, LEARNER_MOST, REASON_MOST, Values, maybe_line, nothing, on, went};
use crate::decide::typed;
use crate::document::hash;
use crate::event::What;
use crate::refusal::Refusal;
use crate::say::Say;
use crate::state::State;
use crate::teaching::Kept;
use crate::teaching::draft::{Draft, Subject, judged};
use crate::teaching::item::{How, Item};
use crate::teaching::paper::{Marked, Says, Work};
use crate::teaching::place::Place;
use crate::teaching::taught::Taught;

pub fn begin(state: &State, subject: Subject) -> Decided {
    on(state, Place::ToSign)?;
    if state.teaching.draft.is_some() {
        return Err(Refusal::said(Say::DraftFirst));
    }
    let draft = match subject {
        Subject::Check { bed, wire, check } => supervised(state, bed, wire, check)?,
        Subject::Run { run } => practised(state, run)?,
    };
    Ok(vec![What::Taught(Taught::Begun(Box::new(draft))), went(Place::SignLearner)])
}

/// The record as it stands now, by its hash: no bed and no patient goes into a sign-off.
fn supervised(state: &State, bed: u32, wire: u32, check: uuid::Uuid) -> Result<Draft, Refusal> {
    let records = state.wire(bed, wire).map(|wire| wire.records.as_slice()).unwrap_or_default();
    let record = records.iter().find(|record| record.id == check).ok_or(Refusal::NotOpen)?;
    let text = serde_json::to_string(record).map_err(|_| Refusal::said(Say::NotTaken))?;
    let work = Work::Supervised { check, record: hash(&text), ended_ms: record.ended.wall_ms };
    Ok(Draft { learner: String::new(), work, judged: Vec::new(), marks: Vec::new() })
}

/// The whole run as it is kept, by its hash, and what the judge found of each item.
fn practised(state: &State, run: uuid::Uuid) -> Result<Draft, Refusal> {
    let run = state.run(run).ok_or(Refusal::NotOpen)?;
    let (judgement, record) = run.judgement.as_ref().zip(run.hash()).ok_or(Refusal::NotOpen)?;
    let text = serde_json::to_string(judgement).map_err(|_| Refusal::said(Say::NotTaken))?;
    let work = Work::Practice {
        run: run.id,
        exercise: run.staged.exercise.id().to_owned(),
        exercise_hash: run.staged.hash.clone(),
        seed: run.staged.seed,
        engine: run.staged.engine.clone(),
        record,
        judgement: hash(&text),
        passed: judgement.passed,
        ended_ms: run.ended.wall_ms,
    };
    Ok(Draft { learner: String::new(), work, judged: judged(judgement), marks: Vec::new() })
}

pub fn name_learner(state: &State, values: &Values) -> Decided {
    on(state, Place::SignLearner)?;
    let draft = state.teaching.draft.as_ref().ok_or(Refusal::NotOpen)?;
    let learner = typed::line(values, "learner", Say::LearnerField, LEARNER_MOST)?;
    let next = draft.next().map_or(Place::SignItems, |item| Place::SignItem { item });
    Ok(vec![What::Taught(Taught::LearnerNamed { learner }), went(next)])
}

pub fn mark(state: &State, item: Item, values: &Values) -> Decided {
    on(state, Place::SignItem { item })?;
    let draft = state.teaching.draft.as_ref().ok_or(Refusal::NotOpen)?;
    let picked = |field: &str| values.get(field).map(String::as_str).unwrap_or_default();
    let how = How::ALL.into_iter().find(|how| how.id() == picked("how"));
    let how = how.ok_or_else(|| nothing(Say::HowField))?;
    let met = match picked("met") {
        "met" => true,
        "not-met" => false,
        _ => return Err(nothing(Say::MetField)),
    };
    let judge = draft.finding(item);
    let reason = maybe_line(values, "reason", Say::OverrideField, REASON_MOST)?;
    if reason.is_none()
        && let Some(why) = draft.asks_why(item, met)
    {
        return Err(Refusal::said(why));
    }
    Ok(marked(draft, item, Some(Marked { item, how, met, judge, reason })))
}

pub fn leave(state: &State, item: Item) -> Decided {
    on(state, Place::SignItem { item })?;
    let draft = state.teaching.draft.as_ref().ok_or(Refusal::NotOpen)?;
    Ok(marked(draft, item, None))
}

/// On to the next item that nobody has looked at, then to all of them.
fn marked(draft: &Draft, item: Item, mark: Option<Marked>) -> Vec<What> {
    let mut after = draft.clone();
    after.put(item, mark.clone());
    let next = after.next().map_or(Place::SignItems, |item| Place::SignItem { item });
    vec![What::Taught(Taught::Marked { item, mark }), went(next)]
}

pub fn put_aside(state: &State) -> Decided {
    state.teaching.draft.as_ref().ok_or(Refusal::NotOpen)?;
    Ok(vec![What::Taught(Taught::DraftPutAside), went(Place::Roster { from: 0 })])
}

/// The session writes the file, and says what came of it.
pub fn save(state: &State, at: u32) -> Decided {
    on(state, Place::Entry { at })?;
    state.teaching.entry(at).map(|_| Vec::new()).ok_or(Refusal::NotOpen)
}

/// Into the roster of this tablet: only what somebody known here has signed, and once.
pub fn keep_read(state: &State) -> Decided {
    on(state, Place::FileRead)?;
    let teaching = &state.teaching;
    let read = teaching.read.clone().ok_or(Refusal::NotOpen)?;
    if teaching.with_key(&read.key).is_none() || matches!(read.paper.says, Says::Vouched { .. }) {
        return Err(Refusal::NotOpen);
    }
    if teaching.entries.iter().any(|kept| kept.hash == read.hash) {
        return Err(Refusal::said(Say::SignedHereAlready));
    }
    let at = u32::try_from(teaching.entries.len()).unwrap_or(u32::MAX);
    let (paper, key, token, hash) = (read.paper, read.key, read.token, read.hash);
    let kept = Box::new(Kept { paper, key, token, hash, elsewhere: true, file: None });
    Ok(vec![What::Taught(Taught::Signed { kept, ends_draft: false }), went(Place::Entry { at })])
}
