//! Cards that ask for a PIN. No card ever holds one.

use super::form::choose;
use super::{filled, to, work};
use crate::command::Command;
use crate::contract::{Field, FieldKind, Form, Shape, Tone};
use crate::decide::{LEARNER_MOST, NAME_MOST, REASON_MOST, pin_wait};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::teaching::ask::Ask;
use crate::teaching::paper::Says;
use crate::teaching::pin::{NEW_PIN, NEW_PIN_AGAIN, PIN};
use crate::teaching::place::Place;
use crate::teaching::{Task, Tried, Why};
use crate::view::pieces::{head, isolated, plain};
use crate::view::wire_form::pick;
use crate::view::{Screenful, act_with_fields};

/// Longer than any PIN, so that what is too long is said and never cut.
const TYPED_MOST: usize = 2_000;

/// A card with a PIN on it, its way back and what sends it.
struct Card {
    question: Say,
    lines: Vec<Say>,
    fields: Vec<Field<Say>>,
    back: Place,
    send: (Say, Ask),
}

pub fn enrol(state: &State, now: Moment) -> Screenful {
    let name = filled("name", Say::EducatorNameField, FieldKind::Text, &tried_name(state), LEARNER_MOST);
    card(
        state,
        Place::Enrol,
        now,
        Card {
            question: Say::EnrolTitle,
            lines: vec![Say::EnrolLine, Say::PinNotFoundAgain],
            fields: [name].into_iter().chain(new_pin()).collect(),
            back: Place::Educators,
            send: (Say::EnrolDone, Ask::Enrol),
        },
    )
}

fn tried_name(state: &State) -> String {
    match state.teaching.tried.as_ref().map(|tried| &tried.wanted.task) {
        Some(Task::Enrol { name, .. }) => name.clone(),
        Some(Task::Sign { .. } | Task::Renew { .. }) | None => String::new(),
    }
}

fn new_pin() -> [Field<Say>; 2] {
    [
        filled(NEW_PIN, Say::NewPinField, FieldKind::Secret, "", TYPED_MOST),
        filled(NEW_PIN_AGAIN, Say::NewPinAgainField, FieldKind::Secret, "", TYPED_MOST),
    ]
}

pub fn vouch(state: &State, at: u32, now: Moment) -> Option<Screenful> {
    let other = state.teaching.educator(at)?;
    Some(card(
        state,
        Place::Vouch { at },
        now,
        Card {
            question: Say::VouchTitle { name: isolated(&other.name) },
            lines: vec![Say::VouchLine],
            fields: by_pin(state, Some(at)),
            back: Place::Educator { at },
            send: (Say::VouchDone, Ask::Vouch { at }),
        },
    ))
}

pub fn approver_vouch(state: &State, at: u32, now: Moment) -> Option<Screenful> {
    let other = state.teaching.educator(at)?;
    let approver = state.rules_let_in.as_ref()?;
    Some(card(
        state,
        Place::ApproverVouch { at },
        now,
        Card {
            question: Say::VouchTitle { name: isolated(&other.name) },
            lines: vec![Say::ApproverLine { name: isolated(&approver.by) }],
            fields: vec![filled("name", Say::ApproverField, FieldKind::Text, "", NAME_MOST)],
            back: Place::Educator { at },
            send: (Say::VouchDone, Ask::ApproverVouch { at }),
        },
    ))
}

pub fn renew(state: &State, at: u32, now: Moment) -> Option<Screenful> {
    let old = state.teaching.educator(at)?;
    let fields = by_pin(state, Some(at)).into_iter().chain(new_pin()).collect();
    Some(card(
        state,
        Place::Renew { at },
        now,
        Card {
            question: Say::RenewTitle { name: isolated(&old.name) },
            lines: vec![Say::RenewLine],
            fields,
            back: Place::Educator { at },
            send: (Say::RenewDone, Ask::Renew { at }),
        },
    ))
}

pub fn sign(state: &State, now: Moment) -> Option<Screenful> {
    let draft = state.teaching.draft.as_ref()?;
    let (met, all) = draft.counts();
    let counts =
        Say::SignCounts { name: isolated(&draft.learner), met: met.to_string(), all: all.to_string() };
    Some(card(
        state,
        Place::SignPin,
        now,
        Card {
            question: Say::SignTitle,
            lines: vec![counts, work(&draft.work, now.offset_min), Say::SignLine],
            fields: by_pin(state, None),
            back: Place::SignItems,
            send: (Say::SignDone, Ask::Sign),
        },
    ))
}

pub fn revoke(state: &State, at: u32, now: Moment) -> Option<Screenful> {
    let kept = state.teaching.entry(at)?;
    let Says::SignedOff(sign_off) = &kept.paper.says else { return None };
    let typed =
        filled("reason", Say::ReasonField, FieldKind::Text, &tried_reason(state, &kept.hash), REASON_MOST);
    Some(card(
        state,
        Place::Revoke { at },
        now,
        Card {
            question: Say::RevokeTitle { name: isolated(&sign_off.learner) },
            lines: vec![Say::RevokeLine],
            fields: [typed].into_iter().chain(by_pin(state, None)).collect(),
            back: Place::Entry { at },
            send: (Say::RevokeDone, Ask::Revoke { at }),
        },
    ))
}

fn tried_reason(state: &State, hash: &str) -> String {
    let Some(Tried { wanted, .. }) = &state.teaching.tried else { return String::new() };
    let Task::Sign { paper, .. } = &wanted.task else { return String::new() };
    match &paper.says {
        Says::Revoked { entry, reason } if entry == hash => reason.clone(),
        Says::Revoked { .. } | Says::SignedOff(_) | Says::Vouched { .. } => String::new(),
    }
}

pub fn file_vouch(state: &State, now: Moment) -> Option<Screenful> {
    let read = state.teaching.read.as_ref()?;
    Some(card(
        state,
        Place::FileVouch,
        now,
        Card {
            question: Say::VouchTitle { name: isolated(&read.paper.educator) },
            lines: vec![Say::FileVouchLine { key: crate::view::rules::fingerprint(&read.key) }],
            fields: by_pin(state, None),
            back: Place::FileRead,
            send: (Say::VouchDone, Ask::FileVouch),
        },
    ))
}

/// Who signs, and their PIN; whoever was picked before a wrong PIN is still picked.
fn by_pin(state: &State, except: Option<u32>) -> Vec<Field<Say>> {
    let able: Vec<(String, Say)> = state
        .teaching
        .signing()
        .filter(|(place, _)| Some(*place) != except)
        .map(|(place, educator)| (place.to_string(), Say::Local { text: educator.name.clone() }))
        .collect();
    let choices = able.iter().map(|(place, name)| (place.as_str(), name.clone())).collect();
    let mut who = pick("educator", Say::EducatorField, choices);
    if let Some(by) = state.teaching.tried.as_ref().and_then(|tried| tried.wanted.task.by()) {
        choose(&mut who, &by.to_string());
    }
    vec![who, filled(PIN, Say::PinField, FieldKind::Secret, "", TYPED_MOST)]
}

fn card(state: &State, place: Place, now: Moment, card: Card) -> Screenful {
    let (label, ask) = card.send;
    let form = Form { question: card.question.clone(), lines: card.lines, fields: card.fields };
    Screenful {
        answers: vec![
            to("back", Say::Back, Tone::Plain, card.back),
            act_with_fields("done", label, Tone::Good, Command::Teach(ask)),
        ],
        notice: came_to_nothing(state, place, now),
        ..plain(head(Say::SignOff, now), Shape::Form(form), card.question)
    }
}

/// Why the last PIN tried on this card came to nothing.
fn came_to_nothing(state: &State, place: Place, now: Moment) -> Option<Say> {
    let tried = state.teaching.tried.as_ref().filter(|one| one.wanted.back == Screen::Teaching(place))?;
    let by = tried.wanted.task.by().and_then(|by| state.teaching.educator(by));
    Some(match (tried.why, by.map_or(0, |educator| educator.tries.left_ms(now))) {
        (Why::Wrong, 0) => Say::PinWrong,
        (Why::Wrong, left) => Say::PinWrongWait { wait: Box::new(pin_wait(left)) },
        (Why::NotDone, _) => Say::PinCouldNot,
        (Why::CutOff, _) => Say::PinCutOff,
    })
}
