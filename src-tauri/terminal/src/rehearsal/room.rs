//! The tablet in a rehearsal: the state, the loop every request goes through, one bed with one wire.

use std::collections::BTreeMap;

use domain::command::Command;
use domain::contract::{Sent, View};
use domain::event::{Event, What};
use domain::record::Record;
use domain::say::Say;
use domain::{Refusal, State};
use seal::TabletKey;

use super::clock::Clock;
use super::fault::RehearsalFault;
use crate::scenario::Ready;

const BED: u32 = 1;
const WIRE: u32 = 1;
/// A person does not tap faster; the second half of a double tap is not taken.
const BETWEEN_TAPS_MS: i64 = 1_000;

#[derive(Debug)]
pub struct Room {
    pub state: State,
    pub clock: Clock,
}

impl Room {
    /// A bed, a wire, and the scenario's generator and rules in force.
    pub fn furnished(ready: &Ready) -> Result<Room, RehearsalFault> {
        let mut room = Room { state: State::default(), clock: Clock::new(ready.scenario.seed) };
        room.adopt(ready);
        room.send(Command::Started { alive: None }, BTreeMap::new())?;
        room.send(Command::KeyFound(handover::tablet_of(&test_key().public())), BTreeMap::new())?;
        room.send(Command::Welcomed, BTreeMap::new())?;
        room.send(Command::AddBed, fields([("label", "Bed 1 (invented)")]))?;
        let wire = fields([
            ("chamber", ready.scenario.chamber.value()),
            ("kind", "epicardial"),
            ("polarity", "bipolar"),
            ("generator", &ready.profile.id),
        ]);
        room.send(Command::AddWire { bed: BED }, wire)?;
        Ok(room)
    }

    /// Leaves an empty room behind.
    pub fn take_out(&mut self) -> Room {
        std::mem::replace(self, Room { state: State::default(), clock: Clock::new(0) })
    }

    fn adopt(&mut self, ready: &Ready) {
        let what = What::LibraryAdopted {
            rules: Box::new(ready.rules.clone()),
            generators: vec![ready.profile.clone()],
            hash: ready.rules.id.clone(),
        };
        let at = self.clock.now();
        self.apply(&Event { at, what });
    }

    pub fn begin_check(&mut self) -> Result<(), RehearsalFault> {
        self.clock.begin();
        self.send(Command::Begin { bed: BED, wire: WIRE }, BTreeMap::new())
    }

    pub fn view(&mut self) -> View<Say> {
        let now = self.clock.now();
        domain::view(&self.state, now)
    }

    /// Takes a request on the card on the screen, after the time a person needs for it.
    pub fn send(&mut self, command: Command, values: BTreeMap<String, String>) -> Result<(), RehearsalFault> {
        let by_person = !matches!(
            command,
            Command::TimePassed
                | Command::Woke { .. }
                | Command::Started { .. }
                | Command::KeyFound(_)
                | Command::CodeMade { .. }
        );
        if by_person {
            self.clock.pass(BETWEEN_TAPS_MS);
        }
        let name = format!("{command:?}");
        let sent = Sent { card: self.state.card, command, values, stood_ms: None };
        let done = self.take(&sent);
        done.map_err(|_| RehearsalFault::NotTaken { card: sent.card, key: name })
    }

    pub fn take(&mut self, sent: &Sent) -> Result<(), Refusal> {
        let now = self.clock.now();
        let events = domain::decide(&self.state, sent, now)?;
        events.iter().for_each(|event| self.apply(event));
        Ok(())
    }

    fn apply(&mut self, event: &Event) {
        domain::apply_to(&mut self.state, event);
    }

    /// The records of the wire, oldest first.
    pub fn records(&self) -> &[Record] {
        self.state.wire(BED, WIRE).map(|wire| wire.records.as_slice()).unwrap_or_default()
    }

    /// The screen with the handover code.
    pub fn code(&mut self) -> Result<View<Say>, RehearsalFault> {
        self.send(
            Command::Go(domain::state::screen::Screen::Code { bed: BED, wire: WIRE }),
            BTreeMap::new(),
        )?;
        let now = self.clock.now();
        let made = self.state.wire(BED, WIRE).and_then(|wire| handover::made(wire, &test_key(), now).ok());
        if let Some(code) = made {
            let made = Command::CodeMade { bed: BED, wire: WIRE, code: Box::new(code) };
            self.send(made, BTreeMap::new())?;
        }
        Ok(self.view())
    }

    /// The signed lines on that screen.
    pub fn code_text(&self) -> Option<String> {
        self.state.wire(BED, WIRE)?.code.as_ref()?.lines.clone()
    }
}

/// Nobody's: what a rehearsal signs proves nothing, and every rehearsal's code bears the same short key.
fn test_key() -> TabletKey {
    TabletKey::from_seed(b"rehearsals-only-test-key-nobodys")
}

fn fields<const N: usize>(fields: [(&str, &str); N]) -> BTreeMap<String, String> {
    fields.into_iter().map(|(field, value)| (field.to_owned(), value.to_owned())).collect()
}
