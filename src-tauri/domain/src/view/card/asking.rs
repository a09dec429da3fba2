//! Questions without a dial to turn.

use super::{Card, running_watch};
use crate::check::facts::Dial;
use crate::check::step::Step;
use crate::contract::{Ask, Shape};
use crate::rules::Chamber;
use crate::say::Say;
use crate::view::figures;
use crate::view::pieces::{isolated, wire_name};

pub fn shape(card: &Card<'_>) -> Shape<Say> {
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
        S::SamePatient => (same_patient(card), Vec::new()),
        S::WhichLine => (Say::AskWhichLine, Vec::new()),
        S::Blocked => (Say::Blocked, vec![blocked(card), Say::CautionLocalRules]),
        S::PulseTrace => (Say::AskPulseTrace, vec![Say::AskPulseTraceLine]),
        S::Standby => standby(card),
        S::RightWire => (Say::AskRightWire { wire: Box::new(wire_name(card.wire)) }, right_wire(card)),
        S::FirstLook if card.setup.chamber == Chamber::Atrium => {
            (Say::AskFirstLook, vec![Say::FirstLookAtriumLine])
        }
        S::FirstLook => (Say::AskFirstLook, vec![Say::FirstLookLine]),
        S::Atrium => (Say::AskAtrium, Vec::new()),
        S::FirstOwn => (Say::AskFirstOwn, vec![Say::FirstOwnLine]),
        S::OwnHold if card.setup.chamber == Chamber::Atrium => (Say::AskOwnHoldAtrium, Vec::new()),
        S::OwnHold => (Say::AskOwnHold, Vec::new()),
        S::CaptureCount => (Say::AskCaptureCount, vec![Say::CaptureCountLine, stands(card)]),
        // Asynchronous marks no own beat.
        S::Confirm if card.facts.stands_asynchronous() => {
            (Say::AskConfirmAsynchronous, vec![Say::ConfirmLine])
        }
        S::Confirm => (Say::AskConfirm, vec![Say::ConfirmLine]),
        S::Wrong => (Say::AskPulse, Vec::new()),
        S::WrongMore => (Say::AskWhatElse, Vec::new()),
        S::Away => (away(card), Vec::new()),
        _ => (Say::Ended, Vec::new()),
    }
}

/// A limit below the example's is searched only with a clinician there.
fn standby(card: &Card<'_>) -> (Say, Vec<Say>) {
    let rules = card.setup.rules;
    if rules.limit_needs_clinician() {
        let line = Say::StandbyClinicianLine { limit: rules.own_limit.to_string() };
        return (Say::AskStandbyClinician, vec![Say::AskStandbyLine, line]);
    }
    (Say::AskStandby, vec![Say::AskStandbyLine])
}

fn right_wire(card: &Card<'_>) -> Vec<Say> {
    vec![Say::AskRightWireOther, Say::GeneratorIs { name: isolated(&card.setup.profile.name) }]
}

fn same_patient(card: &Card<'_>) -> Say {
    match card.wire.records.last() {
        Some(last) => Say::AskSamePatient {
            date: crate::moment::date_text(last.ended.wall_ms, last.ended.offset_min),
            time: last.ended.clock(),
        },
        None => Say::AskOrder,
    }
}

fn blocked(card: &Card<'_>) -> Say {
    match card.facts.blocked {
        Some(line) => {
            Say::BlockedReason { line: Box::new(super::listing::line(line, card.setup.rules.age_least)) }
        }
        None => Say::Blank,
    }
}

fn stands(card: &Card<'_>) -> Say {
    Say::StaysLine {
        dial: crate::say::dial_name(Dial::Output),
        figure: Box::new(figures::with_unit(card.setup.profile, Dial::Output, card.facts.stand.output)),
    }
}

fn away(card: &Card<'_>) -> Say {
    let away_ms = card.open.away_ms.max(0);
    Say::AwayTitle { seconds: u32::try_from(away_ms / 1000).unwrap_or(u32::MAX) }
}
