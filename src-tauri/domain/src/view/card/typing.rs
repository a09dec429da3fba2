//! Cards on which something is typed.

use super::Card;
use crate::check::answer::Answer;
use crate::check::facts::{ASYNCHRONOUS, Dial, Marks, NONE};
use crate::check::offer::Typed;
use crate::check::slip::doubtful_dial;
use crate::check::step::Step;
use crate::command::Command;
use crate::contract::{Act, Choice, Field, FieldKind, Form, Shape, Tone};
use crate::decide::ASYNCHRONOUS_VALUE;
use crate::profile::{AsynchronousBy, Profile};
use crate::say::{Say, dial_name};
use crate::view::pieces::field;
use crate::view::{act, act_with_fields, figures};

/// A dial prints at most "100.0".
const DIGITS_MOST: usize = 5;

pub fn shape(card: &Card<'_>, typed: Typed) -> Shape<Say> {
    let form = match typed {
        Typed::OwnRate => own_rate(),
        Typed::OneDial => one_dial(card),
        Typed::Dials | Typed::Nothing => dials(card),
    };
    Shape::Form(form)
}

/// A question answered by a name beside a yes.
pub fn named_form(question: Say, lines: Vec<Say>, fields: Vec<(&str, Say)>) -> Shape<Say> {
    let fields = fields.into_iter().map(|(id, label)| text_field(id, label)).collect();
    Shape::Form(Form { question, lines, fields })
}

fn text_field(id: &str, label: Say) -> Field<Say> {
    field(id, label, FieldKind::Text, 60)
}

fn digits(id: &str, label: Say, unit: Option<Say>) -> Field<Say> {
    Field { unit, ..field(id, label, FieldKind::Digits, DIGITS_MOST) }
}

fn dials(card: &Card<'_>) -> Form<Say> {
    let (question, lines) = match card.facts.step {
        Step::ReadBack => (Say::ReadBackTitle, vec![Say::ReadBackLine]),
        Step::ReadAfter => (Say::ReadAfterTitle, after_trouble(card)),
        Step::AwayRead => (away_title(card), vec![Say::AwayReadLine, old_settings(card)]),
        Step::Elsewhere => (Say::ElsewhereTitle, vec![Say::ElsewhereLine]),
        _ => (Say::ReadTheDials, vec![Say::ReadTheDialsLine]),
    };
    Form { question, lines, fields: dial_fields(card.setup.profile) }
}

/// In the order the profile prints them: OUTPUT, RATE, mV.
pub fn dial_fields(profile: &Profile) -> Vec<Field<Say>> {
    let typed = |id: &str, dial: Dial| digits(id, *dial_name(dial), Some(figures::unit(profile, dial)));
    let mut mv = typed("mv", Dial::Mv);
    if profile.asynchronous() != AsynchronousBy::None {
        mv.choices = vec![Choice {
            value: ASYNCHRONOUS_VALUE.to_owned(),
            label: Say::ChooseAsynchronous,
            chosen: false,
            act: None,
        }];
    }
    vec![typed("output", Dial::Output), typed("rate", Dial::Rate), mv]
}

fn away_title(card: &Card<'_>) -> Say {
    let minutes = card.open.away_ms.max(0) / 60_000;
    Say::AwayReadTitle { minutes: u32::try_from(minutes).unwrap_or(u32::MAX) }
}

/// After a sleep that was too long the old settings are told, with their age; after an emergency they are over.
fn after_trouble(card: &Card<'_>) -> Vec<Say> {
    let marks = card.facts.marks;
    let slept = marks.has(Marks::AWAY) && !marks.has(Marks::EMERGENCY) && card.facts.dials_read();
    let old = slept.then(|| old_settings(card));
    [Say::ReadAfterLine].into_iter().chain(old).collect()
}

/// The old settings with their age: others may have changed them.
fn old_settings(card: &Card<'_>) -> Say {
    let target = crate::check::restore::target(card.setup, card.facts);
    let profile = card.setup.profile;
    Say::AwayReadOld {
        output: figures::text(profile, Dial::Output, target.output),
        rate: figures::text(profile, Dial::Rate, target.rate),
        mv: Box::new(figures::printed(profile, Dial::Mv, target.mv)),
        time: card.open.last.clock(),
    }
}

fn own_rate() -> Form<Say> {
    Form {
        question: Say::AskOwnRate,
        lines: vec![Say::OwnRateLine],
        fields: vec![
            Field { max_chars: 3, ..digits("slowest", Say::SlowestField, Some(Say::PerMinute)) },
            Field { max_chars: 3, ..digits("fastest", Say::FastestField, Some(Say::PerMinute)) },
        ],
    }
}

fn one_dial(card: &Card<'_>) -> Form<Say> {
    let dial = slipped(card).unwrap_or(Dial::Output);
    let mut field = digits("where", Say::SlipField, Some(figures::unit(card.setup.profile, dial)));
    if dial == Dial::Mv && card.setup.has_asynchronous() {
        field.choices = vec![Choice {
            value: ASYNCHRONOUS_VALUE.to_owned(),
            label: Say::ChooseAsynchronous,
            chosen: false,
            act: None,
        }];
    }
    Form {
        question: Say::SlipTitle { dial: dial_name(dial) },
        lines: vec![Say::SlipLine],
        fields: vec![field],
    }
}

fn slipped(card: &Card<'_>) -> Option<Dial> {
    card.open.before.as_ref().and_then(|earlier| doubtful_dial(earlier, card.facts))
}

/// The buttons that send what was typed.
pub fn done(card: &Card<'_>, typed: Typed) -> Vec<Act<Say>> {
    let send = |label, command| vec![act_with_fields("done", label, Tone::Good, command)];
    match typed {
        Typed::Nothing => Vec::new(),
        Typed::OwnRate => send(Say::OwnRateDone, Command::TypedOwnRate),
        Typed::Dials => send(Say::ReadDone, Command::TypedDials),
        Typed::OneDial => [likely(card), send(Say::SlipDone, Command::TypedOneDial)].concat(),
    }
}

/// After a slip: where the dial stood and where it was asked to, one tap each.
fn likely(card: &Card<'_>) -> Vec<Act<Say>> {
    let Some(earlier) = card.open.before.as_ref() else { return Vec::new() };
    let Some(dial) = slipped(card) else { return Vec::new() };
    let asked = if card.facts.to == NONE { earlier } else { card.facts };
    let mut places = vec![asked.stand.at(dial), asked.to];
    places.retain(|at| *at != NONE && *at != ASYNCHRONOUS);
    places.dedup();
    places
        .into_iter()
        .map(|at| {
            let label = Say::SlipStandsAt {
                figure: figures::text(card.setup.profile, dial, at),
                unit: Box::new(figures::unit(card.setup.profile, dial)),
            };
            act(format!("at-{at}"), label, Tone::Strong, Command::Answer(Answer::StandsAt(at)))
        })
        .collect()
}

/// Cards on which an answer carries a name.
pub fn needs_name(step: Step, answer: Answer) -> bool {
    let yes = matches!(step, Step::Order | Step::Accept | Step::AsynchronousOrdered | Step::MarginAsk);
    (yes && answer == Answer::Yes) || answer == Answer::ReasonAndName
}

/// The question and fields of those cards.
pub fn naming(card: &Card<'_>) -> Option<Shape<Say>> {
    Some(match card.facts.step {
        Step::Order => {
            named_form(Say::AskOrder, vec![Say::AskOrderLine], vec![("name", Say::ClinicianField)])
        }
        Step::Accept => {
            named_form(Say::AskAccept, vec![Say::CautionLocalRules], vec![("name", Say::AcceptField)])
        }
        Step::AsynchronousOrdered => named_form(
            Say::AskAsynchronousOrdered,
            vec![Say::AsynchronousOrderedLine],
            vec![("name", Say::OrderedByField)],
        ),
        Step::MarginAsk => named_form(
            Say::AskMargin,
            vec![Say::MarginClinician, Say::MarginPads, Say::MarginNoShock, Say::MarginHand],
            vec![("name", Say::ClinicianField)],
        ),
        Step::Reason => named_form(
            Say::ReasonTitle,
            Vec::new(),
            vec![("reason", Say::ReasonField), ("name", Say::ToldField)],
        ),
        _ => return None,
    })
}
