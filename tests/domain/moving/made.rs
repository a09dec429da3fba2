//! A tablet with one wire, or two in one box, and two kinds of box. All of it invented.

use std::collections::BTreeMap;

use domain::check::facts::{Dials, Found};
use domain::command::Command;
use domain::contract::{Sent, Shape};
use domain::event::What;
use domain::handover::history::Arrival;
use domain::handover::stamp::Place;
use domain::handover::summary::{Check, Next};
use domain::handover::tablet::Tablet;
use domain::moment::Moment;
use domain::profile::shipped;
use domain::rules::Rules;
use domain::say::Say;
use domain::state::bed::Names;
use domain::state::screen::Screen;
use domain::swap::answer::Answer;
use domain::swap::facts::{Facts, Work};
use domain::{Event, Refusal, State, apply, decide, view};

pub const BED: u32 = 1;
pub const WIRE: u32 = 1;
/// An atrial wire, where the old box paces it too.
pub const OTHER: u32 = 2;

pub fn at(ms: i64) -> Moment {
    Moment {
        wall_ms: 1_795_552_800_000 + ms,
        offset_min: 60,
        boot_ms: 900_000_000 + ms,
        boot: 7,
        fresh: [9; 16],
    }
}

/// One swap to walk: the box that paces, as found, and the one that may take over.
#[derive(Clone, Copy, Debug)]
pub struct World {
    pub work: Work,
    pub old: &'static str,
    pub new: &'static str,
    pub found: [&'static str; 3],
    /// An atrial wire is in the bed too, on the same generator.
    pub two_wires: bool,
}

pub const WORLDS: [World; 6] = [
    World {
        work: Work::Box,
        old: "example-coarse-current",
        new: "example-mixed-current",
        found: ["6", "80", "3"],
        two_wires: false,
    },
    World {
        work: Work::Box,
        old: "example-fine-current",
        new: "example-fine-current",
        found: ["6.0", "80", "2.0"],
        two_wires: false,
    },
    World {
        work: Work::Box,
        old: "example-fine-current",
        new: "example-volts",
        found: ["6.0", "80", "2.0"],
        two_wires: false,
    },
    World {
        work: Work::Box,
        old: "example-coarse-current",
        new: "example-volts",
        found: ["6", "80", "asynchronous"],
        two_wires: false,
    },
    World {
        work: Work::Battery,
        old: "example-mixed-current",
        new: "example-coarse-current",
        found: ["3.8", "80", "5.0"],
        two_wires: false,
    },
    World {
        work: Work::Battery,
        old: "example-volts",
        new: "example-volts",
        found: ["3.5", "80", "2.0"],
        two_wires: false,
    },
];

/// A bed with wires on these generators, of all that the tablet knows.
fn bed_with(generators: &[&str], all: &[&str]) -> State {
    let what = What::LibraryAdopted {
        rules: Box::new(Rules::example()),
        generators: shipped().unwrap().into_iter().filter(|one| all.contains(&one.id.as_str())).collect(),
        hash: "walk".to_owned(),
    };
    let state = apply(State::default(), &Event { at: at(0), what });
    let state = tell(&state, Command::AddBed, &[("label", "Bay 2")], at(0));
    generators.iter().fold(state, |state, generator| {
        let wire = [
            ("chamber", "ventricle"),
            ("kind", "epicardial"),
            ("polarity", "bipolar"),
            ("generator", *generator),
        ];
        tell(&state, Command::AddWire { bed: BED }, &wire, at(0))
    })
}

pub fn with_atrial_wire(state: &State, generator: &str) -> State {
    let wire =
        [("chamber", "atrium"), ("kind", "epicardial"), ("polarity", "bipolar"), ("generator", generator)];
    tell(state, Command::AddWire { bed: BED }, &wire, at(0))
}

/// So many wires, never checked.
pub fn ward(wires: u8) -> State {
    bed_with(
        &["example-fine-current", "example-fine-current"][..usize::from(wires)],
        &["example-fine-current"],
    )
}

/// One wire whose last check found 1.2 mA and 5.0 mV, and left 3.6, 80, 2.0.
pub fn checked_ward() -> State {
    let mut state = ward(1);
    let profile = state.generator("example-fine-current").unwrap().clone();
    let mut facts = domain::check::facts::Facts::new(domain::check::step::Step::Done);
    let stands = Dials {
        output: profile.read_output("3.6").unwrap(),
        rate: profile.read_rate("80").unwrap(),
        mv: profile.read_mv("2.0").unwrap(),
    };
    (facts.found, facts.stand, facts.touched, facts.set) = (stands, stands, true, 3);
    (facts.sensing, facts.sensing_at) = (Found::Exact, profile.read_mv("5.0").unwrap());
    (facts.capture, facts.capture_at) = (Found::Exact, profile.read_output("1.2").unwrap());
    let opened = tell(&state, Command::Begin { bed: BED, wire: WIRE }, &[], at(-600_000));
    let open = opened.wire(BED, WIRE).unwrap().check.clone().unwrap();
    let wire = opened.wire(BED, WIRE).unwrap();
    let names = Names { not_read: false, ..Names::default() };
    let record = domain::ending::record(&opened, wire, &open, &facts, &names, at(-300_000)).unwrap();
    state.wire_mut(BED, WIRE).unwrap().records.push(record);
    state
}

/// The same check, made by another tablet and handed over; its dials not compared yet.
pub fn handed_ward() -> State {
    let mut state = checked_ward();
    let wire = state.wire_mut(BED, WIRE).unwrap();
    let record = wire.records.pop().unwrap();
    wire.arrival = Some(Arrival {
        tablet: Tablet::of_key(&[7; 32]),
        name: None,
        place: Place::new(60).unwrap(),
        newest: Check::of(&record).unwrap(),
        next: Next::Now,
        at: at(-120_000),
        first: Some(at(-120_000)),
        compared: None,
    });
    state
}

/// Handed over, and one dial of it compared and found elsewhere, just now.
pub fn compared_ward() -> State {
    let dials = [("output", "3.0"), ("rate", "80"), ("mv", "2.0")];
    tell(&handed_ward(), Command::CompareDials { bed: BED, wire: WIRE }, &dials, at(-60_000))
}

impl World {
    pub fn of_two(self) -> World {
        World { two_wires: true, ..self }
    }

    /// On the first card of the swap.
    pub fn begun(&self) -> State {
        let state = bed_with(&[self.old], &[self.old, self.new]);
        let state = if self.two_wires { with_atrial_wire(&state, self.old) } else { state };
        tell(&state, Command::BeginSwap { bed: BED, wire: WIRE, work: self.work }, &[], at(0))
    }
}

/// What the history of the wire says: each row with its note.
pub fn history(state: &State) -> Vec<(Say, Option<Say>)> {
    let shown = State { screen: Screen::History { bed: BED, wire: WIRE }, ..state.clone() };
    match view(&shown, at(3_600_000)).shape {
        Shape::Chart(trend) => trend.rows.into_iter().map(|row| (row.value, row.note)).collect(),
        other => panic!("no history: {other:?}"),
    }
}

pub fn facts(state: &State) -> Option<Facts> {
    state.wire(BED, WIRE)?.swap.as_ref().map(|open| open.facts)
}

pub fn before(state: &State) -> Option<Facts> {
    state.wire(BED, WIRE)?.swap.as_ref()?.before
}

pub fn send(state: &State, command: Command, values: &[(&str, &str)], now: Moment) -> Result<State, Refusal> {
    let values: BTreeMap<_, _> = values.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    let sent = Sent { card: state.card, command, values, stood_ms: None };
    // A copy only where something follows: the walks try far more than is taken.
    let events = if state.card_at.is_some() || state.good_at.is_some() {
        decide(&calm(state), &sent, now)?
    } else {
        decide(state, &sent, now)?
    };
    let next = events.iter().fold(state.clone(), apply);
    Ok(State { card_at: None, good_at: None, ..next })
}

/// No half of a double tap.
fn calm(state: &State) -> State {
    State { card_at: None, good_at: None, ..state.clone() }
}

pub fn tell(state: &State, command: Command, values: &[(&str, &str)], now: Moment) -> State {
    send(state, command.clone(), values, now).unwrap_or_else(|refusal| panic!("{command:?}: {refusal:?}"))
}

/// Every answer without a figure of its own.
pub const TAPS: [Answer; 28] = [
    Answer::NoBeats,
    Answer::Stop,
    Answer::Wrong,
    Answer::Slip,
    Answer::Yes,
    Answer::No,
    Answer::AllTrue,
    Answer::Stands,
    Answer::Back,
    Answer::Close,
    Answer::OtherBox,
    Answer::Paced,
    Answer::OnlyOwn,
    Answer::SpikesWithoutBeats,
    Answer::NoSpikesCame,
    Answer::EverySpikeMadeABeat,
    Answer::SpikeWithoutABeat,
    Answer::BeatsAgain,
    Answer::StillNoBeats,
    Answer::NoPulse,
    Answer::FastWide,
    Answer::ShockGiven,
    Answer::StandbyLost,
    Answer::PinsOld,
    Answer::PinsNew,
    Answer::PinsNeither,
    Answer::Picked,
    Answer::Time(domain::swap::answer::TimeUp::Watch),
];
