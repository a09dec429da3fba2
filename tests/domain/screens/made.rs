//! Hand-made states: one generator of our own, invented beds, records as the domain itself makes them.

use domain::check::facts::{Dials, Facts, Found, Known, Marks, NONE, Own};
use domain::check::guard::Guards;
use domain::check::setup::Setup;
use domain::check::step::Step;
use domain::ending;
use domain::moment::Moment;
use domain::profile::{Profile, shipped};
use domain::record::Record;
use domain::rules::{Chamber, Rules};
use domain::state::State;
use domain::state::bed::{Bed, Names, OpenCheck, Polarity, Wire, WireKind};
use uuid::Uuid;

pub const MINUTE: i64 = 60_000;
pub const HOUR: i64 = 60 * MINUTE;
/// 2026-11-24 21:40 in a place one hour east.
pub const EVENING: i64 = 1_795_552_800_000;

pub fn at(minutes: i64) -> Moment {
    let ms = minutes * MINUTE;
    Moment { wall_ms: EVENING + ms, offset_min: 60, boot_ms: 900_000_000 + ms, boot: 7, fresh: [9; 16] }
}

/// Tenths of mA from 0.2, whole rates from 35, mV from 0.4 with asynchronous: "example-fine-current".
pub fn fine() -> Profile {
    profile("example-fine-current")
}

pub fn profile(id: &str) -> Profile {
    let all = shipped().expect("the shipped generators are sound");
    all.into_iter().find(|profile| profile.id == id).expect("a shipped generator")
}

pub fn output(profile: &Profile, printed: &str) -> u8 {
    profile.read_output(printed).expect("an output position")
}

pub fn mv(profile: &Profile, printed: &str) -> u8 {
    profile.read_mv(printed).expect("a number of the dial")
}

pub fn rate(profile: &Profile, printed: &str) -> u8 {
    profile.read_rate(printed).expect("a rate of the dial")
}

pub fn dials(profile: &Profile, output_: &str, rate_: &str, mv_: &str) -> Dials {
    Dials { output: output(profile, output_), rate: rate(profile, rate_), mv: mv(profile, mv_) }
}

/// A check that ended as it should: found 6.0 mA, threshold 1.2 going up, set 3.6; signal 5.0, set 2.0.
pub fn whole_check(profile: &Profile) -> Facts {
    let mut facts = Facts::new(Step::Done);
    facts.found = dials(profile, "6.0", "80", "2.0");
    facts.stand = dials(profile, "3.6", "80", "2.0");
    facts.touched = true;
    facts.own = Own::Shown;
    (facts.own_slowest, facts.own_fastest) = (52, 52);
    facts.found_sees = Known::Yes;
    facts.saw = mv(profile, "5.0");
    facts.sensing = Found::Exact;
    facts.sensing_at = mv(profile, "5.0");
    facts.capture = Found::Exact;
    facts.capture_at = output(profile, "1.2");
    facts.held_down = output(profile, "1.1");
    facts.found_captures = Known::Yes;
    facts.set = 3;
    facts
}

pub fn with_capture(profile: &Profile, kind: Found, printed: &str) -> Facts {
    let mut facts = whole_check(profile);
    facts.capture = kind;
    facts.capture_at = output(profile, printed);
    facts
}

pub fn with_signal(profile: &Profile, kind: Found, printed: &str) -> Facts {
    let mut facts = whole_check(profile);
    facts.sensing = kind;
    facts.sensing_at = mv(profile, printed);
    facts
}

pub fn marked(profile: &Profile, mark: Marks) -> Facts {
    let mut facts = whole_check(profile);
    facts.marks = facts.marks.and(mark);
    facts
}

pub fn state_with(profile: Profile) -> State {
    State { generators: vec![profile], welcomed: true, ..State::default() }
}

pub fn wire(id: u32, generator: &str) -> Wire {
    let (kind, polarity) = (WireKind::Epicardial, Polarity::Bipolar);
    Wire::new(id, Chamber::Ventricle, kind, polarity, generator.to_owned(), at(-2000))
}

pub fn bed(id: u32, label: &str, wires: Vec<Wire>) -> Bed {
    let next_wire = wires.len() as u32 + 1;
    Bed {
        id,
        label: label.to_owned(),
        patient: Uuid::from_bytes([id as u8; 16]),
        patient_since: at(-3000),
        wires,
        next_wire,
        left: Vec::new(),
        transport: None,
        transports: Vec::new(),
    }
}

pub fn open_check(facts: Facts, opened: Moment) -> OpenCheck {
    OpenCheck::new(Uuid::from_bytes([3; 16]), facts, opened)
}

pub fn record(state: &State, wire: &Wire, facts: Facts, names: &Names, ended: Moment) -> Record {
    let open = open_check(facts, ended);
    ending::record(state, wire, &open, &facts, names, ended).expect("the generator is known")
}

/// A wire of the first generator with these checks, one every twelve hours up to now.
pub fn wire_with(state: &State, id: u32, checks: &[Facts]) -> Wire {
    let generator = state.generators[0].id.clone();
    let mut made = wire(id, &generator);
    for (index, facts) in checks.iter().enumerate() {
        let before = (checks.len() - 1 - index) as i64;
        let next = record(state, &made, *facts, &Names::default(), at(-before * 720));
        made.records.push(next);
    }
    made
}

/// A dial with every position that a generator may have: 64 rates, 128 outputs, 64 numbers.
pub fn largest() -> Profile {
    let all = |from: u32, count: u32, of: u32| -> Vec<String> {
        (from..from + count).map(|n| format!("{}.{}", n / of, n % of)).collect()
    };
    let rates: Vec<String> = (30..94).map(|rate: u32| rate.to_string()).collect();
    let file = serde_json::json!({
        "id": "made-largest", "name": "Made for a test", "example": true, "control": "dial",
        "rate_per_min": rates,
        "output": { "unit": "mA", "positions": all(1, 128, 10) },
        "sensitivity_mV": { "positions": all(4, 64, 10), "asynchronous": "position" },
        "pulse_width_us": 1000, "auto_lock_s": null, "modes": ["VVI", "VOO"],
    });
    Profile::from_json(&file.to_string()).expect("a sound generator")
}

/// A check on a ventricular wire by the example rules, nothing remembered.
pub fn with<R>(profile: &Profile, lend: impl FnOnce(&Setup<'_>) -> R) -> R {
    let rules = Rules::example();
    lend(&Setup {
        profile,
        rules: &rules,
        chamber: Chamber::Ventricle,
        history: false,
        needs_acceptance: true,
        last_capture: NONE,
        last_seen: NONE,
        guards: Guards::ALL_ON,
    })
}
