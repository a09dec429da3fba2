//! The dials of the simulated generator, each key with where it turns to.

use super::patient::has_knobs;
use crate::check::facts::{ASYNCHRONOUS, Dial};
use crate::command::Command;
use crate::contract::{Act, Keys, Knob, Tone};
use crate::practice::Practice;
use crate::profile::{AsynchronousBy, Position, Profile};
use crate::say::{Say, dial_name};
use crate::state::State;
use crate::view::{act, figures};

/// A dial of more positions has keys that turn further.
const LONG: Position = 24;
/// So many turns of such a key lead from end to end.
const FAR_TURNS: Position = 8;

pub fn knobs(state: &State, open: &Practice) -> Vec<Knob<Say>> {
    let Some(profile) = state.generator(&open.staged.generator).filter(|_| has_knobs(state, open)) else {
        return Vec::new();
    };
    [Dial::Output, Dial::Rate, Dial::Mv].map(|dial| knob(profile, open, dial)).into()
}

fn knob(profile: &Profile, open: &Practice, dial: Dial) -> Knob<Say> {
    let at = open.dials.at(dial);
    let unit = if at == ASYNCHRONOUS { Say::NoUnit } else { unit(profile, dial) };
    Knob {
        label: *dial_name(dial),
        unit,
        figure: figures::printed(profile, dial, at),
        take: act(format!("take-{}", key(dial)), *dial_name(dial), Tone::Plain, Command::TakeDial(dial)),
        keys: (open.turning == dial).then(|| keys(profile, dial, at)),
    }
}

/// The mV dial is named by its unit.
fn unit(profile: &Profile, dial: Dial) -> Say {
    if dial == Dial::Mv { Say::NoUnit } else { figures::unit(profile, dial) }
}

fn key(dial: Dial) -> &'static str {
    match dial {
        Dial::Output => "output",
        Dial::Rate => "rate",
        Dial::Mv => "mv",
    }
}

fn keys(profile: &Profile, dial: Dial, at: Position) -> Keys<Say> {
    let last = last(profile, dial);
    let far = (last > LONG).then_some(last / FAR_TURNS);
    let (down, up) = words(dial);
    let turn =
        |way: &str, label: &Say, to: Option<Position>| to.map(|to| turn(profile, dial, way, label, to));
    Keys {
        down: turn("down", &down, lower(at, last, 1)),
        up: turn("up", &up, higher(profile, dial, at, 1)),
        far_down: turn("far-down", &down, far.and_then(|far| lower(at, last, far))),
        far_up: turn("far-up", &up, far.and_then(|far| higher(profile, dial, at, far))),
    }
}

/// On the mV dial a word says what the turn does, never which way is more.
fn words(dial: Dial) -> (Say, Say) {
    match dial {
        Dial::Output | Dial::Rate => (Say::KeyDown, Say::KeyUp),
        Dial::Mv => (Say::KeySeesMore, Say::KeySeesLess),
    }
}

fn turn(profile: &Profile, dial: Dial, way: &str, label: &Say, to: Position) -> Act<Say> {
    let note = figures::printed(profile, dial, to);
    let command = Command::TurnDial { dial, to };
    Act {
        note: Some(Box::new(note)),
        ..act(format!("{}-{way}", key(dial)), label.clone(), Tone::Plain, command)
    }
}

fn last(profile: &Profile, dial: Dial) -> Position {
    match dial {
        Dial::Output => profile.output_last(),
        Dial::Rate => profile.rate_last(),
        Dial::Mv => profile.mv_last(),
    }
}

/// Out of asynchronous the highest number comes first.
fn lower(at: Position, last: Position, by: Position) -> Option<Position> {
    if at == ASYNCHRONOUS {
        return (by == 1).then_some(last);
    }
    (at > 0).then(|| at.saturating_sub(by))
}

/// Asynchronous lies beyond the highest number.
fn higher(profile: &Profile, dial: Dial, at: Position, by: Position) -> Option<Position> {
    let last = last(profile, dial);
    let beyond = dial == Dial::Mv && profile.asynchronous() != AsynchronousBy::None && by == 1;
    match at {
        ASYNCHRONOUS => None,
        _ if at < last => Some(at.saturating_add(by).min(last)),
        _ => beyond.then_some(ASYNCHRONOUS),
    }
}
