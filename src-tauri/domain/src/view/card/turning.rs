//! One dial to one position, then what to look for.

use super::{Card, reasons, running_watch};
use crate::check::facts::{ASYNCHRONOUS, Dial, NONE};
use crate::check::step::{Stage, Step};
use crate::contract::{Shape, Small, Turn};
use crate::profile::AsynchronousBy;
use crate::rules::Chamber;
use crate::say::{Say, dial_name};
use crate::view::{figures, scale};

pub fn shape(card: &Card<'_>) -> Shape<Say> {
    let facts = card.facts;
    let profile = card.setup.profile;
    let to_asynchronous = facts.to == ASYNCHRONOUS;
    Shape::Turn(Turn {
        instruction: instruction(card),
        figure: figures::printed(profile, facts.dial, facts.to),
        unit: if to_asynchronous { Say::NoUnit } else { figures::unit(profile, facts.dial) },
        from: from(card),
        hint: hint(card),
        reason: reasons::reason(card),
        scale: scale::scale(card.setup, facts),
        question: question(card),
        watch: running_watch(card),
        others: others(card),
    })
}

fn instruction(card: &Card<'_>) -> Say {
    let facts = card.facts;
    let from = facts.stand.at(facts.dial);
    let dial = dial_name(facts.dial);
    let by_switch = card.setup.profile.asynchronous() == AsynchronousBy::Switch;
    if facts.to == from {
        Say::StaysAt { dial }
    } else if facts.to == ASYNCHRONOUS {
        if by_switch { Say::SwitchToAsynchronous } else { Say::TurnToAsynchronous }
    } else if from == ASYNCHRONOUS && by_switch {
        let number = figures::text(card.setup.profile, Dial::Mv, facts.to);
        Say::LeaveAsynchronousSwitch { number }
    } else if facts.to < from {
        Say::TurnDownTo { dial }
    } else {
        Say::TurnUpTo { dial }
    }
}

fn from(card: &Card<'_>) -> Option<Say> {
    let facts = card.facts;
    let from = facts.stand.at(facts.dial);
    if from == facts.to || from == NONE {
        return None;
    }
    let profile = card.setup.profile;
    Some(match from {
        ASYNCHRONOUS => Say::FromAsynchronous,
        _ => Say::FromFigure {
            figure: figures::text(profile, facts.dial, from),
            unit: Box::new(figures::unit(profile, facts.dial)),
        },
    })
}

/// Which way is good, and which way the number sees.
fn hint(card: &Card<'_>) -> Option<Say> {
    let facts = card.facts;
    let from = facts.stand.at(facts.dial);
    match facts.dial {
        Dial::Mv if facts.to == ASYNCHRONOUS => None,
        Dial::Mv if facts.to > from => Some(Say::SeesLess),
        Dial::Mv if facts.to < from => Some(Say::SeesMore),
        Dial::Output if facts.to < from && facts.step.stage() == Some(Stage::Capture) => {
            Some(Say::SmallIsGood)
        }
        Dial::Output | Dial::Mv | Dial::Rate => None,
    }
}

fn question(card: &Card<'_>) -> Say {
    use Step as S;
    match card.facts.step {
        S::OwnDown => Say::AskOwnRhythm,
        S::AsynchronousOff | S::BlindMvDown => Say::AskPacedOnTime,
        S::OwnBack | S::CaptureRateDown => Say::AskPacedWithPulse,
        S::SenseRate if card.setup.chamber == Chamber::Atrium => Say::AskOwnHoldAtrium,
        S::SenseRate => Say::AskOnlyOwnMarked,
        S::SenseMinimum => Say::AskSpikes,
        S::SenseUp | S::SenseDown | S::SenseMvOut => Say::AskEveryBeatMarked,
        S::SenseOutputOut => Say::AskOwnWithPulse,
        S::CaptureRate if card.setup.chamber == Chamber::Atrium => Say::AskCaptureAtrium,
        S::CaptureRate => Say::AskCaptureVentricle,
        S::CaptureBack | S::CaptureUp | S::CaptureRestore => Say::AskBeatsAgain,
        S::SetRate => Say::AskSteadyRate,
        S::SetMv => Say::AskMarkedOrPaced,
        S::NoBeats => Say::AskNoBeats,
        S::AfterShock => Say::AskAfterShock,
        _ => Say::AskEverySpike,
    }
}

/// On the set cards: where the other two dials go or stay.
fn others(card: &Card<'_>) -> Vec<Small<Say>> {
    let dials: &[Dial] = match card.facts.step {
        Step::SetOutput => &[Dial::Rate, Dial::Mv],
        Step::SetRate => &[Dial::Output, Dial::Mv],
        Step::SetMv => &[Dial::Output, Dial::Rate],
        _ => return Vec::new(),
    };
    let plan = crate::check::target::plan(card.setup, card.facts);
    dials
        .iter()
        .map(|dial| {
            let stays = card.facts.current(*dial) == plan.at(*dial);
            let name = dial_name(*dial);
            Small {
                label: if stays { Say::OtherStays { dial: name } } else { Say::OtherThen { dial: name } },
                value: figures::with_unit(card.setup.profile, *dial, plan.at(*dial)),
            }
        })
        .collect()
}
