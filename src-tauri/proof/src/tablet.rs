//! The tablet without its journal: state, time, and the loop every request goes through.

use std::collections::BTreeMap;

use domain::command::Command;
use domain::contract::{Sent, View};
use domain::event::{Event, What};
use domain::moment::Moment;
use domain::record::Record;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::{Refusal, State};
use simulator::{Chamber, SplitMix64};

use crate::case::Case;

const BED: u32 = 1;
const WIRE: u32 = 1;
/// 24 November 2026, 21:40, one hour east of UTC.
const START_WALL_MS: i64 = 1_795_552_800_000;
const START_BOOT_MS: i64 = 1_000_000_000;
/// Between two taps of the same hand.
const BETWEEN_TAPS_MS: i64 = 1_000;

#[derive(Debug)]
pub struct Tablet {
    pub state: State,
    /// When time itself must act on this state.
    due: Option<i64>,
    since_start_ms: i64,
    chance: SplitMix64,
    /// Records of the wire when the check that is open, or was last, began.
    records_before: usize,
}

impl Tablet {
    /// One bed with one wire, the case's generator and rules in force, the check begun.
    pub fn with_check_open(case: &Case) -> Result<Tablet, Refusal> {
        let chance = SplitMix64::new(case.seed ^ 0x5eed);
        let mut tablet =
            Tablet { state: State::default(), due: None, since_start_ms: 0, chance, records_before: 0 };
        let what = What::LibraryAdopted {
            rules: Box::new(case.rules.clone()),
            generators: vec![case.profile.clone()],
            hash: case.rules.id.clone(),
        };
        let at = tablet.now();
        tablet.apply(&[Event { at, what }]);
        tablet.command(Command::Started { alive: None }, &[])?;
        tablet.command(Command::Welcomed, &[])?;
        tablet.command(Command::AddBed, &[("label", "Bed 1 (invented)")])?;
        let chamber = match case.port {
            Chamber::Atrium => "atrium",
            Chamber::Ventricle => "ventricle",
        };
        let wire = [
            ("chamber", chamber),
            ("kind", "epicardial"),
            ("polarity", "bipolar"),
            ("generator", &case.profile.id),
        ];
        tablet.command(Command::AddWire { bed: BED }, &wire)?;
        tablet.command(Command::Begin { bed: BED, wire: WIRE }, &[])?;
        Ok(tablet)
    }

    /// So long after the last check has ended the next one of the same wire is begun.
    pub fn open_again(&mut self, after_ms: i64) -> Result<(), Refusal> {
        self.pass(after_ms);
        self.records_before = self.records();
        self.command(Command::Go(Screen::Beds), &[])?;
        self.command(Command::Begin { bed: BED, wire: WIRE }, &[])
    }

    pub fn boot_ms(&self) -> i64 {
        START_BOOT_MS + self.since_start_ms
    }

    pub fn due(&self) -> Option<i64> {
        self.due
    }

    pub fn pass(&mut self, ms: i64) {
        self.since_start_ms += ms.max(0);
    }

    pub fn view(&mut self) -> View<Say> {
        let now = self.now();
        domain::view(&self.state, now)
    }

    pub fn is_in_check(&self) -> bool {
        matches!(self.state.screen, Screen::Check { .. })
    }

    /// Time itself acts.
    pub fn time_passed(&mut self) -> Result<(), Refusal> {
        let sent = Sent {
            card: self.state.card,
            command: Command::TimePassed,
            values: BTreeMap::new(),
            stood_ms: None,
        };
        self.take(&sent)
    }

    pub fn take(&mut self, sent: &Sent) -> Result<(), Refusal> {
        let now = self.now();
        let events = domain::decide(&self.state, sent, now)?;
        self.apply(&events);
        Ok(())
    }

    /// The record of the check, once it has ended with one.
    pub fn record(&self) -> Option<&Record> {
        self.state.wire(BED, WIRE)?.records.get(self.records_before..)?.last()
    }

    fn records(&self) -> usize {
        self.state.wire(BED, WIRE).map_or(0, |wire| wire.records.len())
    }

    fn command(&mut self, command: Command, values: &[(&str, &str)]) -> Result<(), Refusal> {
        self.pass(BETWEEN_TAPS_MS);
        let values = values.iter().map(|(field, value)| ((*field).to_owned(), (*value).to_owned())).collect();
        let sent = Sent { card: self.state.card, command, values, stood_ms: None };
        self.take(&sent)
    }

    fn apply(&mut self, events: &[Event]) {
        events.iter().for_each(|event| domain::apply_to(&mut self.state, event));
        self.due = domain::due(&self.state);
    }

    fn now(&mut self) -> Moment {
        let mut fresh = [0; 16];
        fresh[..8].copy_from_slice(&self.chance.next_u64().to_be_bytes());
        fresh[8..].copy_from_slice(&self.chance.next_u64().to_be_bytes());
        let wall_ms = START_WALL_MS + self.since_start_ms;
        Moment { wall_ms, offset_min: 60, boot_ms: self.boot_ms(), boot: 1, fresh }
    }
}
