//! This tablet's key, and the tablets it knows by name.

use crate::command::Command;
use crate::contract::{Act, Ask, BedRow, Beds, FieldKind, Form, Head, Shape, Tone};
use crate::decide::{self, NAME_MOST};
use crate::handover::tablet::{KeyLost, KnownTablet, OwnKey};
use crate::moment::{Moment, date_text};
use crate::say::{Say, isolated};
use crate::state::State;
use crate::state::screen::Screen;
use crate::view::pieces::{field, go, head, plain};
use crate::view::{Screenful, act, act_with_fields, beds};

/// Rows of one screen: the newest. Older ones are met again when one of their codes is loaded.
const ROWS_MOST: usize = 12;

pub fn tablets(state: &State, now: Moment) -> Screenful {
    let mut known: Vec<_> = state.known_tablets.iter().zip(0..).collect();
    known.reverse();
    let rows = known.into_iter().take(ROWS_MOST).map(|(known, at)| in_list(known, at)).collect();
    let spoken = own(&state.own_key);
    let subtitle = state.own_key.lost.is_none().then(|| spoken.clone());
    Screenful {
        answers: answers(&state.own_key),
        notice: state.own_key.lost.is_some().then(|| spoken.clone()),
        ..plain(
            Head { subtitle, ..head(Say::Tablets, now) },
            Shape::Beds(Beds { rows, empty: Say::TabletsNone }),
            spoken,
        )
    }
}

/// The key in words.
fn own(key: &OwnKey) -> Say {
    match (key.lost, &key.tablet) {
        (Some(KeyLost::Gone), _) => Say::KeyGone,
        (Some(KeyLost::Damaged), _) => Say::KeyDamaged,
        (Some(KeyLost::NotWritten), _) => Say::KeyNotWritten,
        (None, Some(tablet)) => Say::ThisTablet { tablet: tablet.short() },
        (None, None) => Say::KeyBeingMade,
    }
}

fn answers(key: &OwnKey) -> Vec<Act<Say>> {
    let make = key.lost.is_some().then(|| act("make-key", Say::MakeKey, Tone::Bad, Command::MakeKey));
    let back = go("back", Say::Back, Tone::Strong, Screen::Settings);
    [Some(back), make].into_iter().flatten().collect()
}

fn in_list(known: &KnownTablet, at: u32) -> BedRow<Say> {
    let date = date_text(known.since.wall_ms, known.since.offset_min);
    BedRow {
        title: Say::Local { text: known.name.clone() },
        due: Some(Say::TabletSince { date }),
        urgent: false,
        lines: vec![Say::Figure { text: known.tablet.short() }],
        chart: None,
        open: go(format!("tablet-{at}"), Say::OpenBed, Tone::Plain, Screen::Tablet { at }),
    }
}

pub fn tablet(state: &State, at: u32, now: Moment) -> Screenful {
    let Some(known) = state.known_tablets.get(at as usize) else { return tablets(state, now) };
    let question = Say::ForgetTitle { name: isolated(&known.name) };
    let ask = Ask {
        question: question.clone(),
        lines: vec![Say::Figure { text: known.tablet.short() }, Say::ForgetLine],
        reason: None,
        watch: None,
        scale: None,
        others: Vec::new(),
    };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Strong, Screen::Tablets),
            act("forget", Say::ForgetYes, Tone::Bad, Command::ForgetTablet { at }),
        ],
        ..plain(head(Say::Tablets, now), Shape::Ask(ask), question)
    }
}

/// Its own screen shows the same short key: two people compare it by eye.
pub fn name_tablet(state: &State, at: u32, now: Moment) -> Screenful {
    let Some(arrived) = decide::arrived(state, at) else { return beds::beds(state, now) };
    let form = Form {
        question: Say::TabletNameTitle,
        lines: vec![Say::TabletNameLine { tablet: arrived.tablet.short() }],
        fields: vec![field("name", Say::TabletNameField, FieldKind::Text, NAME_MOST)],
    };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, Screen::Arrived { at }),
            act_with_fields("name", Say::TabletNameDone, Tone::Good, Command::NameTablet { at }),
        ],
        ..plain(head(Say::Tablets, now), Shape::Form(form), Say::TabletNameTitle)
    }
}
