//! A reading that a check left owed, done from the bed.

use super::card::dial_fields;
use super::pieces::{boxed, clock_of, go, plain, wire_head};
use super::{Screenful, act_with_fields, beds, figures};
use crate::check::facts::{Dial, Dials};
use crate::command::Command;
use crate::contract::{Form, Shape, Tone};
use crate::decide::last_known;
use crate::moment::Moment;
use crate::profile::Profile;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, Wire};
use crate::state::screen::Screen;

pub fn read_owed(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    let known = state.bed(bed).zip(state.wire(bed, wire));
    let profile = known.and_then(|(_, wire)| state.generator(&wire.generator));
    match known.zip(profile) {
        Some(((bed, wire), profile)) => screen(bed, wire, profile, now),
        None => beds::beds(state, now),
    }
}

/// What the last check left is not shown: it would prompt the reading.
fn screen(bed: &Bed, wire: &Wire, profile: &Profile, now: Moment) -> Screenful {
    let since = wire.owed.map_or(now, |owed| owed).wall_ms;
    let form = Form {
        question: Say::ReadOwedTitle,
        lines: vec![Say::ReadOwedLine { time: clock_of(since, now) }],
        fields: dial_fields(profile),
    };
    let command = Command::ReadOwed { bed: bed.id, wire: wire.id };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, Screen::Bed { bed: bed.id }),
            act_with_fields("done", Say::ReadDone, Tone::Good, command),
        ],
        notice: wire.asked_again.and_then(|read| differs(wire, profile, read)),
        ..plain(wire_head(bed, wire, Say::StageRead, now), Shape::Form(form), Say::ReadOwedTitle)
    }
}

/// The first dial that was read to stand elsewhere than it was left.
fn differs(wire: &Wire, profile: &Profile, read: Dials) -> Option<Say> {
    let left = last_known(profile, wire)?;
    let dial =
        [Dial::Output, Dial::Rate, Dial::Mv].into_iter().find(|dial| left.at(*dial) != read.at(*dial))?;
    let said = |dials: Dials| boxed(figures::with_unit(profile, dial, dials.at(dial)));
    Some(Say::ReadOwedAgain { dial: crate::say::dial_name(dial), left: said(left), read: said(read) })
}
