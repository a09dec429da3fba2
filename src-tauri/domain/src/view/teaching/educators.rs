//! Who can sign, and who stands for whom.

use super::entry::since;
use super::{short_key, to, vouched};
use crate::contract::{Act, BedRow, Beds, Outcome, Shape, Tone};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::teaching::educator::Educator;
use crate::teaching::place::Place;
use crate::view::Screenful;
use crate::view::pieces::{head, isolated, plain, row};

/// Rows of one page; those who sign here come first.
const ROWS_MOST: usize = 12;

pub fn educators(state: &State, now: Moment) -> Screenful {
    let all = || (0..).zip(&state.teaching.educators).filter(|(_, one)| one.retired.is_none());
    let here = all().filter(|(_, one)| one.can_sign());
    let elsewhere = all().filter(|(_, one)| !one.can_sign());
    let rows = here.chain(elsewhere).take(ROWS_MOST).map(|(at, one)| in_list(state, at, one)).collect();
    Screenful {
        answers: vec![
            to("back", Say::Back, Tone::Strong, Place::Roster { from: 0 }),
            to("enrol", Say::Enrol, Tone::Strong, Place::Enrol),
        ],
        ..plain(
            head(Say::SignOff, now),
            Shape::Beds(Beds { rows, empty: Say::EducatorsEmpty }),
            Say::Educators,
        )
    }
}

fn in_list(state: &State, at: u32, educator: &Educator) -> BedRow<Say> {
    let lines = if educator.can_sign() { Vec::new() } else { vec![Say::SignsElsewhere] };
    BedRow {
        title: Say::Local { text: educator.name.clone() },
        due: Some(vouched(&state.teaching, &educator.key)),
        urgent: educator.vouched.is_none(),
        lines,
        chart: None,
        open: to(format!("educator-{at}"), Say::OpenBed, Tone::Plain, Place::Educator { at }),
    }
}

pub fn educator(state: &State, at: u32, now: Moment) -> Option<Screenful> {
    let educator = state.teaching.educator(at)?;
    let headline = Say::EducatorTitle { name: isolated(&educator.name) };
    let enrolled = since(educator.enrolled.wall_ms, educator.enrolled.offset_min);
    let outcome = Outcome {
        headline: headline.clone(),
        rows: vec![
            row(Say::RowVouched, vouched(&state.teaching, &educator.key), None),
            row(Say::RowEnrolled, enrolled, None),
            row(Say::RowKey, short_key(&educator.key), None),
        ],
        scales: Vec::new(),
        flags: flags(educator),
        note: Some(Say::EducatorNote),
    };
    Some(Screenful {
        answers: vec![to("back", Say::Back, Tone::Strong, Place::Educators)],
        aside: aside(state, at, educator),
        ..plain(head(Say::SignOff, now), Shape::Result(outcome), headline)
    })
}

fn flags(educator: &Educator) -> Vec<Say> {
    let unvouched = educator.vouched.is_none().then_some(Say::NotVouchedFlag);
    let retired = educator.retired.is_some().then_some(Say::RetiredFlag);
    [unvouched, retired].into_iter().flatten().collect()
}

fn aside(state: &State, at: u32, educator: &Educator) -> Vec<Act<Say>> {
    let others = state.teaching.signing().any(|(place, _)| place != at);
    let unvouched = educator.vouched.is_none() && educator.retired.is_none();
    let approver = state.rules_let_in.is_some();
    let vouch = to("vouch", Say::VouchFor, Tone::Plain, Place::Vouch { at });
    let by_approver = to("approver", Say::VouchAsApprover, Tone::Plain, Place::ApproverVouch { at });
    let renew = to("renew", Say::NewPin, Tone::Plain, Place::Renew { at });
    [
        (unvouched && others).then_some(vouch),
        (unvouched && approver).then_some(by_approver),
        (educator.can_sign() && others).then_some(renew),
    ]
    .into_iter()
    .flatten()
    .collect()
}
