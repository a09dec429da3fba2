//! The generators this tablet knows: every position as printed on the box.

use super::pieces::{boxed, go, head, plain, row};
use super::rules::{fingerprint, let_in_rows};
use super::{Screenful, act, figures};
use crate::command::Command;
use crate::contract::{BedRow, Beds, Outcome, Row, Shape, Tone};
use crate::library::Offered;
use crate::moment::Moment;
use crate::profile::{AsynchronousBy, Control, Positions, Profile};
use crate::say::{Say, figure};
use crate::state::State;
use crate::state::screen::Screen;

pub fn generators(state: &State, now: Moment) -> Screenful {
    let rows = state.generators.iter().zip(0..).map(|(profile, at)| in_list(state, profile, at)).collect();
    let shape = Shape::Beds(Beds { rows, empty: Say::GeneratorsNote });
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Strong, Screen::Settings),
            go("new-generator", Say::HandInGenerator, Tone::Strong, Screen::NewGenerator),
        ],
        ..plain(head(Say::Generators, now), shape, Say::Generators)
    }
}

fn in_list(state: &State, profile: &Profile, at: u32) -> BedRow<Say> {
    BedRow {
        title: Say::Local { text: profile.name.clone() },
        due: Some(standing(state, profile)),
        urgent: false,
        lines: vec![line(profile)],
        chart: None,
        open: go(format!("generator-{at}"), Say::OpenBed, Tone::Plain, Screen::Generator { at }),
    }
}

/// Whether anybody stands for it.
fn standing(state: &State, profile: &Profile) -> Say {
    match state.generators_let_in.get(&profile.id) {
        Some(let_in) if !profile.example => Say::GeneratorApproved { name: let_in.by.clone() },
        Some(_) | None => Say::GeneratorExample,
    }
}

fn line(profile: &Profile) -> Say {
    let ends = |dial: &Positions| (dial.text(0).to_owned(), dial.text(dial.last()).to_owned());
    let (least, greatest) = ends(&profile.output.positions);
    let unit = boxed(figures::output_unit(profile.output_unit()));
    let to = |(least, greatest): (String, String)| format!("{least}–{greatest}");
    Say::GeneratorLine {
        output: boxed(Say::GeneratorRange { least, greatest, unit }),
        rate: to(ends(&profile.rate.positions)),
        numbers: to(ends(&profile.sensitivity.positions)),
    }
}

pub fn generator(state: &State, at: u32, now: Moment) -> Screenful {
    let Some(profile) = state.generators.get(at as usize) else { return generators(state, now) };
    let let_in = state.generators_let_in.get(&profile.id);
    let rows = positions(profile).into_iter().chain(let_in.into_iter().flat_map(let_in_rows)).collect();
    Screenful {
        answers: vec![go("back", Say::Back, Tone::Strong, Screen::Generators)],
        ..screen(profile, rows, standing(state, profile), now)
    }
}

/// Read from the file, beside nothing: the box itself is the other side of the comparison.
pub fn offered(state: &State, now: Moment) -> Screenful {
    let Some(Offered::Generator { profile, hash }) = &state.offered else { return generators(state, now) };
    let print = row(Say::RowFingerprint, figure(fingerprint(hash)), None);
    let rows = positions(profile).into_iter().chain([print]).collect();
    Screenful {
        answers: vec![
            act("put-aside", Say::PutAside, Tone::Strong, Command::PutAside),
            go("approve", Say::ApproveOffer, Tone::Good, Screen::Approve),
        ],
        ..screen(profile, rows, Say::OfferNotInForce, now)
    }
}

fn screen(profile: &Profile, rows: Vec<Row<Say>>, flag: Say, now: Moment) -> Screenful {
    let headline = Say::Local { text: profile.name.clone() };
    let outcome = Outcome {
        headline: headline.clone(),
        rows,
        scales: Vec::new(),
        flags: vec![flag],
        note: Some(Say::GeneratorsNote),
    };
    plain(head(Say::Generators, now), Shape::Result(outcome), headline)
}

fn positions(profile: &Profile) -> Vec<Row<Say>> {
    let unit = boxed(figures::output_unit(profile.output_unit()));
    let modes = profile.modes.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ");
    vec![
        row(Say::RowOutputPositions { unit }, printed(&profile.output.positions), None),
        row(Say::RowRatePositions, printed(&profile.rate.positions), None),
        row(Say::RowMvPositions, printed(&profile.sensitivity.positions), None),
        row(Say::RowAsynchronous, asynchronous(profile), None),
        row(Say::RowControl, if profile.control == Control::Dial { Say::ByDial } else { Say::ByKeys }, None),
        row(Say::RowPulseWidth, Say::MicroSeconds { time: profile.pulse_width_us.to_string() }, None),
        row(Say::RowAutoLock, lock(profile), None),
        row(Say::RowModes, figure(modes), None),
    ]
}

/// As printed, in the order of the dial.
fn printed(dial: &Positions) -> Say {
    figure(dial.all().map(|at| dial.text(at)).collect::<Vec<_>>().join(" · "))
}

fn asynchronous(profile: &Profile) -> Say {
    match profile.asynchronous() {
        AsynchronousBy::Position => Say::ByPosition,
        AsynchronousBy::Switch => Say::BySwitch,
        AsynchronousBy::None => Say::ByNothing,
    }
}

fn lock(profile: &Profile) -> Say {
    match profile.auto_lock_s {
        Some(seconds) => Say::LockSeconds { seconds: seconds.to_string() },
        None => Say::NoLock,
    }
}
