//! Questions of a swap, and what is typed.

use super::{Card, running_watch};
use crate::contract::{Ask, Form, Shape};
use crate::say::Say;
use crate::swap::carry;
use crate::swap::facts::{Block, Own, Work};
use crate::swap::offer::{Typed, offer};
use crate::swap::step::Step;
use crate::view::card::{dial_fields, named_form};
use crate::view::pieces::boxed;
use crate::view::summary;
use crate::view::wire_form::generator_field;

pub fn shape(card: &Card<'_>) -> Shape<Say> {
    match (card.facts.step, offer(card.facts).typed) {
        (_, Typed::Dials) => Shape::Form(dials(card)),
        (_, Typed::Box) => Shape::Form(Form {
            question: Say::SwapPickBox,
            lines: vec![Say::SwapPickBoxLine],
            fields: vec![generator_field(card.state, None)],
        }),
        (Step::Order, Typed::Nothing) => {
            let (question, line) = order(card);
            named_form(question, vec![line], vec![("name", Say::ClinicianField)])
        }
        (Step::Reason, Typed::Nothing) => named_form(
            Say::ReasonTitle,
            Vec::new(),
            vec![("reason", Say::ReasonField), ("name", Say::ToldField)],
        ),
        _ => asking(card),
    }
}

fn dials(card: &Card<'_>) -> Form<Say> {
    let (question, line, profile) = match card.facts.step {
        Step::ReadOld if card.facts.shared => {
            (Say::SwapReadOldOf { wire: card.this() }, Say::ReadTheDialsLine, card.setup.old)
        }
        Step::ReadOld => (Say::SwapReadOld, Say::ReadTheDialsLine, card.setup.old),
        Step::ReadNew => (Say::SwapReadNew, Say::ReadBackLine, card.setup.new),
        _ if card.is_in_the_shared_box() => {
            (Say::SwapReadEndOf { wire: card.this() }, Say::ReadBackLine, card.setup.old)
        }
        _ => (Say::SwapReadEnd, Say::ReadBackLine, card.setup.box_of(card.facts)),
    };
    Form { question, lines: vec![line], fields: dial_fields(profile) }
}

/// Without own beats the clinician stands at the bedside; also where two boxes will pace that do not know of each
/// other.
fn order(card: &Card<'_>) -> (Say, Say) {
    match card.facts.own {
        _ if card.facts.shared && card.facts.work == Work::Box => {
            (Say::AskSwapOrderShared { wire: card.this() }, Say::SwapOrderSharedLine)
        }
        _ if card.facts.shared => (Say::AskSwapOrderBattery, Say::CautionLocalRules),
        Own::Shown => (Say::AskSwapOrder, Say::AskOrderLine),
        Own::NotShown | Own::NotLooked => (Say::AskSwapOrderNoOwn, Say::CautionLocalRules),
    }
}

fn asking(card: &Card<'_>) -> Shape<Say> {
    let (question, lines) = words(card);
    Shape::Ask(Ask {
        question,
        lines,
        reason: None,
        watch: running_watch(card),
        scale: None,
        others: Vec::new(),
    })
}

fn words(card: &Card<'_>) -> (Say, Vec<Say>) {
    use Step as S;
    match card.facts.step {
        S::Look => (Say::AskFirstLook, look(card)),
        S::Shared => shared(card),
        S::LookBattery if card.facts.shared => {
            (Say::AskEverySpike, vec![Say::SwapLookAtOther { wire: card.other() }])
        }
        S::UseBox => (Say::SwapUseBox, vec![Say::SwapUseBoxLine]),
        S::NewOn => (Say::AskSwapNewOn, vec![Say::SwapNewOnLine]),
        S::NewMode => (Say::AskSwapMode { mode: mode(card) }, Vec::new()),
        S::Standby if card.facts.own == Own::Shown => (Say::AskSwapStandby, vec![Say::SwapStandbyLine]),
        S::Standby => (Say::AskSwapStandbyCaptures, vec![Say::SwapStandbyLine]),
        S::Wrong => (Say::AskPulse, Vec::new()),
        S::AwayLook => (away(card), vec![Say::FirstLookLine]),
        S::AwayWhere => (Say::AskSwapWhere, vec![Say::SwapWhereLine]),
        S::Blocked => (Say::SwapBlocked, blocked(card)),
        _ => (Say::AskEverySpike, Vec::new()),
    }
}

/// What the last check saw of own beats, with its time: the look of now decides.
fn look(card: &Card<'_>) -> Vec<Say> {
    let last = card.wire.records.last().map(|record| Say::SwapLastOwn {
        time: record.ended.clock(),
        own: boxed(summary::own_beats(record)),
    });
    [Say::FirstLookLine].into_iter().chain(last).collect()
}

/// Holdfast cannot know it: two boxes of one kind are written down alike.
fn shared(card: &Card<'_>) -> (Say, Vec<Say>) {
    let question = match card.other_known() {
        Some(wire) => Say::AskSwapSharedWith { wire },
        None => Say::AskSwapShared,
    };
    (question, vec![Say::SwapSharedLine])
}

fn mode(card: &Card<'_>) -> String {
    carry::mode(card.setup.new, card.setup.chamber, card.facts.old)
        .map(|code| code.to_string())
        .unwrap_or_default()
}

fn away(card: &Card<'_>) -> Say {
    let seconds = card.open.away_ms.max(0) / 1000;
    let count = |of: i64| u32::try_from(of).unwrap_or(u32::MAX);
    match seconds {
        0..=59 => Say::SwapAwaySeconds { seconds: count(seconds) },
        _ => Say::SwapAwayMinutes { minutes: count(seconds / 60) },
    }
}

fn blocked(card: &Card<'_>) -> Vec<Say> {
    let battery = card.facts.work == Work::Battery;
    let why = match card.facts.block.unwrap_or(Block::NotReady) {
        Block::Order => Say::SwapBlockOrder,
        Block::NotSound if battery => Say::SwapBlockBattery,
        Block::NotSound => Say::SwapBlockNotSound,
        Block::BoxOff => Say::SwapBlockBoxOff,
        Block::WrongMode | Block::NoSuchMode => Say::SwapBlockMode,
        Block::Rate => Say::SwapBlockRate,
        Block::Output => Say::SwapBlockOutput,
        Block::Number => Say::SwapBlockNumber,
        Block::Asynchronous => Say::SwapBlockAsynchronous,
        Block::NoStandby => Say::SwapBlockStandby,
        Block::NotReady => Say::SwapBlockNotReady,
        Block::VentricleFirst => Say::SwapBlockVentricleFirst,
    };
    vec![why, Say::CautionLocalRules]
}
