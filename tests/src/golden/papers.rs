//! Screens of a unit's own rules and generators, and what is done with a bed outside a check.

use domain::State;
use domain::command::Command;
use domain::library::{HandedIn, Offered, Paper};
use domain::record::Record;
use domain::rules::Rules;
use domain::state::screen::Screen;

use super::screens::{Named, named, refused, show};
use super::ward::ward;
use super::worlds::{approved, on, tablet};
use crate::shipped_by_id;

/// Cut off in the middle.
const HALF_A_FILE: &[u8] = b"{ \"id\": ";

fn example() -> State {
    tablet(Rules::example(), domain::profile::shipped().unwrap())
}

fn offering(offered: Offered) -> State {
    State { offered: Some(offered), ..example() }
}

fn offered_rules() -> State {
    offering(Offered::Rules { rules: Box::new(approved()), hash: hash() })
}

fn offered_generator() -> State {
    let mut profile = shipped_by_id("example-mixed-current");
    "unit-keys".clone_into(&mut profile.id);
    "Keys with mixed mA steps and a switch, ward 3 (invented)".clone_into(&mut profile.name);
    offering(Offered::Generator { profile: Box::new(profile), hash: hash() })
}

fn hash() -> String {
    "0123456789abcdef".repeat(4)
}

pub fn papers() -> Named {
    let handed = |paper, bytes| Command::HandedIn(HandedIn::new(paper, bytes));
    named([
        ("new-rules", show(example(), Screen::NewRules)),
        (
            "new-rules-broken",
            refused(on(example(), Screen::NewRules), &handed(Paper::Rules, HALF_A_FILE), &[]),
        ),
        ("offered-rules", show(offered_rules(), Screen::OfferedRules)),
        ("approve-rules", show(offered_rules(), Screen::Approve)),
        ("approve-nothing", refused(on(offered_rules(), Screen::Approve), &Command::ApproveOffered, &[])),
        ("generators", show(example(), Screen::Generators)),
        ("generator", show(example(), Screen::Generator { at: 2 })),
        ("new-generator", show(example(), Screen::NewGenerator)),
        (
            "new-generator-broken",
            refused(on(example(), Screen::NewGenerator), &handed(Paper::Generator, HALF_A_FILE), &[]),
        ),
        ("offered-generator", show(offered_generator(), Screen::OfferedGenerator)),
        ("approve-generator", show(offered_generator(), Screen::Approve)),
    ])
}

/// Bed 1 has a history, bed 2 two wires, bed 3 a reading owed.
pub fn wards(records: &[Record]) -> Named {
    let state = || ward(records);
    let owed = Screen::ReadOwed { bed: 3, wire: 1 };
    let nothing_read = Command::ReadOwed { bed: 3, wire: 1 };
    named([
        ("bed-more", show(state(), Screen::BedMore { bed: 2 })),
        ("happened", show(state(), Screen::Happened { bed: 1 })),
        ("wire-out", show(state(), Screen::WireOut { bed: 2 })),
        ("empty-bed", show(state(), Screen::EmptyBed { bed: 1 })),
        ("plug", show(state(), Screen::Plug { bed: 1, wire: 1 })),
        ("read-owed", show(state(), owed)),
        ("read-owed-nothing", refused(on(state(), owed), &nothing_read, &[])),
    ])
}
