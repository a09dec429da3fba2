//! What is no card of a check: the first page, beds, forms, results, history, the code, settings, refusals.

use std::collections::BTreeMap;

use domain::command::Command;
use domain::contract::{Shape, View};
use domain::record::Record;
use domain::rules::Rules;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::{State, view};

use super::handed::handed;
use super::keeping::keeping;
use super::moving::moving;
use super::papers::{papers, wards};
use super::pick::{kebab, length};
use super::practising::practising;
use super::teaching::teaching;
use super::twice::twice;
use super::ward::{checked, ward};
use super::worlds::{self, LABEL, add_bed, add_wire, at, begun, on, tablet};

pub type Named = BTreeMap<String, View<Say>>;

/// Every screen, from a tablet on which these checks were done. `cards` lends dial cards for notices.
pub fn screens(records: &[Record], cards: &Named) -> Named {
    let mut named = Named::new();
    named.extend(pages());
    named.extend(papers());
    named.extend(wards(records));
    named.extend(practising());
    named.extend(keeping(records));
    named.extend(moving(records));
    named.extend(twice(records));
    named.extend(beds(records));
    named.extend(results(records));
    named.extend(wire(records));
    named.extend(teaching(records));
    named.extend(handed(records));
    named.extend(notices(cards));
    named
}

pub fn show(state: State, screen: Screen) -> View<Say> {
    view(&on(state, screen), at(0))
}

pub fn named<const N: usize>(views: [(&str, View<Say>); N]) -> Named {
    views.into_iter().map(|(name, view)| (format!("screen-{name}"), view)).collect()
}

fn all_generators() -> Vec<domain::profile::Profile> {
    domain::profile::shipped().unwrap()
}

fn pages() -> Named {
    let example = || tablet(Rules::example(), all_generators());
    let one = || add_bed(example(), LABEL);
    named([
        ("welcome", show(example(), Screen::Welcome)),
        ("beds-empty", show(example(), Screen::Beds)),
        ("new-bed", show(example(), Screen::NewBed)),
        ("new-bed-again", refused(on(one(), Screen::NewBed), &Command::AddBed, &[("label", LABEL)])),
        ("bed-no-wire", show(one(), Screen::Bed { bed: 1 })),
        ("new-patient", show(one(), Screen::NewPatient { bed: 1 })),
        ("new-wire", show(one(), Screen::NewWire { bed: 1 })),
        (
            "new-wire-nothing",
            refused(on(one(), Screen::NewWire { bed: 1 }), &Command::AddWire { bed: 1 }, &[]),
        ),
        ("settings", show(example(), Screen::Settings)),
        ("rules-example", show(example(), Screen::Rules)),
        ("rules-approved", show(tablet(worlds::approved(), all_generators()), Screen::Rules)),
    ])
}

/// The screen with the sentence of a request that was not taken.
pub fn refused(state: State, command: &Command, values: &[(&str, &str)]) -> View<Say> {
    let values = values.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    let sent = domain::contract::Sent { card: state.card, command: command.clone(), values, stood_ms: None };
    let refusal = domain::decide(&state, &sent, at(1_000)).err().and_then(|refusal| refusal.say());
    assert!(refusal.is_some(), "{command:?} is taken");
    View { notice: refusal, ..view(&state, at(0)) }
}

fn beds(records: &[Record]) -> Named {
    let state = || ward(records);
    named([
        ("beds", show(state(), Screen::Beds)),
        ("beds-more", show(state(), Screen::MoreBeds { from: 10 })),
        ("bed", show(state(), Screen::Bed { bed: 1 })),
        ("bed-two-wires", show(state(), Screen::Bed { bed: 2 })),
        ("bed-not-read", show(state(), Screen::Bed { bed: 3 })),
        ("bed-not-checked", show(state(), Screen::Bed { bed: 4 })),
        ("bed-check-open", show(begun(state()), Screen::Bed { bed: 1 })),
    ])
}

/// Of each headline the longest result, and the one with most flags.
fn results(records: &[Record]) -> Named {
    let mut longest: BTreeMap<String, (usize, View<Say>)> = BTreeMap::new();
    for record in records {
        let view = show(checked(std::slice::from_ref(record)), Screen::Result { bed: 1, wire: 1, back: 0 });
        let Shape::Result(outcome) = &view.shape else { continue };
        let headline = kebab(outcome.headline.name());
        let rank = [(headline.clone(), length(&view)), (format!("{headline}-flags"), outcome.flags.len())];
        for (name, size) in rank {
            if longest.get(&name).is_none_or(|(known, _)| size > *known) {
                longest.insert(name, (size, view.clone()));
            }
        }
    }
    let same = |name: &String, view: &View<Say>| {
        name.strip_suffix("-flags").and_then(|plain| longest.get(plain)).is_some_and(|plain| plain.1 == *view)
    };
    let kept = longest.iter().filter(|(name, (_, view))| !same(name, view));
    kept.map(|(name, (_, view))| (format!("screen-{name}"), view.clone())).collect()
}

fn wire(records: &[Record]) -> Named {
    let many = || ward(records);
    let never =
        || add_wire(add_bed(tablet(Rules::example(), all_generators()), LABEL), 1, "atrium", "example-volts");
    let history = Screen::History { bed: 1, wire: 1 };
    let code = Screen::Code { bed: 1, wire: 1 };
    named([
        ("result-earlier", show(many(), Screen::Result { bed: 1, wire: 1, back: 2 })),
        ("history-empty", show(never(), history)),
        ("history", show(many(), history)),
        ("code-nothing", show(never(), code)),
        ("code-check-open", show(begun(never()), code)),
    ])
}

/// What the session may say on any card: the longest of it on the cards that can least spare room.
fn notices(cards: &Named) -> Named {
    let crowded = ["capture-down-open", "set-output-open", "restore", "emergency", "read-found", "slip"];
    let noticed = |name: &&str| {
        let view = cards.get(*name).unwrap_or_else(|| panic!("no card {name}"));
        (format!("notice-{name}"), View { notice: Some(Say::RecordDiskFull), ..view.clone() })
    };
    crowded.iter().map(noticed).collect()
}
