//! Two tablets that look after one patient give each other copies, in any order, some twice, some late.

use std::collections::BTreeMap;

use domain::command::Command;
use domain::contract::Sent;
use domain::handover::arrived::{Arrived, Remark};
use domain::handover::history;
use domain::moment::Moment;
use domain::state::screen::Screen;
use domain::{State, apply, decide};
use handover::{Here, NoSummary, Summary};
use proptest::prelude::*;
use seal::TabletKey;

use crate::made::ENDED;
use crate::records::{at, record, wire};

struct Tablet {
    state: State,
    key: TabletKey,
}

impl Tablet {
    fn new(seed: u8) -> Tablet {
        let key = TabletKey::from_seed(&[seed; 32]);
        let state = State { generators: domain::profile::shipped().unwrap(), ..State::default() };
        let mut tablet = Tablet { state, key };
        let public = handover::tablet_of(&tablet.key.public());
        tablet.tell(Command::KeyFound(public), &[], at(0));
        tablet.tell(Command::AddBed, &[("label", "Bay 2 (invented)")], at(0));
        let wire = wire(Vec::new());
        let values = [
            ("chamber", "ventricle"),
            ("kind", "epicardial"),
            ("polarity", "bipolar"),
            ("generator", wire.generator.as_str()),
        ];
        tablet.tell(Command::AddWire { bed: 1 }, &values, at(0));
        tablet
    }

    fn tell(&mut self, command: Command, values: &[(&str, &str)], now: Moment) {
        let values: BTreeMap<_, _> = values.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
        self.state.card_at = None;
        let sent = Sent { card: self.state.card, command, values, stood_ms: None };
        let events = decide(&self.state, &sent, now).unwrap_or_else(|no| panic!("{sent:?}: {no:?}"));
        self.state = events.iter().fold(self.state.clone(), apply);
    }

    /// A check, and the copy that its end hands over.
    fn checks(&mut self, number: u32) -> String {
        self.checks_at(number, i64::from(number) * 60)
    }

    fn checks_at(&mut self, number: u32, minute: i64) -> String {
        let mut done = record(minute);
        done.id = uuid::Uuid::from_u128(u128::from(number) << 96);
        let wire = self.state.wire_mut(1, 1).unwrap();
        wire.records.push(done);
        handover::made(wire, &self.key, at(minute + 5)).unwrap().copy.unwrap()
    }

    fn takes(&mut self, code: &str) {
        self.takes_at(code, 100_000);
    }

    /// What it said on its card.
    fn takes_at(&mut self, code: &str, minute: u32) -> Arrived {
        let now = at(minute.into());
        self.tell(Command::Go(Screen::Load { bed: Some(1) }), &[], now);
        self.tell(Command::LoadTyped { bed: Some(1) }, &[("code", code)], now);
        let load = self.state.loading.as_ref().unwrap().id;
        let outcome = handover::from_text(code, &Here::of(&self.state), ENDED + minute);
        self.tell(Command::CodeRead { load, outcome }, &[], now);
        let said = self.state.loading.as_ref().unwrap().arrived()[0].clone();
        let generator = self.state.beds[0].wires[0].generator.clone();
        let values = [("patient", "same"), ("generator", generator.as_str())];
        self.tell(Command::TakeIn { at: 0 }, &values, now);
        said
    }

    fn hands_over(&self) -> Result<uuid::Uuid, NoSummary> {
        Summary::last(&self.state.beds[0].wires[0]).map(|last| last.id)
    }

    fn knows(&self) -> Vec<history::HandedCheck> {
        history::all(&self.state, &self.state.beds[0].wires[0])
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]
    #[test]
    fn end_with_the_same_history(
        by_first in proptest::collection::vec(any::<bool>(), 1..8),
        order in Just((0..16_usize).collect::<Vec<_>>()).prop_shuffle(),
        twice in proptest::collection::vec(0..8_usize, 0..4),
    ) {
        let (mut first, mut second) = (Tablet::new(1), Tablet::new(2));
        let mut copies = Vec::new();
        for (number, by_first) in (1..).zip(&by_first) {
            let tablet = if *by_first { &mut first } else { &mut second };
            copies.push((*by_first, tablet.checks(number)));
        }
        for at in order.into_iter().chain(twice) {
            match copies.get(at) {
                Some((true, copy)) => second.takes(copy),
                Some((false, copy)) => first.takes(copy),
                None => {}
            }
        }
        prop_assert_eq!(first.knows().len(), by_first.len());
        prop_assert_eq!(first.knows(), second.knows());
    }
}

/// Without somebody's word the bed's label joins nothing.
#[test]
fn a_label_alone_joins_no_two_histories() {
    let (mut first, mut second) = (Tablet::new(1), Tablet::new(2));
    let code = first.checks(1);
    second.checks(2);
    second.tell(Command::Go(Screen::Load { bed: None }), &[], at(500));
    second.tell(Command::LoadTyped { bed: None }, &[("code", &code)], at(500));
    let load = second.state.loading.as_ref().unwrap().id;
    let outcome = handover::from_text(&code, &Here::of(&second.state), ENDED + 500);
    second.tell(Command::CodeRead { load, outcome }, &[], at(500));
    let values = [("label", "Bay 2 (invented)"), ("generator", "example-fine-current")];
    let values: BTreeMap<_, _> = values.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    let sent = Sent { card: second.state.card, command: Command::TakeIn { at: 0 }, values, stood_ms: None };
    second.state.card_at = None;
    assert!(decide(&second.state, &sent, at(501)).is_err());
    let new =
        Sent { values: sent.values.into_iter().chain([("patient".into(), "new".into())]).collect(), ..sent };
    let events = decide(&second.state, &new, at(502)).unwrap();
    let after = events.iter().fold(second.state, apply);
    assert!(after.beds[0].wires.iter().all(|wire| wire.records.is_empty()), "a new patient starts empty");
    assert_eq!(after.beds[0].wires[0].handed.len(), 1);
    assert_eq!(after.screen, Screen::Compare { bed: 1, wire: 1 });
}

/// The other tablet's clock is right, or a day ahead or behind. Done again here, the check is this tablet's; the code
/// shown once more afterwards is told to be here, and is no newer for it.
#[test]
fn what_comes_is_newer_than_what_was_here_and_older_than_what_is_done_here_afterwards() {
    for apart in [-1_440, 0, 1_440] {
        let (mut first, mut second) = (Tablet::new(1), Tablet::new(2));
        second.checks(1);
        let code = first.checks_at(2, 120 + apart);
        let said = second.takes_at(&code, 130);
        let is_here = |said: &Arrived| said.remarks.contains(&Remark::Duplicate);
        assert!(!is_here(&said), "{said:?}");
        assert_eq!(second.hands_over(), Err(NoSummary::HandedOverSince), "{apart}");
        second.checks(3);
        let own = second.hands_over().expect("a check was done here since");
        let said = second.takes_at(&code, 200);
        assert!(is_here(&said), "{said:?}");
        assert_eq!(second.hands_over(), Ok(own), "{apart}");
    }
}

/// A code of this tablet that comes back to it.
#[test]
fn its_own_code_is_here_already_and_takes_nothing_from_it() {
    let mut tablet = Tablet::new(1);
    let code = tablet.checks(1);
    let own = tablet.hands_over();
    let said = tablet.takes_at(&code, 90);
    assert!(said.remarks.contains(&Remark::Duplicate), "{said:?}");
    assert_eq!(tablet.hands_over(), own);
    assert_eq!(tablet.knows().len(), 1);
}

/// Named by somebody here, it is called that from then on.
#[test]
fn a_tablet_that_was_named_is_known_the_next_time() {
    let (mut first, mut second) = (Tablet::new(1), Tablet::new(2));
    let said = second.takes_at(&first.checks(1), 70);
    assert_eq!((said.name.as_deref(), said.remarks.contains(&Remark::UnknownTablet)), (None, true));
    let code = first.checks(2);
    second.tell(Command::Go(Screen::Load { bed: Some(1) }), &[], at(130));
    second.tell(Command::LoadTyped { bed: Some(1) }, &[("code", &code)], at(130));
    let load = second.state.loading.as_ref().unwrap().id;
    let outcome = handover::from_text(&code, &Here::of(&second.state), ENDED + 130);
    second.tell(Command::CodeRead { load, outcome }, &[], at(130));
    second.tell(Command::Go(Screen::NameTablet { at: 0 }), &[], at(130));
    second.tell(Command::NameTablet { at: 0 }, &[("name", "Ward 2 (invented)")], at(130));
    let said = second.takes_at(&code, 131);
    assert_eq!(said.name.as_deref(), Some("Ward 2 (invented)"));
    assert!(!said.remarks.contains(&Remark::UnknownTablet), "{said:?}");
}
