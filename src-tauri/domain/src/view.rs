//! The state as a screen. Decides nothing: what is open depends on the state alone.

mod asked_again;
mod bed;
mod bed_forms;
mod bed_more;
mod beds;
mod card;
mod charts;
mod code;
mod erasing;
mod figures;
mod generators;
mod handed;
mod handing_in;
mod history;
mod leaving;
mod marks;
mod owed;
mod pieces;
mod practice;
mod reminder;
mod result;
mod rule_names;
mod rules;
mod scale;
mod settings;
mod summary;
mod swap;
mod teaching;
mod transport;
mod welcome;
mod why;
mod wire_form;

pub use code::why_no_code;
pub use history::befell;
pub use leaving::not_restored;
pub use practice::{act_at, act_judged};
pub use settings::LANGUAGE_FIELD;

use std::borrow::Cow;

use crate::command::Command;
use crate::contract::{Act, Head, Rail, Safety, Shape, Tone, View};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

pub use handed::{CAMERA_FIELD, PICTURE_FIELD, looked};

/// What one screen brings to the view; the rest is the same everywhere.
pub struct Screenful {
    pub head: Head<Say>,
    pub rail: Option<Rail>,
    pub shape: Shape<Say>,
    pub answers: Vec<Act<Say>>,
    pub aside: Vec<Act<Say>>,
    pub safety: Option<Box<Safety<Say>>>,
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
        marks: marks::marks(state, now),
        shape: screen.shape,
        answers: screen.answers,
        aside: screen.aside,
        safety: screen.safety,
        notice: screen.notice.or_else(|| reminder::reminder(state, now)),
        spoken: screen.spoken,
        practice: practice::practice(state).map(Box::new),
        progress: handed::progress(state).map(Box::new),
    }
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
        Screen::Code { bed, wire } => code::lines(state, bed, wire, now),
        Screen::CodeCopy { bed, wire } => code::copy(state, bed, wire, now),
        Screen::Load { bed } => handed::load(state, bed, now),
        Screen::Reading => handed::reading(state, now),
        Screen::ArrivedList => handed::arrived_list(state, now),
        Screen::Arrived { at } => handed::arrived(state, at, now),
        Screen::TakeIn { at } => handed::take_in(state, at, now),
        Screen::Compare { bed, wire } => handed::compare(state, bed, wire, now),
        Screen::Compared { bed, wire } => handed::compared(state, bed, wire, now),
        Screen::NameTablet { at } => handed::name_tablet(state, at, now),
        Screen::Tablets => handed::tablets(state, now),
        Screen::Tablet { at } => handed::tablet(state, at, now),
        Screen::History { bed, wire } => history::history(state, bed, wire, now),
        Screen::Plug { bed, wire } => bed_more::plug(state, bed, wire, now),
        Screen::BedMore { bed } => bed_more::more(state, bed, now),
        Screen::Happened { bed } => bed_more::happened(state, bed, now),
        Screen::WireOut { bed } => bed_more::wire_out(state, bed, now),
        Screen::EmptyBed { bed } => bed_more::empty(state, bed, now),
        Screen::ReadOwed { bed, wire } => owed::read_owed(state, bed, wire, now),
        Screen::Transport { bed } => transport::transport(state, bed, now),
        Screen::NewSwap { bed, wire } => swap::new_swap(state, bed, wire, now),
        Screen::Swap { bed, wire } => swap::swap(state, bed, wire, now),
        Screen::Settings => settings::settings(state, now),
        Screen::Rules => rules::rules(state, now),
        Screen::NewRules => handing_in::new_rules(now),
        Screen::OfferedRules => rules::offered(state, now),
        Screen::Generators => generators::generators(state, now),
        Screen::Generator { at } => generators::generator(state, at, now),
        Screen::NewGenerator => handing_in::new_generator(now),
        Screen::OfferedGenerator => generators::offered(state, now),
        Screen::Approve => handing_in::approve(state, now),
        Screen::Teaching(place) => teaching::screenful(state, place, now),
        Screen::Practice => practice::exercises(state, now),
        Screen::PracticeBegin { exercise } => practice::begin(state, exercise, now),
        Screen::Practising => practice::practising(state, now),
        Screen::PracticeFound => practice::said_found(state, now),
        Screen::PracticeRead => practice::said_read(state, now),
        Screen::PracticeRuns => practice::runs(state, now),
        Screen::PracticeResult { run } => practice::result(state, run, now),
        Screen::PracticeActs { run, from } => practice::acts(state, run, from, now),
        Screen::LookAgain { run, act } => practice::look_again(state, run, act, now),
        Screen::Export { bed, wire } => leaving::export(state, bed, wire, now),
        Screen::Backup => leaving::backup(state, now),
        Screen::Restore => leaving::restore(state, now),
        Screen::Restorable => leaving::restorable(state, now),
        Screen::Erase => erasing::erase(state, now),
        Screen::Erased => erasing::erased(state, now),
        Screen::EraseAsk { at } => erasing::ask(state, at, now),
    }
}

/// A button without fields.
pub fn act(key: impl Into<Cow<'static, str>>, label: Say, tone: Tone, command: Command) -> Act<Say> {
    Act { key: key.into(), label, note: None, tone, command, with_fields: false }
}

/// A button that sends the card's fields along.
pub fn act_with_fields(
    key: impl Into<Cow<'static, str>>,
    label: Say,
    tone: Tone,
    command: Command,
) -> Act<Say> {
    Act { with_fields: true, ..act(key, label, tone, command) }
}
