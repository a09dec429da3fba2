//! The rules, figure by figure with its source: those in force, and those handed in beside them.

mod lines;

use super::pieces::{boxed, go, head, plain, row};
use super::{Screenful, act};
use crate::command::Command;
use crate::contract::{Outcome, Row, Shape, Tone};
use crate::library::{LetIn, Offered};
use crate::moment::{Moment, date_text};
use crate::rules::{Approval, Rules};
use crate::say::{Say, figure};
use crate::state::State;
use crate::state::screen::Screen;
use lines::{Line, lines};

pub fn rules(state: &State, now: Moment) -> Screenful {
    let rules = &state.rules;
    let headline =
        if rules.example { Say::RulesTitleExample } else { Say::RulesTitle { name: rules.id.clone() } };
    let outcome = Outcome {
        headline: headline.clone(),
        rows: in_force(rules, state.rules_let_in.as_ref()),
        scales: Vec::new(),
        flags: overdue(rules, now).into_iter().collect(),
        note: Some(rules.approval.as_ref().map_or(Say::RulesNotApproved, approved)),
    };
    Screenful {
        answers: vec![go("back", Say::Back, Tone::Strong, Screen::Settings)],
        aside: vec![go("new-rules", Say::HandInRules, Tone::Plain, Screen::NewRules)],
        ..plain(head(Say::Settings, now), Shape::Result(outcome), headline)
    }
}

fn in_force(rules: &Rules, let_in: Option<&LetIn>) -> Vec<Row<Say>> {
    let said = lines(rules).into_iter().map(|line| row(line.label, line.value, line.source));
    said.chain(let_in.into_iter().flat_map(let_in_rows)).collect()
}

/// Who let a file into force here, and the fingerprint that the same file has on every tablet.
pub fn let_in_rows(let_in: &LetIn) -> [Row<Say>; 2] {
    let by = Say::LetInBy {
        name: let_in.by.clone(),
        role: let_in.role.clone(),
        date: date_text(let_in.at.wall_ms, let_in.at.offset_min),
    };
    [row(Say::RowLetInHere, by, None), row(Say::RowFingerprint, figure(fingerprint(&let_in.hash)), None)]
}

/// Enough of the hash to compare two tablets by eye: "3f2a 91c0 77de 0b15".
pub fn fingerprint(hash: &str) -> String {
    let digits: Vec<char> = hash.chars().take(16).collect();
    digits.chunks(4).map(|four| four.iter().collect::<String>()).collect::<Vec<_>>().join(" ")
}

/// The rules handed in, each line beside the one in force where they differ.
pub fn offered(state: &State, now: Moment) -> Screenful {
    let Some(Offered::Rules { rules, hash }) = &state.offered else { return self::rules(state, now) };
    let headline = Say::OfferedRulesTitle { name: rules.id.clone() };
    let (rows, differ) = compared(&lines(rules), &lines(&state.rules));
    let count = if differ == 0 { Say::OfferedSame } else { Say::OfferedDiffer { count: differ } };
    let print = row(Say::RowFingerprint, figure(fingerprint(hash)), None);
    let outcome = Outcome {
        headline: headline.clone(),
        rows: rows.into_iter().chain(rules.approval.as_ref().map(approval_row)).chain([print]).collect(),
        scales: Vec::new(),
        flags: [Some(count), overdue(rules, now)].into_iter().flatten().collect(),
        note: Some(Say::OfferNotInForce),
    };
    Screenful {
        answers: vec![
            act("put-aside", Say::PutAside, Tone::Strong, Command::PutAside),
            go("approve", Say::ApproveOffer, Tone::Good, Screen::Approve),
        ],
        ..plain(head(Say::Settings, now), Shape::Result(outcome), headline)
    }
}

fn approval_row(approval: &Approval) -> Row<Say> {
    row(Say::RowApproval, approved(approval), None)
}

/// How many lines differ, and each line: the one in force is named beside a line that differs.
fn compared(new: &[Line], old: &[Line]) -> (Vec<Row<Say>>, u32) {
    let mut differ = 0;
    let rows = new.iter().zip(old).map(|(new, old)| {
        let note = (new.value != old.value).then(|| beside(new, old));
        differ += u32::from(note.is_some());
        row(new.label.clone(), new.value.clone(), note)
    });
    (rows.collect(), differ)
}

fn beside(new: &Line, old: &Line) -> Say {
    let now = boxed(old.value.clone());
    match new.source.clone() {
        Some(source) => Say::NewWithSource { now, source: boxed(source) },
        None => Say::NowInForce { now },
    }
}

fn approved(approval: &Approval) -> Say {
    Say::RulesApproved {
        name: approval.by.clone(),
        document: approval.document.clone(),
        date: approval.on.to_string(),
        review: approval.review.to_string(),
    }
}

fn overdue(rules: &Rules, now: Moment) -> Option<Say> {
    rules.review_passed(now).map(|review| Say::RulesReviewOverdue { review: review.to_string() })
}
