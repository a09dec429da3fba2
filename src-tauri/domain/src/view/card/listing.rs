//! Cards that are lists: restore, emergency, what stays, the ready list.

use super::{Card, reasons};
use crate::check::answer::Line;
use crate::check::facts::{Dial, Marks, NONE, Row};
use crate::check::offer::{LINES_FIRST, LINES_SECOND};
use crate::check::restore;
use crate::check::set::{Differences, differences, read_lower};
use crate::check::step::Step;
use crate::contract::{Item, List, Shape};
use crate::say::{Say, dial_name};
use crate::view::figures;

pub fn shape(card: &Card<'_>) -> Shape<Say> {
    use Step as S;
    let plain = |lines: Vec<Say>| lines.into_iter().map(plain_item).collect();
    let list = |instruction, items, note| Shape::List(List { instruction, items, note });
    match card.facts.step {
        S::ListFirst => list(Say::ListIntro, plain(lines(card, &LINES_FIRST)), None),
        S::ListSecond => list(Say::ListIntro, plain(lines(card, &LINES_SECOND)), None),
        S::FirstConnections => list(Say::AskConnections, plain(connections(card)), None),
        S::Restore => restore_list(card),
        S::Stays => list(Say::StaysTitle, stays(card), stays_why(card)),
        S::Guarded => list(Say::GuardedTitle, plain(guarded()), None),
        S::Differs => differs_list(card),
        S::ReadLower => lower_list(card),
        S::NoSpikes => list(Say::NoSpikesTitle, emergency_dials(card), Some(Say::EmergencyLocal)),
        S::Arrest => list(Say::ArrestTitle, plain(arrest()), Some(Say::EmergencyLocal)),
        _ => list(Say::EmergencyTitle, emergency(card), Some(Say::EmergencyLocal)),
    }
}

/// Where the maximum does not capture, own beats with a pulse decide between a call and the emergency.
fn connections(card: &Card<'_>) -> Vec<Say> {
    let mut lines = vec![Say::ConnectionsLine, Say::CallLine];
    if card.facts.lost == card.setup.maximum() {
        lines.push(Say::ConnectionsPulse);
    }
    lines
}

fn plain_item(text: Say) -> Item<Say> {
    Item { number: None, text, figure: None, unit: None, large: false }
}

fn lines(card: &Card<'_>, lines: &[Line]) -> Vec<Say> {
    lines.iter().map(|which| line(*which, card.setup.rules.age_least)).collect()
}

/// A line of the ready list: what must be true.
pub fn line(line: Line, age_least: u8) -> Say {
    match line {
        Line::Order => Say::LineOrder,
        Line::Acceptance => Say::LineAcceptance,
        Line::Mode => Say::LineMode,
        Line::Age => Say::LineAge { years: u32::from(age_least) },
        Line::EcgWithPacingDetection => Say::LineEcg,
        Line::ExtraBeats => Say::LineExtraBeats,
        Line::Vehicle => Say::LineVehicle,
        Line::Connections => Say::LineConnections,
        Line::Gloves => Say::LineGloves,
        Line::TemperatureAndPotassium => Say::LineTemperature,
        Line::PulseTrace => Say::LinePulseTrace,
        Line::Standby => Say::LineStandby,
        Line::WireTraced => Say::LineWireTraced,
    }
}

/// The dials that differ, numbered, the first one large; no tap between them.
fn restore_list(card: &Card<'_>) -> Shape<Say> {
    let lines = restore::lines(card.setup, card.facts, card.facts.row);
    let profile = card.setup.profile;
    let items = lines
        .iter()
        .zip(1_u8..)
        .map(|(line, number)| Item {
            number: Some(number),
            text: *dial_name(line.dial),
            figure: Some(figures::printed(profile, line.dial, line.to)),
            unit: Some(match line.to {
                crate::check::facts::ASYNCHRONOUS => Say::NoUnit,
                _ => figures::unit(profile, line.dial),
            }),
            large: number == 1,
        })
        .collect::<Vec<_>>();
    let instruction = match (items.is_empty(), card.facts.row) {
        (true, Row::NothingTurned) => Say::RestoreNothing,
        (true, _) => Say::RestoreStands,
        (false, _) => Say::RestoreTitle,
    };
    let note = restore_why(card, &lines);
    Shape::List(List { instruction, items, note })
}

fn restore_why(card: &Card<'_>, lines: &[restore::Line]) -> Option<Say> {
    let names_output = lines.iter().any(|line| line.dial == Dial::Output);
    let nothing_to_turn = lines.is_empty();
    let facts = card.facts;
    let calls = [Marks::STILL_BLIND, Marks::WRONG_CHAMBER, Marks::LOST_UNSOUGHT];
    let calls = calls.iter().any(|mark| facts.marks.has(*mark));
    match facts.row {
        Row::Blind if restore::rate_above_own(card.setup, facts).is_none() => Some(Say::RestoreBlindFast),
        Row::Blind if facts.marks.has(Marks::NOT_PACED_OVER) => Some(Say::RestoreNotPacedOver),
        Row::Blind => Some(Say::RestoreBlind),
        Row::AfterNoBeats if names_output => Some(Say::RestoreCall),
        Row::AfterNoBeats => Some(Say::RestoreAfterNoBeats),
        Row::FirstLookMaximum => Some(Say::RestoreCall),
        _ if calls => Some(Say::RestoreCall),
        _ if nothing_to_turn => reasons::why(card.setup, facts, facts.why_capture, card.now),
        _ => reasons::why(card.setup, facts, facts.why_capture, card.now).or(Some(Say::RestoreNote)),
    }
}

/// N13: where each of the three dials stays.
fn stays(card: &Card<'_>) -> Vec<Item<Say>> {
    [Dial::Output, Dial::Rate, Dial::Mv]
        .into_iter()
        .map(|dial| {
            let at = card.facts.current(dial);
            plain_item(Say::StaysLine {
                dial: dial_name(dial),
                figure: Box::new(figures::with_unit(card.setup.profile, dial, at)),
            })
        })
        .collect()
}

fn stays_why(card: &Card<'_>) -> Option<Say> {
    let calls = [
        Marks::NO_BEATS_AGAIN,
        Marks::STILL_BLIND,
        Marks::PAUSES,
        Marks::FOUND_DID_NOT_CAPTURE,
        Marks::LOST_UNSOUGHT,
    ];
    if calls.iter().any(|mark| card.facts.marks.has(*mark)) {
        return Some(Say::RestoreCall);
    }
    let why = reasons::why(card.setup, card.facts, card.facts.why_capture, card.now)?;
    Some(Say::StaysWhy { why: Box::new(why) })
}

/// What is to be put right; where nothing is, what was read is left as it stands.
fn differs_list(card: &Card<'_>) -> Shape<Say> {
    let Differences { put_right, left_alone } = differences(card.setup, card.facts);
    if put_right.is_empty() {
        let items = left_alone.iter().map(|line| left_line(card, line)).collect();
        return Shape::List(List { instruction: Say::LeftAloneTitle, items, note: Some(Say::LeftAloneNote) });
    }
    let put_right = put_right.iter().map(|line| {
        let (read, expected) = read_and(card, line);
        plain_item(Say::DiffersLine { dial: dial_name(line.dial), read, expected })
    });
    let left = left_alone.iter().map(|line| {
        plain_item(Say::LeftAloneAtLine { dial: dial_name(line.dial), read: read_and(card, line).0 })
    });
    Shape::List(List { instruction: Say::DiffersTitle, items: put_right.chain(left).collect(), note: None })
}

fn left_line(card: &Card<'_>, line: &restore::Line) -> Item<Say> {
    let (read, believed) = read_and(card, line);
    plain_item(Say::LeftAloneLine { dial: dial_name(line.dial), read, believed })
}

/// After trouble or a long sleep: each dial that does less than before, with where it stood then.
fn lower_list(card: &Card<'_>) -> Shape<Say> {
    let items = read_lower(card.facts, card.facts.stand).into_iter().map(|line| {
        let (read, before) = read_and(card, &line);
        plain_item(Say::ReadLowerLine { dial: dial_name(line.dial), read, before })
    });
    let note = Say::ReadLowerNote { time: card.open.opened.clock() };
    Shape::List(List { instruction: Say::ReadLowerTitle, items: items.collect(), note: Some(note) })
}

/// The figure read, and the one the check had in mind.
fn read_and(card: &Card<'_>, line: &restore::Line) -> (Box<Say>, Box<Say>) {
    let said = |at| Box::new(figures::with_unit(card.setup.profile, line.dial, at));
    (said(card.facts.stand.at(line.dial)), said(line.to))
}

fn guarded() -> Vec<Say> {
    vec![Say::GuardedAlarms, Say::GuardedPressure, Say::GuardedDials, Say::GuardedWires, Say::GuardedBattery]
}

/// The title calls.
fn arrest() -> Vec<Say> {
    vec![Say::ArrestCpr, Say::ArrestTrace, Say::ArrestOutput]
}

fn numbered(lines: Vec<Say>) -> Vec<Item<Say>> {
    lines
        .into_iter()
        .zip(1_u8..)
        .map(|(text, number)| Item { number: Some(number), large: number == 1, ..plain_item(text) })
        .collect()
}

fn emergency(card: &Card<'_>) -> Vec<Item<Say>> {
    let mut lines = vec![Say::EmergencyCall, Say::EmergencyCpr];
    lines.extend(dial_lines(card));
    numbered(lines)
}

fn emergency_dials(card: &Card<'_>) -> Vec<Item<Say>> {
    let mut lines = vec![Say::EmergencyCall];
    lines.extend(dial_lines(card));
    numbered(lines)
}

/// Not read yet, RATE may stand faster: asynchronous, it is not turned down.
fn emergency_rate(card: &Card<'_>, figure: String) -> Say {
    if card.facts.dials_read() { Say::EmergencyRate { figure } } else { Say::EmergencyRateAtLeast { figure } }
}

fn dial_lines(card: &Card<'_>) -> Vec<Say> {
    let profile = card.setup.profile;
    let rate = match card.facts.emergency_rate {
        NONE => card.setup.emergency_rate(),
        set => set,
    };
    let blind = if card.setup.has_asynchronous() {
        Say::EmergencyAsynchronous
    } else {
        Say::EmergencyNumber { figure: figures::text(profile, Dial::Mv, profile.mv_last()) }
    };
    vec![
        Say::EmergencyOutput,
        blind,
        emergency_rate(card, figures::text(profile, Dial::Rate, rate)),
        Say::EmergencyConnections,
    ]
}
