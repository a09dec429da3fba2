//! The scale under the figure: the dial's positions in equal steps, those tried marked, the asked one ringed.

mod tried;

use super::figures;
use crate::check::facts::{ASYNCHRONOUS, Dial, Facts, Found, NONE};
use crate::check::guard::Guards;
use crate::check::setup::Setup;
use crate::check::step::Step;
use crate::contract::{Scale, Tick, TickRole};
use crate::plan::{mv_rule_position, rule_positions};
use crate::profile::{Position, Profile};
use crate::rules::{Chamber, Rules};
use crate::say::{Say, dial_name};
use tried::tried;

/// Ticks shown at most, so that they stay apart on the narrowest screen and the view stays small.
const TICKS_MOST: u8 = 48;
const LABELS_MOST: u8 = 5;
/// Positions shown beyond the outermost that matters.
const ROOM: u8 = 3;

pub fn scale(setup: &Setup<'_>, facts: &Facts) -> Option<Scale<Say>> {
    let tested = matches!(facts.dial, Dial::Output | Dial::Mv);
    if facts.to == NONE || facts.to == ASYNCHRONOUS || !tested {
        return None;
    }
    let (from, until) = window(setup.profile, facts);
    let span = f32::from(until - from).max(1.0);
    let place = |at: Position| f32::from(at.clamp(from, until) - from) / span;
    let places = |(low, high)| (place(low), place(high));
    let marks = Marks::of(setup, facts);
    let every = (until - from).div_ceil(LABELS_MOST - 1).max(1);
    let ticks = (from..=until)
        .map(|at| {
            let role = marks.role(at);
            let end = at == until && role == TickRole::Plain;
            let named = (at - from) % every == 0 || end || !matches!(role, TickRole::Plain | TickRole::Held);
            Tick { at: place(at), label: named.then(|| label(setup.profile, facts.dial, at, role)), role }
        })
        .collect();
    Some(Scale {
        ticks,
        bracket: marks.bracket.map(places),
        band: marks.band.map(places),
        unit: figures::unit(setup.profile, facts.dial),
        words: words(setup.profile, facts, &marks, (from, until)),
    })
}

/// One dial of a generator with one position asked for, nothing tried.
pub fn of_dial(
    profile: &Profile,
    rules: &Rules,
    chamber: Chamber,
    dial: Dial,
    to: Position,
) -> Option<Scale<Say>> {
    let setup = Setup {
        profile,
        rules,
        chamber,
        history: false,
        needs_acceptance: false,
        last_capture: NONE,
        last_seen: NONE,
        guards: Guards::ALL_ON,
    };
    scale(&setup, &Facts { dial, to, ..Facts::new(Step::ReadFound) })
}

fn label(profile: &Profile, dial: Dial, at: Position, role: TickRole) -> Say {
    match (role, dial) {
        (TickRole::Threshold, Dial::Mv) => Say::SignalAt { figure: figures::text(profile, dial, at) },
        (TickRole::Threshold, _) => Say::ThresholdAt { figure: figures::text(profile, dial, at) },
        _ => figures::printed(profile, dial, at),
    }
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

fn last(profile: &Profile, dial: Dial) -> Position {
    match dial {
        Dial::Output => profile.output_last(),
        Dial::Rate => profile.rate_last(),
        Dial::Mv => profile.mv_last(),
    }
}

/// What is drawn on the line: in a search what was tried, on a set card the threshold and the rule's band.
struct Marks {
    present: Position,
    threshold: Option<Position>,
    held: Vec<Position>,
    missed: Option<Position>,
    bracket: Option<(Position, Position)>,
    band: Option<(Position, Position)>,
}

impl Marks {
    fn of(setup: &Setup<'_>, facts: &Facts) -> Marks {
        let nothing = Marks {
            present: facts.to,
            threshold: None,
            held: Vec::new(),
            missed: None,
            bracket: None,
            band: None,
        };
        let measured = matches!(facts.sensing, Found::Exact | Found::AtLeast);
        if facts.step == Step::SetOutput && facts.capture != Found::Nothing {
            let low = known(facts.capture_low);
            return Marks {
                threshold: known(facts.capture_at),
                bracket: low.map(|low| (low, facts.capture_at)),
                band: rule_positions(setup.profile, setup.rules, facts.capture_at),
                ..nothing
            };
        }
        if facts.step == Step::SetMv && measured {
            let highest = mv_rule_position(setup.profile, setup.rules, setup.chamber, facts.sensing_at);
            return Marks {
                threshold: known(facts.sensing_at),
                band: highest.map(|highest| (lowest_allowed(setup), highest)),
                ..nothing
            };
        }
        Marks { held: tried(setup, facts), missed: missed(facts), bracket: bracket(facts), ..nothing }
    }

    fn role(&self, at: Position) -> TickRole {
        if at == self.present {
            TickRole::Present
        } else if self.threshold == Some(at) {
            TickRole::Threshold
        } else if self.missed == Some(at) {
            TickRole::Missed
        } else if self.held.contains(&at) {
            TickRole::Held
        } else {
            TickRole::Plain
        }
    }
}

/// The lowest number that the unit ever sets, on this dial.
fn lowest_allowed(setup: &Setup<'_>) -> Position {
    let lowest = setup.rules.lowest_mv_uv(setup.chamber);
    setup.profile.sensitivity.positions.at_or_above(lowest.into()).unwrap_or(0)
}

fn known(at: Position) -> Option<Position> {
    (at != NONE).then_some(at)
}

fn missed(facts: &Facts) -> Option<Position> {
    match facts.dial {
        Dial::Output => known(facts.lost),
        Dial::Mv => known(facts.missed),
        Dial::Rate => None,
    }
}

/// Between the last that held and the first that did not.
fn bracket(facts: &Facts) -> Option<(Position, Position)> {
    match facts.dial {
        Dial::Output => known(facts.lost).zip(known(facts.proved)),
        Dial::Mv => known(facts.saw).zip(known(facts.missed)),
        Dial::Rate => None,
    }
}

fn words(profile: &Profile, facts: &Facts, marks: &Marks, (from, until): (Position, Position)) -> Say {
    let text = |at| figures::text(profile, facts.dial, at);
    let line = Say::ScaleWords {
        dial: dial_name(facts.dial),
        present: text(facts.to),
        least: text(from),
        greatest: text(until),
    };
    let number = facts.dial == Dial::Mv;
    let held = if number { marks.held.iter().max() } else { marks.held.iter().min() };
    let held = held.map(|at| match number {
        true => Say::ScaleMarked { figure: text(*at) },
        false => Say::ScaleHeld { figure: text(*at) },
    });
    let missed = marks.missed.map(|at| match number {
        true => Say::ScaleNotMarked { figure: text(at) },
        false => Say::ScaleLost { figure: text(at) },
    });
    let and = |scale, tried| Say::ScaleTried { scale: Box::new(scale), tried: Box::new(tried) };
    held.into_iter().chain(missed).fold(line, and)
}
