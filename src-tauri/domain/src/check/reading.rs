//! A reading unlike what the check believes. The first one may have been wrong, or somebody may have turned the dial:
//! either way a dial is asked back only to where this check itself has shown it to be safe.

use super::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Found, Marks, NONE};
use super::guard::Guard;
use super::restore::Line;
use super::set::expected;
use super::setup::Setup;
use super::target::{output_by_rule, plan};
use crate::profile::Position;

/// Where the dials are to go from where they stand, each left alone that nothing shown in this check asks back.
pub fn kept(setup: &Setup<'_>, facts: &Facts, target: Dials) -> Dials {
    let free = |dial: Dial| !facts.in_doubt(dial) && !facts.asks(dial);
    let stays = |dial: Dial| free(dial) && stays(setup, facts, dial, target.at(dial));
    let kept = |dials: Dials, dial: Dial| dials.with(dial, facts.current(dial));
    [Dial::Output, Dial::Rate, Dial::Mv].into_iter().filter(|dial| stays(*dial)).fold(target, kept)
}

fn stays(setup: &Setup<'_>, facts: &Facts, dial: Dial, target: Position) -> bool {
    if !setup.guards.on(Guard::ReadingNotUndone) {
        return false;
    }
    match dial {
        Dial::Output => facts.current(dial) > target && !output_may_fall(setup, facts, target),
        Dial::Rate => !facts.turned.has(dial) && facts.emergency_rate == NONE,
        Dial::Mv => number_rises(facts.current(dial), target) && !number_may_rise(facts, target),
    }
}

/// The plan on a threshold of this check; or a card had OUTPUT turned, and every spike made a beat there or lower.
fn output_may_fall(setup: &Setup<'_>, facts: &Facts, to: Position) -> bool {
    let planned = output_by_rule(setup, facts).is_some() && to >= plan(setup, facts).output;
    let shown = facts.turned.has(Dial::Output) && facts.proved != NONE && facts.proved <= to;
    planned || shown
}

/// Asynchronous is asked for by an order, pauses or an emergency, not by a reading.
fn number_rises(from: Position, to: Position) -> bool {
    to != ASYNCHRONOUS && from < to
}

/// A threshold of this check; or a card had mV turned, and every own beat was marked there or higher. Pauses at a
/// lower number ask it back as well.
fn number_may_rise(facts: &Facts, to: Position) -> bool {
    let measured = matches!(facts.sensing, Found::Exact | Found::AtLeast);
    let seen = facts.marks.has(Marks::PAUSES) || (facts.saw != NONE && to <= facts.saw);
    measured || (facts.turned.has(Dial::Mv) && seen)
}

/// The dials that the reading at the end asks to be put right, and where to.
pub fn corrections(setup: &Setup<'_>, facts: &Facts) -> Vec<Line> {
    let expected = expected(setup, facts);
    let wanted = kept(setup, facts, expected);
    let line = |dial: Dial| Line { dial, to: expected.at(dial) };
    let differs = |line: &Line| facts.stand.at(line.dial) != line.to && wanted.at(line.dial) == line.to;
    [Dial::Output, Dial::Rate, Dial::Mv].into_iter().map(line).filter(differs).collect()
}

/// Those that read otherwise and are left alone, with where they were believed to stand.
pub fn left_alone(setup: &Setup<'_>, facts: &Facts) -> Vec<Line> {
    let expected = expected(setup, facts);
    let wanted = kept(setup, facts, expected);
    let line = |dial: Dial| Line { dial, to: expected.at(dial) };
    let left = |line: &Line| wanted.at(line.dial) != line.to;
    [Dial::Output, Dial::Rate, Dial::Mv].into_iter().map(line).filter(left).collect()
}
