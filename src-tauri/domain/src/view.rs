//! The state as a screen. Decides nothing: what is open depends on the state alone.

mod bed;
mod bed_forms;
mod beds;
mod card;
mod charts;
mod code;
mod figures;
mod history;
mod pieces;
mod result;
mod rule_names;
mod rules;
mod settings;
mod summary;
mod welcome;
mod why;
mod wire_form;

use crate::command::Command;
use crate::contract::{Act, Head, Rail, Safety, Shape, Tone, View};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

/// What one screen brings to the view; the rest is the same everywhere.
pub struct Screenful {
    pub head: Head<Say>,
    pub rail: Option<Rail>,
    pub shape: Shape<Say>,
    pub answers: Vec<Act<Say>>,
    pub aside: Vec<Act<Say>>,
    pub safety: Option<Safety<Say>>,
    pub notice: Option<Say>,
    pub spoken: Say,
}

pub fn view(state: &State, now: Moment) -> View<Say> {
    let screen = screenful(state, now);
    View {
        card: state.card,
        now_ms: now.boot_ms,
        look: state.look,
        head: screen.head,
        rail: screen.rail,
        marks: marks(state),
        shape: screen.shape,
        answers: screen.answers,
        aside: screen.aside,
        safety: screen.safety,
        notice: screen.notice,
        spoken: screen.spoken,
    }
}

/// On every screen: local rules come first, and whether the tablet's own are anybody's.
fn marks(state: &State) -> Vec<Say> {
    vec![if state.rules.example { Say::MarkExampleRules } else { Say::CautionLocalRules }]
}

fn screenful(state: &State, now: Moment) -> Screenful {
    match state.screen {
        Screen::Check { bed, wire } => card::screenful(state, bed, wire, now),
        Screen::Welcome => welcome::welcome(state, now),
        Screen::Beds => beds::beds(state, now),
        Screen::MoreBeds { from } => beds::beds_from(state, from, now),
        Screen::NewBed => bed_forms::new_bed(now),
        Screen::Bed { bed } => bed::bed(state, bed, now),
        Screen::NewPatient { bed } => bed_forms::new_patient(state, bed, now),
        Screen::NewWire { bed } => wire_form::new_wire(state, bed, now),
        Screen::Result { bed, wire, back } => result::result(state, bed, wire, back, now),
        Screen::Code { bed, wire } => code::code(state, bed, wire, now),
        Screen::History { bed, wire } => history::history(state, bed, wire, now),
        Screen::Settings => settings::settings(state, now),
        Screen::Rules => rules::rules(state, now),
    }
}

/// A button without fields.
pub fn act(key: &str, label: Say, tone: Tone, command: Command) -> Act<Say> {
    Act { key: key.to_owned(), label, note: None, tone, command, with_fields: false }
}

/// A button that sends the card's fields along.
pub fn act_with_fields(key: &str, label: Say, tone: Tone, command: Command) -> Act<Say> {
    Act { with_fields: true, ..act(key, label, tone, command) }
}
