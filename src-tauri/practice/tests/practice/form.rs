//! What a learner without cards says, said on the cards that ask for it: as the page sends it, and as it is recorded.

use std::collections::BTreeMap;

use domain::check::facts::{ASYNCHRONOUS, Dials, Found};
use domain::command::Command;
use domain::contract::Sent;
use domain::event::{Event, What};
use domain::moment::Moment;
use domain::practice::{Said, Staged, Threshold};
use domain::profile::Profile;
use domain::state::screen::Screen;
use domain::{State, apply_to, decide};
use practice::{Entry, Exercise};

/// The entries of this run done without cards: the same turns, and what its check found typed and sent.
pub fn said(exercise: &Exercise, seed: u64, guided: &[Entry]) -> Vec<Entry> {
    let mut tablet = Tablet::practising(exercise, seed);
    for entry in guided {
        match *entry {
            Entry::Turned { .. } => tablet.happen(What::Practised(*entry)),
            Entry::Said { at_us, said } => {
                tablet.happen(What::Went(Screen::PracticeFound));
                tablet.ask(at_us, Command::SaidFound, &thresholds(&exercise.profile, &said));
                if let Some(stays) = said.stays {
                    tablet.ask(at_us, Command::SaidDials, &dials(&exercise.profile, stays));
                }
            }
            Entry::Ended { at_us } if tablet.state.practice.is_some() => {
                tablet.ask(at_us, Command::EndPractice, &Values::new());
            }
            Entry::Answered { .. } | Entry::Paused { .. } | Entry::Ended { .. } => {}
        }
    }
    tablet.state.runs.pop().unwrap().entries
}

type Values = BTreeMap<String, String>;

struct Tablet {
    state: State,
    now: Moment,
}

impl Tablet {
    fn practising(exercise: &Exercise, seed: u64) -> Tablet {
        let now = Moment { wall_ms: 1_000_000, offset_min: 0, boot_ms: 50_000, boot: 1, fresh: [3; 16] };
        let mut tablet = Tablet { state: State::default(), now };
        tablet.happen(What::LibraryAdopted {
            rules: Box::new(exercise.rules.clone()),
            generators: vec![exercise.profile.clone()],
            hash: "x".into(),
        });
        let staged = Staged {
            exercise: exercise.id,
            hash: exercise.hash.clone(),
            engine: practice::ENGINE.into(),
            seed,
            guided: false,
            chamber: exercise.chamber,
            generator: exercise.profile.id.clone(),
            found: exercise.found,
            rules: Box::new(exercise.rules.clone()),
        };
        tablet.send(Command::Staged(Box::new(staged)), Values::new());
        tablet
    }

    fn happen(&mut self, what: What) {
        apply_to(&mut self.state, &Event { at: self.now, what });
    }

    fn ask(&mut self, at_us: u64, command: Command, values: &Values) {
        self.send(Command::AtStrip { at_us, asked: Box::new(command) }, values.clone());
    }

    fn send(&mut self, command: Command, values: Values) {
        self.now = Moment { wall_ms: self.now.wall_ms + 400, boot_ms: self.now.boot_ms + 400, ..self.now };
        let sent = Sent { card: self.state.card, command, values, stood_ms: None };
        let events = decide(&self.state, &sent, self.now).unwrap_or_else(|no| panic!("{no:?}: {sent:?}"));
        events.iter().for_each(|event| apply_to(&mut self.state, event));
    }
}

/// "Seen where it stood" is "at least" to somebody without cards.
fn thresholds(profile: &Profile, said: &Said) -> Values {
    let mut values = Values::new();
    let mut typed = |field: &str, text: &str| values.insert(field.to_owned(), text.to_owned());
    let (capture, sensing) = (said.capture, said.sensing);
    if let Some(how) = how(capture) {
        typed("capture-how", how);
        typed("capture", profile.output_text(capture.at));
        if how == "between" {
            typed("capture-low", profile.output_text(capture.low));
        }
    }
    if let Some(how) = how(sensing) {
        typed("sensing-how", how);
        typed("sensing", profile.mv_text(sensing.at));
    }
    values
}

fn how(threshold: Threshold) -> Option<&'static str> {
    match threshold.found {
        Found::Exact => Some("exactly"),
        Found::AtLeast | Found::SeenWhereItStood => Some("at-least"),
        Found::AtMost => Some("at-most"),
        Found::Bracket => Some("between"),
        Found::Nothing | Found::SeenAtNone => None,
    }
}

fn dials(profile: &Profile, stays: Dials) -> Values {
    let mv = if stays.mv == ASYNCHRONOUS { "asynchronous" } else { profile.mv_text(stays.mv) };
    let typed =
        [("output", profile.output_text(stays.output)), ("rate", profile.rate_text(stays.rate)), ("mv", mv)];
    typed.map(|(field, text)| (field.to_owned(), text.to_owned())).into()
}
