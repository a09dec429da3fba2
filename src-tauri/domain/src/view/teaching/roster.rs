//! Who is signed for what, and who is due.

use super::to;
use crate::contract::{BedRow, Beds, Outcome, Row, Shape, Tone};
use crate::moment::{Moment, date_text};
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::teaching::item::Item;
use crate::teaching::paper::Says;
use crate::teaching::place::Place;
use crate::teaching::roster::{Due, Held, Learner, due, learners};
use crate::view::Screenful;
use crate::view::pieces::{boxed, go, head, isolated, plain, row};

/// Rows of one page.
const ROWS_MOST: usize = 10;

pub fn roster(state: &State, from: u32, now: Moment) -> Screenful {
    let all = learners(&state.teaching, state.rules.sign_off_after());
    let page = all.iter().skip(from as usize).take(ROWS_MOST);
    let shape =
        Shape::Beds(Beds { rows: page.map(|one| in_list(one, now)).collect(), empty: Say::RosterEmpty });
    let next = from.saturating_add(u32::try_from(ROWS_MOST).unwrap_or(u32::MAX));
    let mut answers = vec![go("back", Say::Back, Tone::Strong, Screen::Settings)];
    if (next as usize) < all.len() {
        answers.push(to("more", Say::MoreLearners, Tone::Strong, Place::Roster { from: next }));
    }
    answers.push(to("to-sign", Say::ToSign, Tone::Good, Place::ToSign));
    Screenful {
        answers,
        aside: vec![
            to("educators", Say::Educators, Tone::Plain, Place::Educators),
            to("new-file", Say::CheckSignedFile, Tone::Plain, Place::NewFile),
        ],
        ..plain(head(Say::SignOff, now), shape, Say::RosterTitle)
    }
}

fn in_list(learner: &Learner<'_>, now: Moment) -> BedRow<Say> {
    let entry = learner.entries.last().copied().unwrap_or_default();
    let of = u32::try_from(Item::ALL.len()).unwrap_or(u32::MAX);
    let mut lines = vec![Say::ItemsMet { met: learner.met().to_string(), of: of.to_string() }];
    lines.extend(learner.has_practice().then_some(Say::PartlyInPractice));
    let until = due(learner.until_ms(), now.wall_ms);
    BedRow {
        title: Say::Local { text: learner.name.to_owned() },
        due: Some(until_said(learner.until_ms(), learner.met() > 0, now)),
        urgent: matches!(until, Due::RunOut | Due::Soon),
        lines,
        chart: None,
        open: to(format!("learner-{entry}"), Say::OpenBed, Tone::Plain, Place::Learner { entry }),
    }
}

fn until_said(until_ms: Option<i64>, any_met: bool, now: Moment) -> Say {
    let date = until_ms.map(|until| date_text(until, now.offset_min)).unwrap_or_default();
    match due(until_ms, now.wall_ms) {
        Due::RunOut => Say::RunOutOn { date },
        Due::Soon => Say::DueBy { date },
        Due::Later => Say::SignedUntil { date },
        Due::Never if any_met => Say::SignedWithoutEnd,
        Due::Never => Say::NothingSigned,
    }
}

/// The learner's items, each with the newest word on it.
pub fn learner(state: &State, entry: u32, now: Moment) -> Option<Screenful> {
    let all = learners(&state.teaching, state.rules.sign_off_after());
    let learner = all.iter().find(|learner| learner.entries.contains(&entry))?;
    let headline = Say::LearnerTitle { name: isolated(learner.name) };
    let items = Item::ALL.into_iter().map(|item| item_row(state, learner, item, now)).collect();
    let outcome = Outcome {
        headline: headline.clone(),
        rows: items,
        scales: Vec::new(),
        flags: Vec::new(),
        note: Some(rule(state)),
    };
    let newest = learner.entries.last().copied().unwrap_or(entry);
    Some(Screenful {
        answers: vec![
            to("back", Say::Back, Tone::Strong, Place::Roster { from: 0 }),
            to("newest", Say::NewestEntry, Tone::Strong, Place::Entry { at: newest }),
        ],
        ..plain(head(Say::SignOff, now), Shape::Result(outcome), headline)
    })
}

fn item_row(state: &State, learner: &Learner<'_>, item: Item, now: Moment) -> Row<Say> {
    let held = learner.held.iter().find(|held| held.mark.item == item);
    match held {
        None => row(item.say(), Say::NothingSigned, None),
        Some(held) if held.mark.met => {
            row(item.say(), until_said(held.until_ms, true, now), Some(signed_by(state, held)))
        }
        Some(held) => row(item.say(), Say::MetNot, Some(signed_by(state, held))),
    }
}

fn signed_by(state: &State, held: &Held<'_>) -> Say {
    let name = isolated(&held.kept.paper.educator);
    let plain = match state.teaching.is_vouched(&held.kept.key) {
        true => Say::ByEducator { name },
        false => Say::ByEducatorNotVouched { name },
    };
    if held.practice { Say::InPractice { said: boxed(plain) } } else { plain }
}

/// The rule behind the dates; that it is an example where it is.
fn rule(state: &State) -> Say {
    match (state.rules.sign_off_after(), state.rules.example) {
        (None, _) => Say::NoSignOffRule,
        (Some(months), true) => Say::SignOffRuleExample { months: months.to_string() },
        (Some(months), false) => Say::SignOffRule { months: months.to_string() },
    }
}

pub fn has_practice(state: &State, entry: u32) -> bool {
    let all = learners(&state.teaching, None);
    all.iter().any(|learner| learner.entries.contains(&entry) && learner.has_practice())
}

/// The entries of the same learner before and after this one.
pub fn beside(state: &State, at: u32) -> (Option<u32>, Option<u32>) {
    let Some(Says::SignedOff(sign_off)) = state.teaching.entry(at).map(|kept| &kept.paper.says) else {
        return (None, None);
    };
    let all = learners(&state.teaching, None);
    let of = all.iter().find(|learner| learner.name == sign_off.learner);
    let entries = of.map(|learner| learner.entries.as_slice()).unwrap_or_default();
    let here = entries.iter().position(|entry| *entry == at);
    let earlier = here.and_then(|here| here.checked_sub(1)).and_then(|before| entries.get(before)).copied();
    let later = here.and_then(|here| entries.get(here + 1)).copied();
    (earlier, later)
}
