//! Questions, lists, forms and the one dial of a transport.

use super::{Card, margin};
use crate::check::facts::Dial;
use crate::contract::{Ask, Form, Item, List, Shape, Turn};
use crate::profile::{AsynchronousBy, Profile};
use crate::say::{Say, dial_name};
use crate::transport::step::Step;
use crate::view::card::{dial_fields, named_form};
use crate::view::pieces::{boxed, clock_of, wire_name};
use crate::view::wire_form::pick;
use crate::view::{figures, scale};

pub fn shape(card: &Card<'_>) -> Shape<Say> {
    match card.facts.step {
        Step::Destination => Shape::Form(destination()),
        Step::Read => Shape::Form(read(card)),
        Step::Initials => named_form(
            Say::AskInitials,
            vec![Say::AskInitialsLine],
            vec![("from", Say::InitialsFromField), ("to", Say::InitialsToField)],
        ),
        Step::Carry => plain(Say::CarryTitle, carry(), None),
        Step::Margin => margin::shape(card),
        Step::NoBeats | Step::Maximum => maximum(card),
        Step::StandbyNow => ordered(
            Say::SwapStandbyNowTitle,
            vec![Say::SwapStandbyUp, Say::EmergencyCall, Say::EmergencyCpr, Say::SwapPinsTight],
        ),
        Step::Emergency => ordered(Say::EmergencyTitle, emergency(card)),
        Step::Arrest => plain(
            Say::ArrestTitle,
            vec![Say::ArrestCpr, Say::ArrestTrace, Say::ArrestOutput],
            Some(Say::EmergencyLocal),
        ),
        _ => asking(card),
    }
}

pub fn item(text: Say) -> Item<Say> {
    Item { number: None, text, figure: None, unit: None, large: false }
}

pub fn plain(instruction: Say, lines: Vec<Say>, note: Option<Say>) -> Shape<Say> {
    Shape::List(List { instruction, items: lines.into_iter().map(item).collect(), note })
}

fn ordered(instruction: Say, lines: Vec<Say>) -> Shape<Say> {
    let numbered = |(text, number)| Item { number: Some(number), large: number == 1, ..item(text) };
    let items = lines.into_iter().zip(1_u8..).map(numbered).collect();
    Shape::List(List { instruction, items, note: Some(Say::EmergencyLocal) })
}

fn destination() -> Form<Say> {
    let named = named_form(
        Say::AskDestination,
        vec![Say::CautionLocalRules],
        vec![("destination", Say::DestinationField)],
    );
    let targets = vec![
        ("unit", Say::TargetUnit),
        ("theatre", Say::TargetTheatre),
        ("imaging", Say::TargetImaging),
        ("hospital", Say::TargetHospital),
        ("mri", Say::TargetMri),
    ];
    let mut fields = vec![pick("target", Say::TargetField, targets)];
    if let Shape::Form(form) = named {
        fields.extend(form.fields);
    }
    Form { question: Say::AskDestination, lines: vec![Say::CautionLocalRules], fields }
}

/// What is known of the dials is not shown: it would prompt the reading.
fn read(card: &Card<'_>) -> Form<Say> {
    let Some((wire, profile)) = card.wire() else {
        return Form { question: Say::ReadTheDials, lines: Vec::new(), fields: Vec::new() };
    };
    let question = Say::TransportRead { wire: boxed(wire_name(wire)) };
    Form { question, lines: vec![Say::TransportReadLine], fields: dial_fields(profile) }
}

/// Within reach and working (common practice, no source).
fn carry() -> Vec<Say> {
    vec![
        Say::CarryStandby,
        Say::CarryBattery,
        Say::CarryCable,
        Say::CarryBox,
        Say::CarryMonitor,
        Say::CarryGloves,
    ]
}

fn maximum(card: &Card<'_>) -> Shape<Say> {
    let Some((wire, profile)) = card.pacing_wire() else { return asking(card) };
    let (reason, question) = match card.facts.step {
        Step::NoBeats => (Say::NoBeatsReason, Say::AskNoBeats),
        _ if card.facts.shock => (Say::AfterShockReason, Say::AskAfterShock),
        _ => (Say::FirstMaximumReason, Say::AskEverySpike),
    };
    let last = profile.output_last();
    Shape::Turn(Turn {
        instruction: Say::TurnUpTo { dial: dial_name(Dial::Output) },
        figure: figures::printed(profile, Dial::Output, last),
        unit: figures::unit(profile, Dial::Output),
        from: None,
        hint: None,
        reason: Some(reason),
        scale: scale::of_dial(profile, &card.state.rules, wire.chamber, Dial::Output, last),
        question,
        watch: None,
        others: Vec::new(),
    })
}

fn emergency(card: &Card<'_>) -> Vec<Say> {
    let mut lines = vec![Say::EmergencyCall, Say::EmergencyCpr, Say::SwapStandbyPace, Say::EmergencyOutput];
    if let Some((_, profile)) = card.pacing_wire() {
        let wanted = i32::from(card.state.rules.emergency_rate);
        let rate = profile.rate_at_or_above(wanted).unwrap_or(profile.rate_last());
        lines.push(blind(profile));
        lines.push(Say::EmergencyRate { figure: figures::text(profile, Dial::Rate, rate) });
    }
    lines.push(Say::SwapPinsTight);
    lines
}

fn blind(profile: &Profile) -> Say {
    if profile.asynchronous() == AsynchronousBy::None {
        return Say::SwapNumberHighest { figure: figures::text(profile, Dial::Mv, profile.mv_last()) };
    }
    Say::EmergencyAsynchronous
}

fn asking(card: &Card<'_>) -> Shape<Say> {
    let (question, lines) = words(card);
    Shape::Ask(Ask { question, lines, reason: None, watch: None, scale: None, others: Vec::new() })
}

fn words(card: &Card<'_>) -> (Say, Vec<Say>) {
    use Step as S;
    match card.facts.step {
        S::MriStop => (Say::MriTitle, vec![Say::MriLine, Say::CautionLocalRules]),
        S::Pads => (Say::AskPads, vec![Say::AskPadsLine]),
        S::NotReady => (Say::NotReadyTitle, vec![Say::NotReadyLine, Say::CautionLocalRules]),
        S::LookLeave => (Say::AskCaptureAndPulse, vec![Say::AskCaptureAndPulseLine]),
        S::LookArrived => (Say::AskArrived, vec![Say::AskArrivedLine]),
        S::Change => (Say::AskChange, Vec::new()),
        S::Unchanged => (Say::AskUnchanged, vec![Say::AskCaptureAndPulseLine]),
        S::SayNames => (Say::AskNames, vec![Say::AskNamesLine]),
        S::Wrong => (Say::AskPulse, Vec::new()),
        S::AwayLook => (away(card), vec![Say::FirstLookLine]),
        _ => (Say::AskOnTheWay { place: card.place() }, on_the_way(card)),
    }
}

fn on_the_way(card: &Card<'_>) -> Vec<Say> {
    let last = card.open.told.looks.last();
    let last = last.map(|look| Say::LastLook { time: clock_of(look.at.wall_ms, look.at) });
    [Say::OnTheWayLine, Say::NoThresholdLine].into_iter().chain(last).collect()
}

fn away(card: &Card<'_>) -> Say {
    let seconds = card.open.away_ms.max(0) / 1000;
    let count = |of: i64| u32::try_from(of).unwrap_or(u32::MAX);
    match seconds {
        0..=59 => Say::SwapAwaySeconds { seconds: count(seconds) },
        _ => Say::SwapAwayMinutes { minutes: count(seconds / 60) },
    }
}
