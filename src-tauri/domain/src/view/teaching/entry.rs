//! One signed paper: what it says, who signed, who stands for that educator, where its file is.

use super::roster::beside;
use super::{short_key, to, vouched, work};
use crate::command::Command;
use crate::contract::{Outcome, Row, Shape, Tone};
use crate::decide::can_revoke;
use crate::moment::{Moment, date_text};
use crate::say::{Say, figure};
use crate::state::State;
use crate::teaching::ask::{Ask, NotWritten};
use crate::teaching::paper::{Finding, Marked, Paper, Says, SignOff};
use crate::teaching::place::Place;
use crate::teaching::{Kept, date_of};
use crate::view::pieces::{boxed, head, isolated, plain, row};
use crate::view::{Screenful, act};

pub fn entry(state: &State, at: u32, now: Moment) -> Option<Screenful> {
    let kept = state.teaching.entry(at)?;
    let headline = headline(&kept.paper.says);
    let outcome = Outcome {
        headline: headline.clone(),
        rows: rows(state, &kept.paper, &kept.key),
        scales: Vec::new(),
        flags: flags(state, kept),
        note: Some(file(state, at, kept)),
    };
    let revoke = can_revoke(state, at);
    let (earlier, later) = beside(state, at);
    let other = |key: &'static str, label, at: Option<u32>| {
        at.map(|at| to(key, label, Tone::Plain, Place::Entry { at }))
    };
    let back = match kept.paper.says {
        Says::SignedOff(_) => Place::Learner { entry: at },
        Says::Revoked { .. } | Says::Vouched { .. } => Place::Roster { from: 0 },
    };
    Some(Screenful {
        answers: vec![
            to("back", Say::Back, Tone::Strong, back),
            act("save", Say::SaveAsFile, Tone::Good, Command::Teach(Ask::Save { at })),
        ],
        aside: [
            revoke.then(|| to("revoke", Say::Revoke, Tone::Plain, Place::Revoke { at })),
            other("earlier", Say::EarlierEntry, earlier),
            other("later", Say::LaterEntry, later),
        ]
        .into_iter()
        .flatten()
        .collect(),
        ..plain(head(Say::SignOff, now), Shape::Result(outcome), headline)
    })
}

pub fn headline(says: &Says) -> Say {
    match says {
        Says::SignedOff(sign_off) => Say::SignedTitle { name: isolated(&sign_off.learner) },
        Says::Revoked { .. } => Say::RevokedTitle,
        Says::Vouched { name, .. } => Say::VouchedTitle { name: isolated(name) },
    }
}

pub fn rows(state: &State, paper: &Paper, key: &str) -> Vec<Row<Say>> {
    let by = Say::NamedPerson { name: isolated(&paper.educator) };
    let mut rows = vec![
        row(Say::RowSignedBy, by, Some(vouched(&state.teaching, key))),
        row(Say::RowKey, short_key(key), None),
        row(Say::RowSignedOn, figure(date_of(paper)), None),
    ];
    match &paper.says {
        Says::SignedOff(sign_off) => rows.extend(signed_off(sign_off, paper.offset_min)),
        Says::Revoked { entry, reason } => {
            rows.push(row(Say::RowReason, Say::Local { text: reason.clone() }, None));
            rows.push(row(Say::RowEntry, short_key(entry), None));
        }
        Says::Vouched { key, .. } => rows.push(row(Say::RowKeyOfOther, short_key(key), None)),
    }
    rows
}

fn signed_off(sign_off: &SignOff, offset_min: i16) -> Vec<Row<Say>> {
    let done = row(Say::RowWork, work(&sign_off.work, offset_min), None);
    [done].into_iter().chain(sign_off.marks.iter().map(mark_row)).collect()
}

fn mark_row(mark: &Marked) -> Row<Say> {
    let reason = mark.reason.as_ref().map(|reason| Say::Local { text: isolated(reason) });
    let judge = mark.judge.map(|found| Say::JudgeFound { found: boxed(finding(found)) });
    let note = match (judge, reason) {
        (Some(judge), Some(reason)) => Some(Say::BothNotes { first: boxed(judge), second: boxed(reason) }),
        (judge, reason) => judge.or(reason),
    };
    row(mark.item.say(), mark_said(mark), note)
}

pub fn mark_said(mark: &Marked) -> Say {
    let how = boxed(mark.how.say());
    if mark.met { Say::ShownMet { how } } else { Say::ShownNotMet { how } }
}

pub fn finding(found: Finding) -> Say {
    match found {
        Finding::Done => Say::VerdictDone,
        Finding::Late => Say::VerdictLate,
        Finding::Missed => Say::VerdictMissed,
        Finding::Unsafe => Say::VerdictUnsafe,
    }
}

fn flags(state: &State, kept: &Kept) -> Vec<Say> {
    let revoked = state.teaching.revoked_by(&kept.hash).map(|by| {
        let reason = match &by.paper.says {
            Says::Revoked { reason, .. } => isolated(reason),
            Says::SignedOff(_) | Says::Vouched { .. } => String::new(),
        };
        Say::RevokedBy { name: isolated(&by.paper.educator), date: date_of(&by.paper), reason }
    });
    let unvouched = (!state.teaching.is_vouched(&kept.key)).then_some(Say::NotVouchedFlag);
    let early = kept.is_before_enrolment().then_some(Say::BeforeEnrolment);
    [revoked, not_passed(&kept.paper.says), unvouched, early].into_iter().flatten().collect()
}

/// Whoever holds the paper sees it, on any tablet.
pub fn not_passed(says: &Says) -> Option<Say> {
    let Says::SignedOff(sign_off) = says else { return None };
    sign_off.work.is_not_passed().then_some(Say::RunNotPassed)
}

fn file(state: &State, at: u32, kept: &Kept) -> Say {
    let failed = state.teaching.not_written.as_ref().filter(|(entry, _)| *entry == at);
    match (failed, &kept.file) {
        (Some((_, NotWritten::DiskFull)), _) => Say::FileDiskFull,
        (Some((_, NotWritten::Device(why))), _) => Say::FileNotWritten { why: why.clone() },
        (Some((_, NotWritten::Damaged)), _) => Say::FileEntryDamaged,
        (None, Some(file)) => Say::FileIsAt { file: isolated(file) },
        (None, None) => Say::FileNone,
    }
}

pub fn since(ms: i64, offset_min: i16) -> Say {
    Say::EnrolledOn { date: date_text(ms, offset_min) }
}
