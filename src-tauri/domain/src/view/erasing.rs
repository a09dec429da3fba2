//! What is kept of patients who have left, until when, and the proof of what was erased.

use super::pieces::{boxed, field, go, head, isolated, plain, row, when};
use super::{Screenful, act_with_fields};
use crate::command::Command;
use crate::contract::{Act, Ask, BedRow, Beds, Field, FieldKind, Form, Head, Outcome, Row, Shape, Tone};
use crate::decide::{NAME_MOST, erasable_ms};
use crate::leaving::{Closed, Erasure, Left, Way};
use crate::moment::{Moment, date_text};
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

/// Rows of one page: who left longest ago comes first.
const ROWS_MOST: usize = 10;
/// The newest proof comes first.
const PROOFS_MOST: usize = 5;

pub fn erase(state: &State, now: Moment) -> Screenful {
    let rows = state.closed.iter().zip(0..).take(ROWS_MOST).map(|(closed, at)| kept(state, closed, at, now));
    let subtitle = (!state.closed.is_empty()).then_some(Say::EraseTitle);
    let shape = Shape::Beds(Beds { rows: rows.collect(), empty: Say::EraseNothing });
    let restore =
        state.is_untouched().then(|| go("restore", Say::RestoreName, Tone::Strong, Screen::Restore));
    let back = go("back", Say::Back, Tone::Strong, Screen::Settings);
    let backup = go("backup", Say::BackupName, Tone::Strong, Screen::Backup);
    Screenful {
        answers: [Some(back), Some(backup), restore].into_iter().flatten().collect(),
        aside: vec![go("erased", Say::ErasedName, Tone::Plain, Screen::Erased)],
        ..plain(Head { subtitle, ..head(Say::KeepingName, now) }, shape, Say::EraseTitle)
    }
}

fn kept(state: &State, closed: &Closed, at: u32, now: Moment) -> BedRow<Say> {
    let from = erasable_ms(state, closed);
    let may = from.is_some_and(|from| from <= now.wall_ms);
    let (due, name) = match from.map(|from| boxed(when(from, now))) {
        None => (Say::EraseNever, Say::EraseLater),
        Some(when) if may => (Say::ErasableSince { when }, Say::EraseName),
        Some(when) => (Say::ErasableFrom { when }, Say::EraseLater),
    };
    BedRow {
        title: Say::Local { text: closed.label.clone() },
        due: Some(due),
        urgent: false,
        lines: vec![Say::LeftBedOn { date: date_of(closed.at) }],
        chart: None,
        open: go(format!("erase-{at}"), name, Tone::Plain, Screen::EraseAsk { at }),
    }
}

fn date_of(at: Moment) -> String {
    date_text(at.wall_ms, at.offset_min)
}

/// The question, once the rule allows it; before that only when it will.
pub fn ask(state: &State, at: u32, now: Moment) -> Screenful {
    let Some(closed) = state.closed.get(at as usize) else { return erase(state, now) };
    let question = Say::EraseAsk { bed: isolated(&closed.label), date: date_of(closed.at) };
    let back = go("back", Say::EraseNo, Tone::Strong, Screen::Erase);
    match erasable_ms(state, closed) {
        Some(from) if from <= now.wall_ms => {
            let mut lines = vec![Say::EraseLine];
            lines.extend(has_left(&closed.left));
            lines.push(Say::EraseFiles);
            let form = Form { question: question.clone(), lines, fields: vec![name_field()] };
            let yes = act_with_fields("erase", Say::EraseYes, Tone::Bad, Command::Erase { at });
            Screenful {
                answers: vec![back, yes],
                ..plain(head(Say::KeepingName, now), Shape::Form(form), question)
            }
        }
        from => not_yet(from, question, back, now),
    }
}

fn not_yet(from: Option<i64>, question: Say, back: Act<Say>, now: Moment) -> Screenful {
    let line = from.map_or(Say::EraseNoRule, |from| Say::EraseNotYet { when: boxed(when(from, now)) });
    let ask = Ask {
        question: question.clone(),
        lines: vec![line],
        reason: None,
        watch: None,
        scale: None,
        others: Vec::new(),
    };
    Screenful { answers: vec![back], ..plain(head(Say::KeepingName, now), Shape::Ask(ask), question) }
}

fn name_field() -> Field<Say> {
    field("name", Say::EraserField, FieldKind::Text, NAME_MOST)
}

/// One line a way in which it left.
fn has_left(left: &[Left]) -> Vec<Say> {
    let say = |(way, times, _): (Way, u32, Moment)| match way {
        Way::Code => Say::LeftAsCode { times },
        Way::Files => Say::LeftAsFiles { times },
        Way::Backup => Say::LeftAsBackup { times },
    };
    let said: Vec<Say> = by_way(left).map(say).collect();
    if said.is_empty() { vec![Say::LeftNothing] } else { said }
}

/// Each way in which something left: how often, and when last.
fn by_way(left: &[Left]) -> impl Iterator<Item = (Way, u32, Moment)> {
    [Way::Code, Way::Files, Way::Backup].into_iter().filter_map(|way| {
        let of_way = || left.iter().filter(|one| one.way == way);
        let last = of_way().map(|one| one.last).max_by_key(|last| last.wall_ms)?;
        Some((way, of_way().map(|one| one.times).sum(), last))
    })
}

pub fn erased(state: &State, now: Moment) -> Screenful {
    let headline = if state.erased.is_empty() { Say::ErasedNothing } else { Say::ErasedTitle };
    let more = u32::try_from(state.erased.len().saturating_sub(PROOFS_MOST)).unwrap_or(u32::MAX);
    let still = state.erasing.is_some().then_some(Say::ErasingStill);
    let outcome = Outcome {
        headline: headline.clone(),
        rows: state.erased.iter().rev().take(PROOFS_MOST).flat_map(|erasure| proof(erasure, now)).collect(),
        scales: Vec::new(),
        flags: Vec::new(),
        note: still.or((more > 0).then_some(Say::ErasedMore { count: more })),
    };
    Screenful {
        answers: vec![go("back", Say::Back, Tone::Strong, Screen::Erase)],
        ..plain(head(Say::KeepingName, now), Shape::Result(outcome), headline)
    }
}

fn proof(erasure: &Erasure, now: Moment) -> Vec<Row<Say>> {
    let value = Say::ErasedBy { name: isolated(&erasure.by), entries: erasure.entries };
    let by_rule = Say::ErasedByRule { days: u32::from(erasure.after_days), closed: date_of(erasure.closed) };
    let label = Say::ErasedOn { when: boxed(when(erasure.at.wall_ms, now)) };
    let mut rows = vec![row(label, value, Some(by_rule))];
    rows.extend(by_way(&erasure.left).map(|(way, times, last)| {
        let label = match way {
            Way::Code => Say::RowLeftAsCode,
            Way::Files => Say::RowLeftAsFiles,
            Way::Backup => Say::RowLeftAsBackup,
        };
        row(label, Say::LeftTimes { times }, Some(Say::LeftLast { date: date_of(last) }))
    }));
    if erasure.left.is_empty() {
        rows.push(row(Say::RowHadLeft, Say::LeftNothing, None));
    }
    rows
}
