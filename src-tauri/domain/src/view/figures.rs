//! Dial positions as printed, and the scale under the figure.

use crate::check::facts::{ASYNCHRONOUS, Dial, Facts, NONE};
use crate::check::setup::Setup;
use crate::contract::{Scale, Tick, TickRole};
use crate::profile::{Position, Profile};
use crate::say::{Say, dial_name, figure};
use crate::units::OutputUnit;

/// The position as the dial prints it; asynchronous in words.
pub fn printed(profile: &Profile, dial: Dial, at: Position) -> Say {
    if at == ASYNCHRONOUS { Say::Asynchronous } else { figure(text(profile, dial, at)) }
}

pub fn text(profile: &Profile, dial: Dial, at: Position) -> String {
    match dial {
        Dial::Output => profile.output_text(at),
        Dial::Rate => profile.rate_text(at),
        Dial::Mv => profile.mv_text(at),
    }
    .to_owned()
}

pub fn unit(profile: &Profile, dial: Dial) -> Say {
    match dial {
        Dial::Output => output_unit(profile.output_unit()),
        Dial::Rate => Say::PerMinute,
        Dial::Mv => Say::MilliVolt,
    }
}

pub fn output_unit(unit: OutputUnit) -> Say {
    match unit {
        OutputUnit::MilliAmp => Say::MilliAmp,
        OutputUnit::Volt => Say::Volt,
    }
}

/// "6.0 mA", "80 /min", "asynchronous": figure and unit in one. The mV dial is named by its unit.
pub fn with_unit(profile: &Profile, dial: Dial, at: Position) -> Say {
    if at == ASYNCHRONOUS {
        return Say::Asynchronous;
    }
    let figure = text(profile, dial, at);
    if dial == Dial::Mv {
        return Say::Figure { text: figure };
    }
    Say::FigureUnit { figure, unit: Box::new(unit(profile, dial)) }
}

fn last(profile: &Profile, dial: Dial) -> Position {
    match dial {
        Dial::Output => profile.output_last(),
        Dial::Rate => profile.rate_last(),
        Dial::Mv => profile.mv_last(),
    }
}

/// Ticks shown at most, so that they stay apart on the narrowest screen and the view stays small.
const TICKS_MOST: u8 = 48;
const LABELS_MOST: u8 = 5;
/// Positions shown beyond the outermost that matters.
const ROOM: u8 = 3;

/// The dial's positions in equal steps, those tried marked, the asked one ringed.
pub fn scale(setup: &Setup<'_>, facts: &Facts) -> Option<Scale<Say>> {
    let tested = matches!(facts.dial, Dial::Output | Dial::Mv);
    if facts.to == NONE || facts.to == ASYNCHRONOUS || !tested {
        return None;
    }
    let (from, until) = window(setup.profile, facts);
    let span = f32::from(until - from).max(1.0);
    let place = |at: Position| f32::from(at.clamp(from, until) - from) / span;
    let every = (until - from).div_ceil(LABELS_MOST - 1).max(1);
    let ticks = (from..=until)
        .map(|at| Tick {
            at: place(at),
            label: ((at - from) % every == 0).then(|| printed(setup.profile, facts.dial, at)),
            role: role(facts, at),
        })
        .collect();
    Some(Scale {
        ticks,
        bracket: bracket(facts).map(|(low, high)| (place(low), place(high))),
        band: None,
        unit: unit(setup.profile, facts.dial),
        words: words(setup.profile, facts, from, until),
    })
}

/// From the lowest position to a little above the highest that matters: the same scale for the whole
/// search. On a long dial the lower end moves up until the ticks fit.
fn window(profile: &Profile, facts: &Facts) -> (Position, Position) {
    let dial = facts.dial;
    let tried = match dial {
        Dial::Output => [facts.proved, facts.lost],
        Dial::Mv | Dial::Rate => [facts.saw, facts.missed],
    };
    let highest = [facts.found.at(dial), facts.stand.at(dial), facts.to]
        .into_iter()
        .chain(tried)
        .filter(|at| *at != NONE && *at != ASYNCHRONOUS)
        .max()
        .unwrap_or(facts.to);
    let until = highest.saturating_add(ROOM).min(last(profile, dial));
    let from = (until + 1).saturating_sub(TICKS_MOST).min(facts.to.saturating_sub(ROOM));
    (from, until.min(from + (TICKS_MOST - 1)))
}

fn role(facts: &Facts, at: Position) -> TickRole {
    let held = match facts.dial {
        Dial::Output => facts.proved != NONE && at >= facts.proved,
        Dial::Mv | Dial::Rate => facts.saw != NONE && at <= facts.saw,
    };
    let missed = match facts.dial {
        Dial::Output => facts.lost != NONE && at == facts.lost,
        Dial::Mv | Dial::Rate => facts.missed != NONE && at == facts.missed,
    };
    if at == facts.to {
        TickRole::Present
    } else if missed {
        TickRole::Missed
    } else if held {
        TickRole::Held
    } else {
        TickRole::Plain
    }
}

/// Between the last that held and the first that did not.
fn bracket(facts: &Facts) -> Option<(Position, Position)> {
    match facts.dial {
        Dial::Output => (facts.lost != NONE && facts.proved != NONE).then_some((facts.lost, facts.proved)),
        Dial::Mv => (facts.saw != NONE && facts.missed != NONE).then_some((facts.saw, facts.missed)),
        Dial::Rate => None,
    }
}

fn words(profile: &Profile, facts: &Facts, from: Position, until: Position) -> Say {
    Say::ScaleWords {
        dial: dial_name(facts.dial),
        present: text(profile, facts.dial, facts.to),
        least: text(profile, facts.dial, from),
        greatest: text(profile, facts.dial, until),
    }
}
