//! One dial of one box, named on the card: two boxes lie on the bed.

use super::{Card, running_watch};
use crate::check::facts::{ASYNCHRONOUS, Dial};
use crate::contract::{Scale, Shape, Turn};
use crate::profile::{Position, Profile};
use crate::say::{Say, dial_name};
use crate::swap::carry;
use crate::swap::facts::{Place, Work};
use crate::swap::step::Step;
use crate::view::{figures, scale};

pub fn shape(card: &Card<'_>) -> Shape<Say> {
    match card.facts.step {
        Step::NewRate => set(card, Dial::Rate),
        Step::NewOutput => set(card, Dial::Output),
        Step::NewMv => set(card, Dial::Mv),
        _ => maximum(card),
    }
}

fn set(card: &Card<'_>, dial: Dial) -> Shape<Say> {
    let at = card.facts.new.at(dial);
    let reason = reason(card, dial);
    turn(
        card,
        card.setup.new,
        dial,
        at,
        Turning {
            instruction: Say::SwapSetDial { dial: dial_name(dial) },
            reason,
            question: Say::AskSwapStands,
        },
    )
}

struct Turning {
    instruction: Say,
    reason: Say,
    question: Say,
}

fn turn(card: &Card<'_>, profile: &Profile, dial: Dial, at: Position, said: Turning) -> Shape<Say> {
    Shape::Turn(Turn {
        instruction: said.instruction,
        figure: figures::printed(profile, dial, at),
        unit: if at == ASYNCHRONOUS { Say::NoUnit } else { figures::unit(profile, dial) },
        from: None,
        hint: None,
        reason: Some(said.reason),
        scale: drawn(card, profile, dial, at),
        question: said.question,
        watch: running_watch(card),
        others: Vec::new(),
    })
}

fn drawn(card: &Card<'_>, profile: &Profile, dial: Dial, at: Position) -> Option<Scale<Say>> {
    scale::of_dial(profile, card.setup.rules, card.setup.chamber, dial, at)
}

fn reason(card: &Card<'_>, dial: Dial) -> Say {
    let setup = card.setup;
    let stood = card.facts.old.at(dial);
    let figure = || Box::new(figures::with_unit(setup.old, dial, stood));
    let other_unit = setup.old.output_unit() != setup.new.output_unit();
    match dial {
        Dial::Rate => Say::SwapRateReason { figure: figure() },
        Dial::Output if other_unit => Say::SwapUnitReason,
        Dial::Output if !carry::compares(setup.old, setup.new) => Say::SwapPulseReason,
        Dial::Output => Say::SwapOutputReason { figure: figure() },
        Dial::Mv if stood == ASYNCHRONOUS => Say::SwapAsynchronousReason,
        Dial::Mv => Say::SwapNumberReason { figure: figure() },
    }
}

/// OUTPUT of the box that the pins are in.
fn maximum(card: &Card<'_>) -> Shape<Say> {
    let facts = card.facts;
    let instruction = match (facts.place, facts.work) {
        (Place::New, _) => Say::SwapNewOutputUp,
        (_, Work::Battery) if facts.shared => Say::SwapOutputUpOf { wire: card.this() },
        _ if facts.shared => Say::SwapOldOutputUpOf { wire: card.this() },
        (_, Work::Battery) => Say::TurnUpTo { dial: dial_name(Dial::Output) },
        (Place::Old | Place::Between, Work::Box) => Say::SwapOldOutputUp,
    };
    let (reason, question) = match facts.step {
        Step::NoBeats => (Say::NoBeatsReason, Say::AskNoBeats),
        _ if facts.shock => (Say::AfterShockReason, Say::AskAfterShock),
        _ => (Say::FirstMaximumReason, Say::AskEverySpike),
    };
    let profile = card.setup.box_of(facts);
    turn(card, profile, Dial::Output, profile.output_last(), Turning { instruction, reason, question })
}
