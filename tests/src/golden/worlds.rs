//! Tablets to start from: a bed, a wire, a generator, a unit's rules. All of it invented.

use std::collections::BTreeMap;

use domain::check::facts::Found;
use domain::command::Command;
use domain::contract::Sent;
use domain::event::What;
use domain::moment::Moment;
use domain::profile::Profile;
use domain::record::Record;
use domain::rules::Rules;
use domain::state::screen::Screen;
use domain::{Event, State, apply, decide};

use super::search::search;
use super::ward::aged;
use crate::shipped_by_id;

/// 24 characters, most of them wide.
pub const LABEL: &str = "WOMEN'S WARD, WINDOW 12M";
pub const NAME: &str = "Dr Wilhelmina Mommsen-Wymark, anaesthesia (invented)";
pub const REASON: &str =
    "The patient is on the way to imaging and the generator is under the drapes (invented)";
const HALF_A_DAY_MS: i64 = 12 * 3_600_000;
/// The same card everywhere, so that a file changes only when the card does.
pub const CARD: u32 = 7;
/// 2026-11-24 21:40 in a place one hour east.
const EVENING_MS: i64 = 1_795_552_800_000;
const BOOT_MS: i64 = 900_000_000;

/// The instant this many milliseconds into the story.
pub fn at(ms: i64) -> Moment {
    Moment { wall_ms: EVENING_MS + ms, offset_min: 60, boot_ms: BOOT_MS + ms, boot: 7, fresh: [9; 16] }
}

/// What a person finds on the dials, as printed; "asynchronous" for the switch or position.
pub type Printed = (&'static str, &'static str, &'static str);

/// One place to search from.
pub struct World {
    /// On the bed list, one bed with one wire.
    pub state: State,
    pub found: Vec<Printed>,
}

/// As a session would: the moment's command, its events, the state after.
pub fn tell(state: State, command: Command, values: &[(&str, &str)], now: Moment) -> State {
    let values: BTreeMap<_, _> = values.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    let sent = Sent { card: state.card, command, values, stood_ms: None };
    let state = State { card_at: None, good_at: None, ..state };
    let events = decide(&state, &sent, now).unwrap_or_else(|refusal| panic!("{sent:?}: {refusal:?}"));
    events.iter().fold(state, apply)
}

/// A tablet with these rules and generators, past its first page.
pub fn tablet(rules: Rules, generators: Vec<Profile>) -> State {
    let what = What::LibraryAdopted { rules: Box::new(rules), generators, hash: "golden".to_owned() };
    let adopted = apply(State::default(), &Event { at: at(0), what });
    tell(adopted, Command::Welcomed, &[], at(0))
}

pub fn add_bed(state: State, label: &str) -> State {
    tell(state, Command::AddBed, &[("label", label)], at(0))
}

pub fn add_wire(state: State, bed: u32, chamber: &str, generator: &str) -> State {
    let kind = if chamber == "atrium" { "epicardial" } else { "transvenous" };
    let values = [("chamber", chamber), ("kind", kind), ("polarity", "bipolar"), ("generator", generator)];
    tell(state, Command::AddWire { bed }, &values, at(0))
}

fn world(rules: Rules, chamber: &str, generator_id: &str, found: &[Printed]) -> World {
    let tablet = add_bed(tablet(rules, vec![shipped_by_id(generator_id)]), LABEL);
    World { state: add_wire(tablet, 1, chamber, generator_id), found: found.to_vec() }
}

/// Approved by nobody that exists; a margin check, no second loss, and limits that no check passes.
pub fn approved() -> Rules {
    let mut text: serde_json::Value =
        serde_json::from_str(include_str!("../../../scenarios/rules/example.json")).unwrap();
    text["id"] = "golden-approved".into();
    text["example"] = false.into();
    text["margin_check"] = true.into();
    text["going_up"] = false.into();
    text["sensing_rule"] = "half".into();
    text["output_rule"] = serde_json::json!({ "name": "double plus 1 mA" });
    text["capture_limit_mA"] = "25.0".into();
    text["signal_limit_ventricle_mV"] = "0.5".into();
    text["approval"] = serde_json::json!({
        "by": "Dr W. Mommsen (invented)", "on": "2026-10-01",
        "document": "Pacing wires, version 3 (invented)", "review": "2027-10-01",
    });
    Rules::from_json(&text.to_string()).unwrap()
}

/// Both chambers, both units, asynchronous by position, by switch and not at all.
pub fn worlds() -> Vec<World> {
    let example = Rules::example;
    vec![
        world(
            example(),
            "ventricle",
            "example-mixed-current",
            &[("3.8", "80", "5.0"), ("22", "100", "asynchronous"), ("0.95", "48", "14")],
        ),
        with_history(world(
            example(),
            "ventricle",
            "example-coarse-current",
            &[("6", "80", "3"), ("18", "80", "asynchronous"), ("1.5", "60", "12"), ("6", "45", "3")],
        )),
        world(example(), "atrium", "example-fine-current", &[("10.5", "80", "2.0")]),
        world(example(), "ventricle", "example-volts", &[("14.0", "80", "2.0"), ("3.5", "80", "10.0")]),
        world(approved(), "ventricle", "example-coarse-current", &[("11", "80", "4"), ("18", "90", "1")]),
    ]
}

/// A whole check on record, half a day ago: the next asks for the same patient first, and compares.
fn with_history(mut world: World) -> World {
    let whole = |record: &Record| record.capture == Found::Exact && record.sensing == Found::Exact;
    let record = search(&world, |_| ()).records.into_iter().find(whole).unwrap();
    world.state.wire_mut(1, 1).unwrap().records = vec![aged(&record, HALF_A_DAY_MS)];
    world
}

/// The wire's check, begun.
pub fn begun(state: State) -> State {
    let state = tell(state, Command::Begin { bed: 1, wire: 1 }, &[], at(0));
    State { card: CARD, card_at: None, good_at: None, ..state }
}

pub fn on(state: State, screen: Screen) -> State {
    State { screen, card: CARD, card_at: None, good_at: None, ..state }
}
