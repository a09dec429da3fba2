//! Screens of codes between tablets: made, loaded, refused, taken in, set beside the dials. All of it invented.

use domain::State;
use domain::command::Command;
use domain::handover::arrived::{Arrived, NotLoaded};
use domain::handover::tablet::KeyLost;
use domain::record::Record;
use domain::rules::Rules;
use domain::state::screen::Screen;
use handover::Here;
use seal::TabletKey;

use super::screens::{Named, named, refused, show};
use super::ward::{checked, longest};
use super::worlds::{CARD, LABEL, NAME, add_bed, add_wire, at, on, tablet, tell};

const LONG_READING: [(&str, &str); 3] = [("output", "0.95"), ("rate", "48"), ("mv", "14")];

fn key(seed: u8) -> TabletKey {
    TabletKey::from_seed(&[seed; 32])
}

/// This tablet, with its own key.
fn here() -> State {
    let state = tablet(Rules::example(), domain::profile::shipped().unwrap());
    let state = add_wire(add_bed(state, LABEL), 1, "ventricle", "example-mixed-current");
    keyed(state)
}

fn keyed(state: State) -> State {
    tell(state, Command::KeyFound(handover::tablet_of(&key(1).public())), &[], at(0))
}

/// The code card, opened and signed.
pub fn signed(state: State, screen: Screen) -> State {
    let state = tell(keyed(state), Command::Go(Screen::Code { bed: 1, wire: 1 }), &[], at(0));
    let code = Box::new(handover::made(&state.beds[0].wires[0], &key(1), at(0)).unwrap());
    let state = tell(state, Command::CodeMade { bed: 1, wire: 1, code }, &[], at(0));
    on(state, screen)
}

/// Minute of the card.
const NOW: u32 = 29_925_880;
const DAY: u32 = 1_440;

/// A code of the tablet with this key, written two days before the card.
fn code(records: &[Record], seed: u8) -> String {
    let other = checked(&[longest(records), longest(records)]);
    let code = handover::made(&other.beds[0].wires[0], &key(seed), at(-2_880 * 60_000)).unwrap();
    code.lines.unwrap()
}

fn read(state: &State, code: &str, now: u32) -> Result<Vec<Arrived>, NotLoaded> {
    handover::from_text(code, &Here::of(state), now)
}

/// What another tablet's code says here, two days later.
fn arriving(records: &[Record]) -> Vec<Arrived> {
    read(&here(), &code(records, 2), NOW + 2 * DAY).unwrap()
}

/// This tablet's own code, come back to it.
fn own(records: &[Record]) -> State {
    loaded(None, read(&here(), &code(records, 1), NOW))
}

/// By a clock that is a day ahead of this one's.
fn ahead(records: &[Record]) -> State {
    loaded(None, read(&here(), &code(records, 2), NOW - 3 * DAY))
}

/// The same code once more, after its tablet was named and the check taken in.
fn again(records: &[Record]) -> State {
    let state = on(named_one(records), Screen::TakeIn { at: 0 });
    let generator = longest(records).generator;
    let values = [("label", "Bay 7"), ("generator", generator.as_str())];
    let state = on(tell(state, Command::TakeIn { at: 0 }, &values, at(0)), Screen::Load { bed: Some(2) });
    let known = read(&state, &code(records, 2), NOW);
    let typed = [("code", "HOLDFAST 1 en: ")];
    let state = tell(state, Command::LoadTyped { bed: Some(2) }, &typed, at(0));
    let load = state.loading.as_ref().unwrap().id;
    State { card: CARD, ..tell(state, Command::CodeRead { load, outcome: known }, &[], at(0)) }
}

fn named_one(records: &[Record]) -> State {
    let state = on(loaded(None, Ok(arriving(records))), Screen::NameTablet { at: 0 });
    tell(state, Command::NameTablet { at: 0 }, &[("name", NAME)], at(0))
}

fn loading(bed: Option<u32>) -> State {
    let state = on(here(), Screen::Load { bed });
    tell(state, Command::LoadTyped { bed }, &[("code", "HOLDFAST 1 en: ")], at(0))
}

fn loading_picture() -> State {
    tell(on(here(), Screen::Load { bed: None }), Command::PictureHandedIn { bytes: 9 }, &[], at(0))
}

fn loaded(bed: Option<u32>, outcome: Result<Vec<Arrived>, NotLoaded>) -> State {
    let state = loading(bed);
    let load = state.loading.as_ref().unwrap().id;
    State { card: CARD, ..tell(state, Command::CodeRead { load, outcome }, &[], at(0)) }
}

pub fn taken(records: &[Record]) -> State {
    let state = loaded(None, Ok(arriving(records)));
    let generator = longest(records).generator;
    let values = [("label", "Bay 7"), ("generator", generator.as_str())];
    tell(state, Command::TakeIn { at: 0 }, &values, at(0))
}

fn compared(records: &[Record]) -> State {
    let state = taken(records);
    let profile = state.generator(&longest(records).generator).unwrap();
    let (least, slow) = (profile.output_text(0).to_owned(), profile.rate_text(0).to_owned());
    let number = profile.mv_text(profile.mv_last()).to_owned();
    let values = [("output", least.as_str()), ("rate", slow.as_str()), ("mv", number.as_str())];
    tell(state, Command::CompareDials { bed: 2, wire: 1 }, &values, at(0))
}

/// Every reason why nothing is taken.
const REFUSED: [(&str, NotLoaded); 13] = [
    ("not-a-code", NotLoaded::NotACode),
    ("too-long", NotLoaded::TooLong),
    ("damaged", NotLoaded::Damaged),
    ("mangled", NotLoaded::Mangled),
    ("altered", NotLoaded::Altered),
    ("newer", NotLoaded::NewerVersion),
    ("practice", NotLoaded::Practice),
    ("care", NotLoaded::Care),
    ("not-a-picture", NotLoaded::NotAPicture),
    ("picture-too-large", NotLoaded::PictureTooLarge { megapixels: 100 }),
    ("picture-too-long", NotLoaded::PictureTooLong),
    ("no-code", NotLoaded::NoCodeInPicture),
    ("interrupted", NotLoaded::Interrupted),
];

pub fn handed(records: &[Record]) -> Named {
    let mut all = codes(records);
    all.extend(arrivals(records));
    all.extend(tablets(records));
    for (why, refused) in REFUSED {
        let view = show(loaded(None, Err(refused)), Screen::Load { bed: None });
        all.extend(named([(format!("load-{why}").as_str(), view)]));
    }
    all
}

fn codes(records: &[Record]) -> Named {
    let one = || checked(&[longest(records), longest(records)]);
    let code = Screen::Code { bed: 1, wire: 1 };
    let copy = Screen::CodeCopy { bed: 1, wire: 1 };
    let mut keyless = one();
    keyless.own_key.lost = Some(KeyLost::Gone);
    named([
        ("code", show(signed(one(), code), code)),
        ("code-copy", show(signed(one(), copy), copy)),
        ("code-being-made", show(keyed(one()), code)),
        ("code-no-key", show(keyless, code)),
    ])
}

fn arrivals(records: &[Record]) -> Named {
    let from_list = || loaded(None, Ok(arriving(records)));
    let from_bed = || loaded(Some(1), Ok(arriving(records)));
    let two = || loaded(None, Ok([arriving(records), arriving(records)].concat()));
    let compare = Screen::Compare { bed: 2, wire: 1 };
    named([
        ("load", show(here(), Screen::Load { bed: Some(1) })),
        ("reading", show(loading(None), Screen::Reading)),
        ("reading-picture", show(loading_picture(), Screen::Reading)),
        ("arrived", show(from_list(), Screen::Arrived { at: 0 })),
        ("arrived-again", show(again(records), Screen::Arrived { at: 0 })),
        ("arrived-own", show(own(records), Screen::Arrived { at: 0 })),
        ("arrived-ahead", show(ahead(records), Screen::Arrived { at: 0 })),
        ("arrived-list", show(two(), Screen::ArrivedList)),
        ("take-in", show(from_list(), Screen::TakeIn { at: 0 })),
        ("take-in-bed", show(from_bed(), Screen::TakeIn { at: 0 })),
        (
            "take-in-nothing",
            refused(on(from_list(), Screen::TakeIn { at: 0 }), &Command::TakeIn { at: 0 }, &[]),
        ),
        ("compare", show(taken(records), compare)),
        (
            "compare-wrong",
            refused(
                on(taken(records), compare),
                &Command::CompareDials { bed: 2, wire: 1 },
                &LONG_READING[1..],
            ),
        ),
        ("compared", show(compared(records), Screen::Compared { bed: 2, wire: 1 })),
        ("bed-handed", show(taken(records), Screen::Bed { bed: 2 })),
        ("bed-compared", show(compared(records), Screen::Bed { bed: 2 })),
        ("history-handed", show(taken(records), Screen::History { bed: 2, wire: 1 })),
        ("name-tablet", show(from_list(), Screen::NameTablet { at: 0 })),
    ])
}

fn tablets(records: &[Record]) -> Named {
    let mut gone = here();
    gone.own_key.lost = Some(KeyLost::Damaged);
    named([
        ("tablets", show(named_one(records), Screen::Tablets)),
        ("tablets-none", show(here(), Screen::Tablets)),
        ("tablets-no-key", show(gone, Screen::Tablets)),
        ("tablet", show(named_one(records), Screen::Tablet { at: 0 })),
    ])
}
