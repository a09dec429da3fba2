//! Somebody who reads the cards and taps: sees nothing but views, does nothing but send.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use domain::command::Command;
use domain::contract::{Act, Sent, Shape, View};
use domain::state::screen::Screen;
use session::{Options, Session};

use crate::hand_clock::HandClock;

const PATIENCE: Duration = Duration::from_secs(20);
/// Past the time within which a tap counts as the second half of a double tap.
const BETWEEN_TAPS_MS: i64 = 400;

pub struct Nurse {
    pub session: Session,
    pub clock: HandClock,
    pub view: View<String>,
    views: Receiver<View<String>>,
}

impl Nurse {
    pub fn start(folder: &Path, clock: &HandClock) -> Nurse {
        let session = Session::open(
            folder,
            Options { effort: seal::Effort::LEAST, ..Options::by(Box::new(clock.clone())) },
        )
        .unwrap();
        Nurse::on(session, clock)
    }

    /// At a session that runs already.
    pub fn on(session: Session, clock: &HandClock) -> Nurse {
        let (sender, views) = channel();
        session.watch(move |view| sender.send(view).is_ok()).unwrap();
        let view = views.recv_timeout(PATIENCE).unwrap();
        Nurse { session, clock: clock.clone(), view, views }
    }

    /// As far as an open check on one ventricular wire.
    pub fn in_a_check(folder: &Path, clock: &HandClock) -> Nurse {
        let mut nurse = Nurse::start(folder, clock);
        nurse.ask(Command::Welcomed);
        nurse.ask(Command::Go(Screen::NewBed));
        nurse.ask(Command::AddBed);
        nurse.ask(Command::AddWire { bed: 1 });
        nurse.ask(Command::Begin { bed: 1, wire: 1 });
        nurse
    }

    /// Goes on by the good answer, the watches waited out, until a card touches a dial.
    pub fn reach_the_first_dial(&mut self) {
        for _ in 0..60 {
            if self.view.safety.is_some() && matches!(self.view.shape, Shape::Turn(_)) {
                return;
            }
            self.good();
        }
        panic!("no dial card after 60 answers: {:#?}", self.view);
    }

    /// The last answer, which is the good one where it is open.
    pub fn good(&mut self) {
        let act = self.view.answers.last().unwrap_or_else(|| panic!("no answer on {:#?}", self.view)).clone();
        self.tap(&act);
    }

    pub fn tap(&mut self, act: &Act<String>) {
        self.ask(act.command.clone());
    }

    /// Sends and waits for the card that follows.
    pub fn ask(&mut self, command: Command) {
        let card = self.view.card;
        let said = format!("an answer to {command:?}");
        self.send(command);
        self.wait(&said, |view| view.card != card);
    }

    pub fn send(&self, command: Command) {
        self.clock.pass(BETWEEN_TAPS_MS);
        self.session.send(sent(self.view.card, command)).unwrap();
    }

    /// Sends with this typed into one field, and waits for what it leads to: a card or a sentence.
    pub fn type_in(&mut self, command: Command, field: &str, typed: &str) {
        self.clock.pass(BETWEEN_TAPS_MS);
        let mut filled = sent(self.view.card, command);
        filled.values.insert(field.to_owned(), typed.to_owned());
        let (card, notice) = (self.view.card, self.view.notice.clone());
        self.session.send(filled).unwrap();
        self.wait("a card or a sentence", |view| view.card != card || view.notice != notice);
    }

    /// Hands a file in and waits for what it leads to: a card or a sentence.
    pub fn hand_in(&mut self, kind: &str, bytes: &[u8]) {
        self.clock.pass(BETWEEN_TAPS_MS);
        let (card, notice) = (self.view.card, self.view.notice.clone());
        self.session.hand_in(kind, bytes).unwrap();
        self.wait("a card or a sentence", |view| view.card != card || view.notice != notice);
    }

    pub fn wait(&mut self, what: &str, is_it: impl Fn(&View<String>) -> bool) {
        while !is_it(&self.view) {
            let next = self.views.recv_timeout(PATIENCE);
            self.view = next.unwrap_or_else(|_| panic!("{what} did not come; the card is {:#?}", self.view));
        }
    }

    /// What comes within a short while; the last of it stands.
    pub fn drain(&mut self) -> usize {
        let mut views = 0;
        while self.glance(150) {
            views += 1;
        }
        views
    }

    /// The next view, if one comes in time, and those behind it.
    pub fn glance(&mut self, ms: u64) -> bool {
        let next = self.views.recv_timeout(Duration::from_millis(ms));
        let came = next.is_ok();
        if let Some(view) = self.views.try_iter().last().or(next.ok()) {
            self.view = view;
        }
        came
    }
}

/// Every field any card asks for; a card takes those it knows.
pub fn sent(card: u32, command: Command) -> Sent {
    let values = [
        ("label", "Bay 3 (invented)"),
        ("chamber", "ventricle"),
        ("kind", "epicardial"),
        ("polarity", "bipolar"),
        ("generator", "example-fine-current"),
        ("name", "A. Example (invented)"),
        ("role", "charge nurse (invented)"),
        ("wire", "1"),
        ("reason", "asked for (invented)"),
        ("output", "6.0"),
        ("rate", "80"),
        ("mv", "2.0"),
        ("slowest", "62"),
        ("fastest", "62"),
        ("where", "6.0"),
        ("target", "imaging"),
        ("destination", "Room Zebra (invented)"),
        ("from", "Old Zebra"),
        ("to", "New Zebra"),
    ];
    let values = values.map(|(field, value)| (field.to_owned(), value.to_owned()));
    Sent { card, command, values: BTreeMap::from(values), stood_ms: None }
}
