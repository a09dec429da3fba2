//! The simulated patient: the cards of the check beside it, or none; standing still; what was found.

use super::practice_head;
use crate::check::offer::has_safety;
use crate::command::Command;
use crate::contract::{Ask, Field, FieldKind, Form, Shape, Tone};
use crate::moment::Moment;
use crate::practice::{HowFound, PRACTICE_BED, PRACTICE_WIRE, Pause, Paused, Practice};
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::view::card::dial_fields;
use crate::view::pieces::{field, go, plain};
use crate::view::wire_form::pick;
use crate::view::{Screenful, act, act_with_fields, beds, card, figures};

pub fn practising(state: &State, now: Moment) -> Screenful {
    let Some(open) = state.practice.as_deref() else { return beds::beds(state, now) };
    match open.paused {
        Some(paused) => standing_still(open, paused, now),
        None => told(open, if open.staged.guided { guided(state, now) } else { alone(open, now) }),
    }
}

/// What happened and no strip shows.
fn told(open: &Practice, screen: Screenful) -> Screenful {
    let shock = open.told.is_some().then_some(Say::PracticeShockGiven);
    Screenful { notice: screen.notice.or(shock), ..screen }
}

/// The check's own card; only its head says whose it is not.
fn guided(state: &State, now: Moment) -> Screenful {
    let mut screen = card::screenful(state, PRACTICE_BED, PRACTICE_WIRE, now);
    screen.head.title = Say::Practice;
    screen
}

fn alone(open: &Practice, now: Moment) -> Screenful {
    let shape = Shape::Ask(ask(Say::AloneTitle, vec![Say::AloneLine]));
    Screenful {
        answers: vec![go("found", Say::AloneFound, Tone::Good, Screen::PracticeFound)],
        ..plain(practice_head(open.staged.exercise.name(), now), shape, Say::AloneTitle)
    }
}

fn standing_still(open: &Practice, paused: Paused, now: Moment) -> Screenful {
    let title = match paused.why {
        Pause::Asked => Say::PausedAsked,
        Pause::Stall => Say::PausedStall,
        Pause::Sleep => Say::PausedSleep,
        Pause::Restart => Say::PausedRestart,
    };
    let shape = Shape::Ask(ask(title.clone(), vec![Say::PausedLine]));
    Screenful {
        answers: vec![
            act("break-off", Say::PracticeBreakOff, Tone::Strong, Command::BreakOff),
            act("end", Say::PracticeEnd, Tone::Strong, Command::EndPractice),
            act("go-on", Say::PracticeGoOn, Tone::Good, Command::GoOn),
        ],
        ..plain(practice_head(open.staged.exercise.name(), now), shape, title)
    }
}

fn ask(question: Say, lines: Vec<Say>) -> Ask<Say> {
    Ask { question, lines, reason: None, watch: None, scale: None, others: Vec::new() }
}

/// Thresholds as an unguided learner found them.
pub fn found(state: &State, now: Moment) -> Screenful {
    let Some(open) = state.practice.as_deref() else { return beds::beds(state, now) };
    let unit =
        state.generator(&open.staged.generator).map(|profile| figures::output_unit(profile.output_unit()));
    let form = Form {
        question: Say::FoundTitle,
        lines: vec![Say::FoundLine],
        fields: vec![
            how("capture-how", Say::CaptureHow, HowFound::OF_CAPTURE),
            digits("capture", Say::RowCapture, unit.clone()),
            digits("capture-low", Say::CaptureLow, unit),
            how("sensing-how", Say::SensingHow, HowFound::OF_SENSING),
            digits("sensing", Say::RowSensing, Some(Say::MilliVolt)),
        ],
    };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Strong, Screen::Practising),
            act_with_fields("done", Say::NextStep, Tone::Good, Command::SaidFound),
        ],
        ..plain(practice_head(open.staged.exercise.name(), now), Shape::Form(form), Say::FoundTitle)
    }
}

fn how(id: &str, label: Say, hows: &[HowFound]) -> Field<Say> {
    pick(id, label, hows.iter().map(|how| (how.id(), how.say())).collect())
}

/// The dials as they read, at the end: typed by whoever stands before them.
pub fn read(state: &State, now: Moment) -> Screenful {
    let Some(open) = state.practice.as_deref() else { return beds::beds(state, now) };
    let Some(profile) = state.generator(&open.staged.generator) else { return beds::beds(state, now) };
    let fields = dial_fields(profile);
    let form = Form { question: Say::FoundRead, lines: vec![Say::FoundReadLine], fields };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Strong, Screen::PracticeFound),
            act_with_fields("done", Say::FoundDone, Tone::Good, Command::SaidDials),
        ],
        ..plain(practice_head(open.staged.exercise.name(), now), Shape::Form(form), Say::FoundRead)
    }
}

fn digits(id: &str, label: Say, unit: Option<Say>) -> Field<Say> {
    Field { unit, ..field(id, label, FieldKind::Digits, 5) }
}

/// A card on which the hand may lie on a dial: the check's dial cards and readings, and every card without it.
pub fn has_knobs(state: &State, open: &Practice) -> bool {
    let stands = matches!(state.screen, Screen::Practising | Screen::PracticeRead);
    let Some(check) = open.wire.check.as_ref() else { return stands };
    has_safety(&check.facts) || check.facts.dials_read() || reads_first(check)
}

fn reads_first(check: &crate::state::bed::OpenCheck) -> bool {
    check.facts.step == crate::check::step::Step::ReadFound
}
