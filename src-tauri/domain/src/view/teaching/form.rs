//! The form of a sign-off: what is signed, for whom, item by item.

use super::entry::{finding, mark_said};
use super::{filled, to, work};
use crate::command::Command;
use crate::contract::{Act, BedRow, Beds, FieldKind, Form, Shape, Tone};
use crate::decide::{LEARNER_MOST, REASON_MOST};
use crate::moment::{Moment, date_text};
use crate::practice::PracticeRun;
use crate::record::Record;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::teaching::ask::Ask;
use crate::teaching::draft::{Draft, Subject};
use crate::teaching::item::{How, Item};
use crate::teaching::place::Place;
use crate::view::pieces::{boxed, clock_of, head, isolated, plain, wire_name};
use crate::view::practice::verdict;
use crate::view::wire_form::pick;
use crate::view::{Screenful, act, act_with_fields};

/// The newest checks and runs; what is older is hardly remembered.
const ROWS_MOST: usize = 10;

pub fn to_sign(state: &State, now: Moment) -> Screenful {
    let shape = Shape::Beds(Beds { rows: newest(state, now), empty: Say::NothingToSign });
    let mut answers = vec![to("back", Say::Back, Tone::Strong, Place::Roster { from: 0 })];
    if let Some(draft) = &state.teaching.draft {
        let next = if draft.learner.is_empty() { Place::SignLearner } else { Place::SignItems };
        answers.push(to("go-on", Say::DraftGoOn, Tone::Good, next));
    }
    Screenful { answers, ..plain(head(Say::SignOff, now), shape, Say::ToSignTitle) }
}

/// Checks on patients and judged practice runs, by the time they ended.
fn newest(state: &State, now: Moment) -> Vec<BedRow<Say>> {
    let wires = state.beds.iter().flat_map(|bed| bed.wires.iter().map(move |wire| (bed, wire)));
    let checks = wires.flat_map(|(bed, wire)| {
        wire.records.iter().map(move |record| (record.ended.wall_ms, check(bed, wire, record, now)))
    });
    let judged = state.runs.iter().filter(|run| run.judgement.is_some());
    let runs = judged.map(|run| (run.ended.wall_ms, practised(run, now)));
    let mut all: Vec<(i64, BedRow<Say>)> = checks.chain(runs).collect();
    all.sort_by_key(|(ended_ms, _)| std::cmp::Reverse(*ended_ms));
    all.into_iter().take(ROWS_MOST).map(|(_, row)| row).collect()
}

fn practised(run: &PracticeRun, now: Moment) -> BedRow<Say> {
    let at = run.ended.wall_ms;
    let subject = Subject::Run { run: run.id };
    BedRow {
        title: run.staged.exercise.name(),
        due: Some(Say::CheckEnded { date: date_text(at, now.offset_min), time: clock_of(at, now) }),
        urgent: verdict(run) == Say::RunFailed,
        lines: vec![Say::MarkPractice, verdict(run)],
        chart: None,
        open: act(
            format!("sign-{}", run.id.simple()),
            Say::SignThis,
            Tone::Plain,
            Command::Teach(Ask::Begin(subject)),
        ),
    }
}

fn check(bed: &Bed, wire: &Wire, record: &Record, now: Moment) -> BedRow<Say> {
    let at = record.ended.wall_ms;
    let subject = Subject::Check { bed: bed.id, wire: wire.id, check: record.id };
    let key = format!("sign-{}-{}-{}", bed.id, wire.id, record.id.simple());
    BedRow {
        title: Say::Local { text: bed.label.clone() },
        due: Some(Say::CheckEnded { date: date_text(at, now.offset_min), time: clock_of(at, now) }),
        urgent: false,
        lines: vec![wire_name(wire)],
        chart: None,
        open: act(key, Say::SignThis, Tone::Plain, Command::Teach(Ask::Begin(subject))),
    }
}

pub fn learner(state: &State, now: Moment) -> Option<Screenful> {
    let draft = state.teaching.draft.as_ref()?;
    let form = Form {
        question: Say::WhoIsLearner,
        lines: vec![work(&draft.work, now.offset_min), Say::LearnerLine],
        fields: vec![filled("learner", Say::LearnerField, FieldKind::Text, &draft.learner, LEARNER_MOST)],
    };
    Some(Screenful {
        answers: vec![
            put_aside(),
            act_with_fields("next", Say::NextStep, Tone::Good, Command::Teach(Ask::NameLearner)),
        ],
        ..plain(head(Say::SignOff, now), Shape::Form(form), Say::WhoIsLearner)
    })
}

fn put_aside() -> Act<Say> {
    act("put-aside", Say::PutAside, Tone::Plain, Command::Teach(Ask::PutAside))
}

/// One item, a card; what the judge found stands beside it.
pub fn item(state: &State, item: Item, now: Moment) -> Option<Screenful> {
    let draft = state.teaching.draft.as_ref()?;
    let found = draft.finding(item);
    let number = Item::ALL.iter().position(|one| *one == item).unwrap_or_default() + 1;
    let place = Say::ItemOf {
        number: number.to_string(),
        of: Item::ALL.len().to_string(),
        name: isolated(&draft.learner),
    };
    let lines = [
        Some(place),
        draft.work.is_not_passed().then_some(Say::RunNotPassed),
        found.map(|found| Say::JudgeFound { found: boxed(finding(found)) }),
    ];
    let form = Form {
        question: item.say(),
        lines: lines.into_iter().flatten().collect(),
        fields: fields(draft, item),
    };
    Some(Screenful {
        answers: vec![
            to("back", Say::AllItems, Tone::Plain, Place::SignItems),
            act("leave", Say::NotThisTime, Tone::Strong, Command::Teach(Ask::Leave { item })),
            act_with_fields("next", Say::NextStep, Tone::Good, Command::Teach(Ask::Mark { item })),
        ],
        ..plain(head(Say::SignOff, now), Shape::Form(form), item.say())
    })
}

fn fields(draft: &Draft, item: Item) -> Vec<crate::contract::Field<Say>> {
    let mark = draft.mark(item).and_then(Option::as_ref);
    let mut how = pick("how", Say::HowField, How::ALL.map(|how| (how.id(), how.say())).to_vec());
    let mut met = pick("met", Say::MetField, vec![("met", Say::MetYes), ("not-met", Say::MetNot)]);
    if let Some(mark) = mark {
        choose(&mut how, mark.how.id());
        choose(&mut met, if mark.met { "met" } else { "not-met" });
    }
    let reason = mark.and_then(|mark| mark.reason.as_deref()).unwrap_or_default();
    let label = match draft.finding(item) {
        _ if draft.work.is_not_passed() => Say::NotPassedField,
        Some(_) => Say::OverrideField,
        None => Say::RemarkField,
    };
    vec![how, met, filled("reason", label, FieldKind::Text, reason, REASON_MOST)]
}

/// What was chosen before stands in the field again.
pub fn choose(field: &mut crate::contract::Field<Say>, value: &str) {
    value.clone_into(&mut field.value);
    field.choices.iter_mut().for_each(|choice| choice.chosen = choice.value == value);
}

/// All items with what was said of each; the way to the PIN.
pub fn items(state: &State, now: Moment) -> Option<Screenful> {
    let draft = state.teaching.draft.as_ref()?;
    let rows = Item::ALL.into_iter().map(|item| item_in_list(draft, item)).collect();
    let shape = Shape::Beds(Beds { rows, empty: Say::NothingSigned });
    Some(Screenful {
        answers: vec![
            to("back", Say::Back, Tone::Strong, Place::ToSign),
            to("sign", Say::ToThePin, Tone::Good, Place::SignPin),
        ],
        aside: vec![to("learner", Say::OtherLearner, Tone::Plain, Place::SignLearner), put_aside()],
        ..plain(head(Say::SignOff, now), shape, Say::AllItems)
    })
}

fn item_in_list(draft: &Draft, item: Item) -> BedRow<Say> {
    let said = match draft.mark(item) {
        None => Say::NotLookedAt,
        Some(None) => Say::NotThisTime,
        Some(Some(mark)) => mark_said(mark),
    };
    BedRow {
        title: item.say(),
        due: Some(said),
        urgent: false,
        lines: Vec::new(),
        chart: None,
        open: to(format!("item-{item:?}"), Say::OpenBed, Tone::Plain, Place::SignItem { item }),
    }
}
