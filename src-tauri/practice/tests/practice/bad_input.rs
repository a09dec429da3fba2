//! Exercises that cannot be, and entries of no run: a plain sentence each, nothing else.

use domain::check::facts::{ASYNCHRONOUS, Dial};
use practice::{Entry, Exercise, ExerciseId, Fault, Run, judge};
use serde_json::{Value, json};

use crate::script::exercise;

fn quiet() -> Value {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/exercises/quiet.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

fn with(place: &str, value: Value) -> String {
    let mut file = quiet();
    if let Some(inside) = file.pointer_mut(place) {
        *inside = value;
    } else {
        let (outer, field) = place.rsplit_once('/').unwrap();
        file.pointer_mut(outer).unwrap()[field] = value;
    }
    file.to_string()
}

/// What is wrong, and what the sentence must name.
fn cases() -> Vec<(String, &'static [&'static str])> {
    let text = quiet().to_string();
    let mut cases: Vec<(String, &'static [&'static str])> = vec![
        (with("/invented", json!(false)), &["invented", "true"]),
        (with("/colour", json!("red")), &["colour", "scenarios/README.md"]),
        (with("/heart/temperature", json!(37)), &["temperature"]),
        (with("/id", json!("easy")), &["id: ", "easy", "quiet"]),
        (with("/generator", json!("box")), &["generator", "box", "example-fine-current"]),
        (with("/rules", json!("mine")), &["rules", "mine", "example"]),
        (with("/found/output", json!("6.05")), &["found.output: OUTPUT 6.05", "6.0 or 6.5?"]),
        (with("/found/mv", json!("none")), &["found.mv: mV none", "0.4 to 15.0"]),
        (with("/found/output", json!(36)), &["found.output: 36 stands there", "text in quotes"]),
        (with("/found/output", json!("36")), &["found.output: OUTPUT 36", "3.5 or 3.6?"]),
        (with("/found/rate", json!("")), &["found.rate"]),
        (with("/heart/signal/own_mV", json!(-1.0)), &["heart.signal.own_mV", "-1", "zero or more"]),
        (
            with("/heart/signal/own_mV", json!(900.0)),
            &["heart.signal.own_mV: 900 stands there", "0 to 100 mV"],
        ),
        (with("/heart/atrium/rate_per_min", json!(0)), &["heart.atrium.rate_per_min", "1 or more"]),
        (
            with("/heart/atrium/rate_per_min", json!(900)),
            &["heart.atrium.rate_per_min: 900 stands there", "1 to 400 /min"],
        ),
        (with("/heart/signal/scatter_mV", json!(-0.1)), &["heart.signal.scatter_mV", "zero or more"]),
        (
            with("/heart/signal/scatter_mV", json!(9.0)),
            &["heart.signal.scatter_mV: 9 stands there", "signal.own_mV asks for 8 or less"],
        ),
        (
            with("/heart/signal/breath_s", json!(0.1)),
            &["heart.signal.breath_s: 0.1 stands there", "0.5 to 60 s"],
        ),
        (
            with("/heart/signal/drift_mV_per_hour", json!(-200)),
            &["heart.signal.drift_mV_per_hour", "0 to 100 mV"],
        ),
        (
            with("/heart/atrium/scatter_ms", json!(800)),
            &["heart.atrium.scatter_ms: 800 stands there", "ms is allowed"],
        ),
        (
            with("/heart/capture/scatter", json!(2.0)),
            &["heart.capture.scatter: 2 stands there", "capture.going_down asks for 1.6 or less"],
        ),
        (with("/heart/spikes_seen_from", json!(-1)), &["heart.spikes_seen_from", "zero or more"]),
        (
            with(
                "/heart/vulnerable",
                json!({ "from_ms": 300, "until_ms": 340, "one_in": 0, "wave_mV": 0.5 }),
            ),
            &["heart.vulnerable.one_in: 0 stands there"],
        ),
        (
            with("/heart/capture/going_up", json!(0.5)),
            &["heart.capture.going_down: 1.6 stands there", "capture.going_up asks for 0.5 or less"],
        ),
        (
            with("/heart/capture/going_down", json!(0)),
            &["heart.capture.going_down: 0 stands there", "mA is allowed"],
        ),
        (with("/heart/escape", json!({ "rate_per_min": 0 })), &["heart.escape.rate_per_min"]),
        (with("/heart/escape", json!({ "rate_per_min": 500 })), &["heart.escape.rate_per_min: 500 stands"]),
        (
            with("/heart/escape", json!({ "rate_per_min": 40, "sleeps_s": 90 })),
            &["escape.sleeps_s: 90", "60 s"],
        ),
        (with("/heart/conducts_up_to_per_min", json!(900)), &["heart.conducts_up_to_per_min: 900 stands"]),
        (
            with(
                "/heart/atrium",
                json!({ "rhythm": "fibrillation", "slowest_per_min": 90, "fastest_per_min": 60, "wave_mV": 0.5 }),
            ),
            &["heart.atrium.fastest_per_min: 60 stands there", "atrium.slowest_per_min asks for 90 or more"],
        ),
        (
            with("/heart/pressure", json!({ "own_mmHg": 400, "paced_mmHg": 90 })),
            &["own_mmHg: 400", "300 mmHg"],
        ),
        (with("/heart/noise", json!({ "kind": "hum", "peak_mV": 1 })), &["hum", "loose-pin"]),
        (with("/heart/noise", json!({ "kind": "burst", "peak_mV": -3 })), &["heart.noise.peak_mV"]),
        (
            with("/heart/lead", json!({ "state": "intermittent", "sound_ms": 0, "broken_ms": 5 })),
            &["heart.lead.sound_ms: 0 stands there", "0.001 to 600000 ms"],
        ),
        (
            with("/happenings", json!([{ "when": {}, "what": { "shock": { "minutes": 3 } } }])),
            &["happenings[0].when"],
        ),
        (
            with(
                "/happenings",
                json!([{ "when": { "at_s": 1 }, "what": { "turn": { "dial": "rate", "to": "81" } } }]),
            ),
            &["happenings[0].rate", "81"],
        ),
        (
            with(
                "/happenings",
                json!([{ "when": { "at_s": 1 }, "what": { "heart": { "signal": { "own_mV": 500 } } } }]),
            ),
            &["happenings[0].what.heart.signal.own_mV: 500 stands there"],
        ),
        (
            with("/varies/capture/step", json!(0)),
            &["varies.capture.step: 0 stands there", "0.001 to 1000 mA is allowed"],
        ),
        (with("/varies/signal/step", json!(-0.5)), &["varies.signal.step", "zero or more"]),
        (with("/varies/signal/step", json!(2000)), &["varies.signal.step: 2000", "0.001 to 1000 mV"]),
        // The lower threshold is 1.6 mA, the signal 8 mV.
        (
            with("/varies/capture/lower", json!(16)),
            &["varies.capture.lower: 16 stand there", "0 to 15 are allowed"],
        ),
        (
            with("/varies/signal/lower", json!(17)),
            &["varies.signal.lower: 17 stand there", "0 to 16 are allowed"],
        ),
        (with("/varies/signal/higher", json!(185)), &["varies.signal.higher: 185", "0 to 184 are allowed"]),
        (with("/varies/capture/higher", json!(5_000)), &["varies.capture.higher: 5000", "0 to 1000"]),
        (with("/varies/capture/lower", json!(-1)), &["varies.capture.lower", "-1"]),
        (with("/varies/capture/lower", json!(1.5)), &["varies.capture.lower", "1.5"]),
        (with("/varies/rate", json!({ "step": 1, "lower": 1, "higher": 1 })), &["varies", "rate"]),
        // A heart that comes later is moved as far.
        (
            with(
                "/happenings",
                json!([{ "when": { "at_s": 1 }, "what": { "heart": { "signal": { "own_mV": 2 } } } }]),
            ),
            &["varies.signal.lower: 5 stand there", "0 to 4 are allowed"],
        ),
        (String::new(), &["Line 1", "not JSON"]),
        ("[]".to_owned(), &["a list stands there", "a group of names"]),
        (text[..text.len() / 2].to_owned(), &["not JSON"]),
    ];
    for number in ["1e999", "NaN", "Infinity", "-1e999"] {
        cases.push((text.replace("8.0", number), &["Line ", "place ", "not JSON"]));
    }
    cases
}

#[test]
fn an_impossible_exercise_is_refused_by_place_and_what_is_allowed() {
    assert!(Exercise::from_json(&quiet().to_string()).is_ok());
    for (text, names) in cases() {
        let said = Exercise::from_json(&text).map(|exercise| exercise.id).unwrap_err().to_string();
        for name in names {
            assert!(said.contains(name), "{said:?} does not name {name:?}");
        }
        assert!(!said.contains(['{', '}']), "{said}");
        for of_the_simulator in ["_us", "_uv", "_micro", "no such heart"] {
            assert!(!said.contains(of_the_simulator), "{said}");
        }
    }
}

#[test]
fn a_position_that_is_not_there_moves_no_dial() {
    let mut run = Run::new(exercise(ExerciseId::Quiet), 1).unwrap();
    let before = run.dials();
    for (dial, to) in [(Dial::Output, 79), (Dial::Rate, 255), (Dial::Mv, 31), (Dial::Rate, ASYNCHRONOUS)] {
        assert_eq!(run.turn(dial, to), Err(Fault::NoSuchPosition { dial, to }));
        assert_eq!(run.dials(), before);
    }
    assert_eq!(run.turn(Dial::Mv, ASYNCHRONOUS), Ok(()));
}

#[test]
fn entries_of_no_run_are_refused() {
    let quiet = exercise(ExerciseId::Quiet);
    let turned = |at_us, to| Entry::Turned { at_us, dial: Dial::Output, to };
    let refused = |entries: &[Entry]| judge(quiet, 1, entries).map(|_| ()).unwrap_err();
    assert_eq!(refused(&[turned(0, 200)]), Fault::NoSuchPosition { dial: Dial::Output, to: 200 });
    assert_eq!(refused(&[turned(5_000_000, 3), turned(4_000_000, 4)]), Fault::Time { at_us: 4_000_000 });
    assert_eq!(refused(&[Entry::Ended { at_us: u64::MAX }]), Fault::Time { at_us: u64::MAX });
    assert!(judge(quiet, 1, &[]).is_ok_and(|judged| !judged.passed));
}

/// Any entries at all: no panic, and the instants named lie in the run.
#[test]
fn random_entries_are_judged_without_a_panic() {
    let mut chance = simulator::SplitMix64::new(77);
    for id in ExerciseId::ALL {
        for seed in 0..12 {
            let mut at_us = 0;
            let mut entries: Vec<Entry> = (0..chance.below(40))
                .map(|_| {
                    at_us += chance.below(9_000_000);
                    let dial = [Dial::Output, Dial::Rate, Dial::Mv][chance.below(3) as usize];
                    Entry::Turned { at_us, dial, to: u8::try_from(chance.below(30)).unwrap() }
                })
                .collect();
            entries.push(Entry::Ended { at_us: at_us + 20_000_000 });
            let judged = judge(exercise(*id), seed, &entries).unwrap();
            assert!(judged.acts.iter().all(|one| one.at_us <= judged.ended_us), "{id:?} {seed}");
        }
    }
}
