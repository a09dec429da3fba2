//! Every screen stays below the size that crosses the bridge directly: 8,000 bytes once the words are in.

use domain::check::facts::{Facts, Found};
use domain::command::Language;
use domain::library::{GENERATORS_MOST, LetIn, Offered};
use domain::profile::{Profile, shipped};
use domain::rules::Rules;
use domain::state::bed::Names;
use domain::state::screen::Screen;
use domain::{State, view};

use crate::made::{at, bed, marked, output, record, state_with, whole_check, wire, wire_with};

const MOST: usize = 8_000;

fn worst_label(id: u32) -> String {
    let families = "👩‍👩‍👧‍👦".repeat(3);
    families.chars().take(22).chain(id.to_string().chars()).collect()
}

fn bytes(state: &State, language: Language) -> usize {
    let shown = words::render(&view(state, at(0)), language).expect("every sentence is in the catalogue");
    serde_json::to_vec(&shown).expect("a view is JSON").len()
}

/// What is too large, in words.
fn too_large(state: &mut State, screen: Screen) -> Vec<String> {
    state.screen = screen;
    let measured = [Language::English, Language::Pseudo].map(|language| (language, bytes(state, language)));
    let large = measured.iter().filter(|(_, bytes)| *bytes > MOST);
    large.map(|(language, bytes)| format!("{screen:?} in {language:?}: {bytes} bytes")).collect()
}

/// Output 3.6 on 1.2 as well as each dial allows, on generators of every shipped kind.
fn long_check(p: &Profile, step: u8) -> Facts {
    let mut facts = marked_all(p);
    let last = p.output_last();
    facts.capture = Found::Bracket;
    facts.capture_at = (last / 4 + step).min(last);
    facts.capture_low = facts.capture_at.saturating_sub(1);
    facts.stand.output = last;
    facts.sensing = Found::Exact;
    facts.sensing_at = p.mv_last();
    (facts.own_slowest, facts.own_fastest) = (101, 119);
    facts
}

fn marked_all(p: &Profile) -> Facts {
    let mut facts = Facts::new(domain::check::step::Step::Done);
    facts.found.output = p.output_last();
    facts.found.rate = p.rate_last();
    facts.found.mv = p.mv_last();
    facts.stand = facts.found;
    facts.held_down = 0;
    facts.marks = domain::check::facts::Marks(u32::MAX);
    facts
}

fn full_state(p: &Profile) -> State {
    let mut state = state_with(p.clone());
    state.generators = shipped().expect("the shipped generators");
    state.generators.sort_by_key(|one| one.id != p.id);
    let checks: Vec<Facts> = (0..30).map(|step| long_check(p, step % 5)).collect();
    let template = wire_with(&state, 1, &checks);
    let long = |length| Some("ж".repeat(length));
    for id in 1..=24 {
        let mut wires = vec![template.clone(), template.clone(), template.clone(), template.clone()];
        for (index, wire) in wires.iter_mut().enumerate() {
            wire.id = index as u32 + 1;
            wire.owed = Some(at(-60));
            if let Some(last) = wire.records.last_mut() {
                last.names = Names {
                    accepted_by: long(60),
                    clinician: long(60),
                    ordered_by: long(60),
                    reason: long(120),
                    told: long(60),
                    not_read: true,
                };
            }
        }
        state.beds.push(bed(id, &worst_label(id), wires));
    }
    state
}

#[test]
fn no_screen_is_too_large_for_the_bridge() {
    for p in shipped().expect("the shipped generators") {
        let mut state = full_state(&p);
        let (bed, wire) = (1, 1);
        let mut large = Vec::new();
        for screen in [
            Screen::Welcome,
            Screen::Beds,
            Screen::MoreBeds { from: 10 },
            Screen::MoreBeds { from: 20 },
            Screen::NewBed,
            Screen::Bed { bed },
            Screen::NewPatient { bed },
            Screen::NewWire { bed },
            Screen::Result { bed, wire, back: 0 },
            Screen::Result { bed, wire, back: 29 },
            Screen::Code { bed, wire },
            Screen::History { bed, wire },
            Screen::Plug { bed, wire },
            Screen::BedMore { bed },
            Screen::Happened { bed },
            Screen::WireOut { bed },
            Screen::EmptyBed { bed },
            Screen::ReadOwed { bed, wire },
            Screen::Settings,
            Screen::Rules,
            Screen::NewRules,
            Screen::Generators,
            Screen::Generator { at: 0 },
            Screen::NewGenerator,
        ] {
            large.extend(too_large(&mut state, screen));
        }
        assert_eq!(large, Vec::<String>::new(), "on {}", p.id);
    }
}

/// Every line differs, every name is as long as a file may have it, in letters of three bytes.
#[test]
fn whatever_a_unit_hands_in_fits() {
    let name = |length| "ॐ".repeat(length);
    let mut file: serde_json::Value =
        serde_json::from_str(&Rules::example().to_json()).expect("the examples are JSON");
    for (field, value) in [
        ("own_step", 5),
        ("own_watch_s", 11),
        ("own_limit", 60),
        ("capture_offset", 20),
        ("highest_test_rate", 130),
        ("capture_stride_percent", 10),
        ("beats_down", 10),
        ("minimum_output_s", 100),
        ("after_loss_s", 9),
        ("check_every_h", 24),
        ("emergency_rate", 100),
        ("age_least", 21),
    ] {
        file[field] = value.into();
    }
    for (field, value) in [("lowest_ventricle_mV", "2.0"), ("starting_ventricle_mV", "3.0")] {
        file[field] = value.into();
    }
    for field in ["margin_check", "half_rate_in_sensing"] {
        file[field] = true.into();
    }
    file["going_up"] = false.into();
    file["sensing_rule"] = "half less 1 mV".into();
    file["output_rule"] = serde_json::json!({ "name": "band", "low": "1.55", "high": "2.95", "aim": "2.85", "floor_mA": "0.5" });
    file["band_below_double_by"] = name(60).into();
    file["id"] = name(60).into();
    file["example"] = false.into();
    file["approval"] = serde_json::json!({
        "by": name(60), "document": name(200), "on": "2026-01-01", "review": "2026-02-01",
        "blocks_when_overdue": true,
    });
    let rules = Rules::from_json(&file.to_string()).expect("a sound rule file");
    let mut state = state_with(crate::made::largest());
    let hash = domain::document::hash("any");
    let let_in = LetIn { by: name(60), role: name(60), hash: hash.clone(), at: at(0) };
    state.offered = Some(Offered::Rules { rules: Box::new(rules.clone()), hash: hash.clone() });
    assert_eq!(too_large(&mut state, Screen::OfferedRules), Vec::<String>::new());
    assert_eq!(too_large(&mut state, Screen::Approve), Vec::<String>::new());
    (state.rules, state.rules_let_in) = (rules, Some(let_in));
    assert_eq!(too_large(&mut state, Screen::Rules), Vec::<String>::new());

    let mut file: serde_json::Value = serde_json::from_str(&crate::made::largest().to_json()).expect("JSON");
    let long = |at: usize| format!("{:é>60}", at);
    state.generators = (0..GENERATORS_MOST)
        .map(|at| {
            (file["id"], file["name"]) = (at.to_string().into(), long(at).into());
            Profile::from_json(&file.to_string()).expect("a sound generator")
        })
        .collect();
    for screen in [Screen::Generators, Screen::Generator { at: 3 }] {
        assert_eq!(too_large(&mut state, screen), Vec::<String>::new());
    }
    state.offered = Some(Offered::Generator { profile: Box::new(state.generators[0].clone()), hash });
    assert_eq!(too_large(&mut state, Screen::OfferedGenerator), Vec::<String>::new());
}

#[test]
fn the_longest_code_with_its_lines_fits() {
    let mut state = crate::code::longest_state();
    for screen in [state.screen, Screen::CodeCopy { bed: 1, wire: 1 }] {
        assert_eq!(too_large(&mut state, screen), Vec::<String>::new());
    }
}

#[test]
fn a_dial_of_every_position_allowed_fits() {
    let p = crate::made::largest();
    let mut state = state_with(p.clone());
    let mut facts = whole_check_on(&p);
    facts.capture_at = 60;
    let mut one = wire(1, &p.id);
    one.records.push(record(&state, &one, facts, &Names::default(), at(0)));
    state.beds = vec![bed(1, &worst_label(1), vec![one])];
    let screen = Screen::Result { bed: 1, wire: 1, back: 0 };
    assert_eq!(too_large(&mut state, screen), Vec::<String>::new());
}

fn whole_check_on(p: &Profile) -> Facts {
    let mut facts = long_check(p, 0);
    facts.stand.output = output(p, "12.8");
    facts
}

/// A worst case that is none would prove nothing.
#[test]
fn the_worst_cases_are_larger_than_the_usual_ones() {
    let p = crate::made::fine();
    let mut usual = state_with(p.clone());
    usual.beds = vec![bed(
        1,
        "Bay 4",
        vec![wire_with(&usual, 1, &[whole_check(&p), marked(&p, domain::check::facts::Marks::SLIP)])],
    )];
    let mut worst = full_state(&p);
    for screen in
        [Screen::Beds, Screen::History { bed: 1, wire: 1 }, Screen::Result { bed: 1, wire: 1, back: 0 }]
    {
        usual.screen = screen;
        worst.screen = screen;
        assert!(bytes(&usual, Language::English) < bytes(&worst, Language::English), "{screen:?}");
    }
}
