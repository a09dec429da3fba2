//! What a code says, whose it is, and what stands against it.

use super::checks::{flag, rows, wall_ms};
use super::load::load_again;
use crate::contract::{Act, BedRow, Beds, Outcome, Shape, Tone};
use crate::decide;
use crate::handover::arrived::{Arrived, Remark};
use crate::handover::summary::{Next, WireFacts};
use crate::moment::Moment;
use crate::rules::Chamber;
use crate::say::{Say, figure, isolated};
use crate::state::State;
use crate::state::bed::WireKind;
use crate::state::screen::Screen;
use crate::view::pieces::{go, head, plain, row, when};
use crate::view::{Screenful, beds};

const HOUR_MIN: u32 = 60;
const DAY_MIN: u32 = 24 * HOUR_MIN;

pub fn arrived(state: &State, at: u32, now: Moment) -> Screenful {
    let Some(arrived) = decide::arrived(state, at) else { return beds::beds(state, now) };
    let headline = headline(state, arrived);
    let check = &arrived.summary.newest;
    let mut rows = rows(check, now);
    rows.push(row(Say::RowNextCheck, next(arrived.summary.next, now), None));
    if let Ok(count @ 1..) = u32::try_from(arrived.summary.earlier.len()) {
        rows.push(row(Say::RowChecksBefore, figure(count.to_string()), None));
    }
    let remarks = arrived.remarks.iter().filter_map(|told| remark(*told));
    let outcome = Outcome {
        headline: headline.clone(),
        rows,
        scales: Vec::new(),
        flags: remarks.chain(check.flags.iter().map(|mention| flag(mention, check))).collect(),
        note: Some(Say::ArrivedNote),
    };
    Screenful {
        answers: answers(state, at),
        aside: aside(state, arrived, at),
        ..plain(head(wire(arrived.summary.wire), now), Shape::Result(outcome), headline)
    }
}

fn headline(state: &State, arrived: &Arrived) -> Say {
    let tablet = arrived.tablet.short();
    if state.own_key.tablet.as_ref() == Some(&arrived.tablet) {
        return Say::ArrivedOwn;
    }
    match state.name_of(&arrived.tablet) {
        Some(name) => Say::ArrivedKnown { name: isolated(name) },
        None => Say::ArrivedUnknown { tablet },
    }
}

pub fn wire(facts: WireFacts) -> Say {
    match (facts.chamber, facts.kind) {
        (Chamber::Atrium, WireKind::Epicardial) => Say::AtrialWire,
        (Chamber::Atrium, WireKind::Transvenous) => Say::AtrialLead,
        (Chamber::Ventricle, WireKind::Epicardial) => Say::VentricularWire,
        (Chamber::Ventricle, WireKind::Transvenous) => Say::VentricularLead,
    }
}

fn next(next: Next, now: Moment) -> Say {
    match next {
        Next::Now => Say::DueNow,
        Next::At(minute) => when(wall_ms(minute), now),
    }
}

/// The headline says already whether the tablet is known.
fn remark(remark: Remark) -> Option<Say> {
    Some(match remark {
        Remark::UnknownTablet => return None,
        Remark::Duplicate => Say::RemarkDuplicate,
        Remark::Expired { age_min } => Say::RemarkExpired { age: Box::new(age(age_min)) },
        Remark::AheadOfClock { by_min } => Say::RemarkAhead { age: Box::new(age(by_min)) },
        Remark::Shortened { facts } => Say::RemarkShortened { facts: u32::from(facts) },
        Remark::ExampleRules => Say::RemarkExampleRules,
        Remark::DialsNotRead => Say::RemarkDialsNotRead,
        Remark::UnknownLines => Say::RemarkUnknownLines,
    })
}

fn age(minutes: u32) -> Say {
    match minutes {
        0..120 => Say::AgeMinutes { minutes },
        120..2_880 => Say::AgeHours { hours: minutes / HOUR_MIN },
        _ => Say::AgeDays { days: minutes / DAY_MIN },
    }
}

fn answers(state: &State, at: u32) -> Vec<Act<Say>> {
    vec![
        go("aside", Say::ArrivedAside, Tone::Strong, load_again(state)),
        go("take", Say::ArrivedTake, Tone::Good, Screen::TakeIn { at }),
    ]
}

fn aside(state: &State, arrived: &Arrived, at: u32) -> Vec<Act<Say>> {
    let own = state.own_key.tablet.as_ref() == Some(&arrived.tablet);
    let nameless = !own && state.name_of(&arrived.tablet).is_none();
    nameless
        .then(|| go("name", Say::ArrivedName, Tone::Plain, Screen::NameTablet { at }))
        .into_iter()
        .collect()
}

/// Several codes stood in one picture.
pub fn arrived_list(state: &State, now: Moment) -> Screenful {
    let arrived = state.loading.as_ref().map(|loading| loading.arrived()).unwrap_or_default();
    let rows = arrived.iter().zip(0..).map(|(one, at)| in_list(one, at, now)).collect();
    let shape = Shape::Beds(Beds { rows, empty: Say::ArrivedSeveral });
    Screenful {
        answers: vec![go("aside", Say::ArrivedAside, Tone::Strong, load_again(state))],
        ..plain(head(Say::ArrivedSeveral, now), shape, Say::ArrivedSeveral)
    }
}

fn in_list(arrived: &Arrived, at: u32, now: Moment) -> BedRow<Say> {
    let tablet = arrived.name.as_deref().map_or_else(|| arrived.tablet.short(), isolated);
    BedRow {
        title: wire(arrived.summary.wire),
        due: Some(when(wall_ms(arrived.summary.newest.ended), now)),
        urgent: false,
        lines: vec![Say::HistoryFrom { tablet }],
        chart: None,
        open: go(format!("arrived-{at}"), Say::OpenBed, Tone::Plain, Screen::Arrived { at }),
    }
}
