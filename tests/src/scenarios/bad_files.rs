//! A file that is no scenario gets a sentence: what is wrong, where, what is allowed.

use serde_json::{Value, json};
use terminal::rehearsal::rehearse;
use terminal::scenario::read;

use super::folder;

fn plain() -> Value {
    let text = std::fs::read_to_string(folder().join("plain-v.json")).unwrap();
    serde_json::from_str(&text).unwrap()
}

/// What is said about a file that cannot be read: never in the form of a program's own data.
fn refused(text: &str) -> String {
    let sentence = read(text).map(|ready| ready.scenario.title).unwrap_err().to_string();
    for sign in ["{", "}", "Some(", "u64", "u16", "struct ", "::"] {
        assert!(!sentence.contains(sign), "{sign} in {sentence}");
    }
    assert!(sentence.ends_with(['.', '?']), "{sentence}");
    sentence
}

/// What is said about the plain scenario with one thing changed.
fn said(change: impl FnOnce(&mut Value)) -> String {
    let mut scenario = plain();
    change(&mut scenario);
    refused(&scenario.to_string())
}

fn says(sentence: &str, parts: &[&str]) {
    for part in parts {
        assert!(sentence.contains(part), "{part:?} is not in {sentence:?}");
    }
}

/// What is said with the value at one place changed.
fn says_at(place: &str, value: Value, parts: &[&str]) {
    let sentence = said(|scenario| {
        if let Some(inside) = scenario.pointer_mut(place) {
            *inside = value;
        } else {
            let (outer, field) = place.rsplit_once('/').unwrap();
            scenario.pointer_mut(outer).unwrap()[field] = value;
        }
    });
    says(&sentence, parts);
}

/// A generator of the example's form, with one thing changed.
fn generator(change: impl FnOnce(&mut Value)) -> Value {
    let mut file = serde_json::from_str(&domain::profile::shipped().unwrap()[0].to_json()).unwrap();
    change(&mut file);
    file
}

#[test]
fn not_json() {
    says(&refused("{"), &["Line 1", "not JSON", "scenarios/README.md"]);
    says(&refused(""), &["Line 1", "not JSON"]);
    says(&refused("{\"seed\": 1,\n\"seed\": 2}"), &["Line 2", "second time"]);
}

#[test]
fn not_a_group_of_names() {
    says(&refused("[]"), &["a list stands there", "a group of names belongs there"]);
    says(&refused("5"), &["5 stands there", "a group of names"]);
    says(&refused("null"), &["null stands there", "a group of names"]);
}

#[test]
fn a_field_that_does_not_exist() {
    says_at("/hart", json!({}), &["hart: no such name", "heart", "found"]);
    says_at("/heart/hart", json!({}), &["heart.hart: no such name", "escape"]);
    says_at("/heart/atrium", json!({ "rhythm": "sinus" }), &["heart.atrium.rate_per_min: missing"]);
}

#[test]
fn a_field_that_is_missing() {
    let sentence = said(|scenario| {
        scenario.as_object_mut().unwrap().remove("found");
    });
    says(&sentence, &["found: missing"]);
}

#[test]
fn another_kind_of_value() {
    let whole = "a whole number of zero or more belongs there";
    says_at("/seed", json!(-1), &["seed: -1 stands there", whole]);
    says_at("/seed", json!("one"), &["seed: \"one\" stands there", whole]);
    says_at("/seed", json!(1.5), &["seed: 1.5 stands there", whole]);
    says_at("/seed", json!([1]), &["seed: a list stands there", whole]);
    says_at("/title", json!(7), &["title: 7 stands there", "text in quotes"]);
    says_at("/invented", json!("yes"), &["invented: \"yes\" stands there", "true or false"]);
    says_at("/found", json!([]), &["found: a list stands there", "a group of names"]);
    says_at("/found/rate", json!(80), &["found.rate: 80 stands there", "text in quotes"]);
    says_at("/script", json!({}), &["script: a group of names stands there", "a list belongs there"]);
    says_at("/generator", json!(3), &["generator: 3 stands there", "a name in quotes or a group of names"]);
    says_at("/rules_changed", json!([]), &["rules_changed: a list stands there", "a group of names"]);
    says_at(
        "/heart/signal",
        json!({ "own_mV": "big" }),
        &["heart.signal.own_mV: \"big\"", "a figure belongs"],
    );
    let rate = json!({ "rhythm": "sinus", "rate_per_min": 70_000 });
    says_at("/heart/atrium", rate, &["heart.atrium", "70000 stands there", "from 0 to 65535"]);
}

#[test]
fn a_name_out_of_a_closed_list() {
    says_at("/chamber", json!("aorta"), &["chamber: ", "aorta", "atrium, ventricle"]);
    says_at("/expect/outcome", json!("fine"), &["expect.outcome: ", "fine", "finished", "blocked"]);
    says_at("/heart/atrium", json!({ "rhythm": "waltz" }), &["heart.atrium", "waltz", "sinus"]);
    let act = |act: Value| json!([{ "on": {}, "do": act }]);
    says_at("/script", act(json!({ "dance": 1 })), &["script[0].do", "dance", "tap", "killed"]);
    says_at("/script", act(json!({ "sleep": -5 })), &["script[0].do.sleep: -5", "a whole number"]);
    says_at("/script", act(json!(5)), &["script[0].do: 5 stands there", "a name in quotes or a group"]);
    says_at("/script", act(json!({ "report": "rain" })), &["script[0].do.report", "rain", "shock"]);
}

/// It would be waited for until the end, and what was meant would be thought to have been tried.
#[test]
fn a_stage_a_sentence_or_a_flag_that_there_is_none_of() {
    let on = |on: Value| json!([{ "on": { "stage": "sensing" }, "do": { "sleep": 5 } }, { "on": on, "do": { "sleep": 5 } }]);
    says_at(
        "/script",
        on(json!({ "stage": "sensin" })),
        &["script[1].on.stage", "sensin", "own-rhythm, ", "sensing"],
    );
    says_at("/script", on(json!({ "asks": "ask-never" })), &["script[1].on.asks", "ask-never", "--json"]);
    says_at("/script", on(json!({ "says": "AskBeatsAgain" })), &["script[1].on.says", "AskBeatsAgain"]);
    says_at("/expect/flags", json!(["slip", "sllip"]), &["expect.flags[1]", "sllip", "slip", "clock-set-on"]);
}

#[test]
fn an_act_for_which_no_card_comes_is_told_at_the_end() {
    let mut scenario = plain();
    let act = |on: Value| json!({ "on": on, "do": { "sleep": 1 } });
    for (never, at) in [(json!({ "figure": "0.15" }), 1), (json!({ "offers": "stopp" }), 1)] {
        scenario["script"] = json!([act(json!({ "stage": "sensing" })), act(never), act(json!({}))]);
        let ready = read(&scenario.to_string()).unwrap();
        let ending = rehearse(&ready, &mut |_| {}).unwrap();
        assert_eq!(ending.never, Some(at));
        let told = ready.scenario.expect.differences(&ending);
        assert!(
            told.iter().any(|line| line.contains("script[1]") && line.contains("never happened")),
            "{told:?}"
        );
    }
}

#[test]
fn a_heart_that_cannot_beat_now_or_later() {
    let capture = |down: f64| json!({ "going_down": down, "going_up": 1.8 });
    says_at("/heart/capture", capture(3.0), &["heart.capture.going_down: 3 stands there", "1.8 or less"]);
    let later = |what: Value| json!([{ "on": {}, "do": { "heart": what } }]);
    let sinus = json!({ "atrium": { "rhythm": "sinus", "rate_per_min": 900 } });
    says_at(
        "/script",
        later(sinus),
        &["script[0].do.heart.atrium.rate_per_min: 900 stands there", "1 to 400 /min"],
    );
    let before =
        json!([{ "hours_before": 8, "found": plain()["found"], "heart": { "signal": { "own_mV": 500 } } }]);
    says_at("/history", before, &["history[0].heart.signal.own_mV: 500 stands there", "100 mV"]);
}

#[test]
fn a_real_patient() {
    says_at("/invented", json!(false), &["invented", "true"]);
}

#[test]
fn a_generator_that_nobody_has() {
    let shipped = ["example-fine-current", "example-coarse", "example-volts", "generator file"];
    says_at("/generator", json!("mine"), &["generator: there is no mine"]);
    says_at("/generator", json!("mine"), &shipped[2..]);
}

#[test]
fn a_generator_file_with_a_fault() {
    says_at("/generator", json!({ "id": "mine" }), &["generator.name: missing"]);
    let positions = |list: Value| generator(|file| file["output"]["positions"] = list);
    let unsorted = positions(json!(["0.2", "0.1"]));
    says_at("/generator", unsorted, &["generator.output.positions[1]: 0.1 stands after 0.2", "higher"]);
    let below = positions(json!(["0.2", "-0.2"]));
    says_at("/generator", below, &["generator.output.positions[1]", "-0.2", "above zero"]);
    says_at(
        "/generator",
        positions(json!([])),
        &["generator.output.positions: 0 stand there", "are allowed"],
    );
    let modes = generator(|file| file["modes"] = json!(["VXI"]));
    says_at("/generator", modes, &["generator.modes[0]", "VXI", "allowed:"]);
    let unquoted = positions(json!([1]));
    says_at("/generator", unquoted, &["generator.output.positions[0]: 1 stands there", "a figure in quotes"]);
    let fast = generator(|file| file["rate_per_min"] = json!(["60", "600"]));
    says_at(
        "/generator",
        fast,
        &["generator.rate_per_min: 600 stands there", "1 to 250 /min", "from memory"],
    );
    let none = generator(|file| file["modes"] = json!(["VOO"]));
    says_at("/generator", none, &["generator.modes: neither AAI nor VVI"]);
    let atrial = generator(|file| file["modes"] = json!(["AAI", "AOO"]));
    says_at("/generator", atrial, &["generator: it has no mode for a wire of this chamber", "VVI"]);
}

#[test]
fn a_rule_outside_its_range() {
    let limit = json!({ "own_limit": 10 });
    says_at("/rules_changed", limit, &["rules_changed.own_limit: 10 stands there", "30 to 60", "is allowed"]);
}

/// "5,0" and "5 mA" lie in the range: it alone would not tell what is wrong with them.
#[test]
fn a_limit_that_is_no_figure_or_outside_its_range() {
    let allowed = ["\"1.0\" to \"25.0\"", "in quotes", "without the unit (mA)", "from memory"];
    for found in [json!("5,0"), json!("5 mA"), json!("-1"), json!(5.0), json!(0)] {
        let place = format!("rules_changed.capture_limit_mA: {found} stands there");
        let limit = json!({ "capture_limit_mA": found });
        says_at("/rules_changed", limit, &[&[place.as_str()], &allowed[..]].concat());
    }
    for found in ["0", "25.1"] {
        let place = format!("rules_changed.capture_limit_mA: {found} stands there");
        let limit = json!({ "capture_limit_mA": found });
        says_at("/rules_changed", limit, &[&place, "1.0 to 25.0 mA is allowed", "from memory"]);
    }
}

#[test]
fn an_aim_outside_its_band() {
    let band = json!({ "name": "band", "low": "2", "high": "3", "aim": "3.5", "floor_mA": "1" });
    let rule = json!({ "output_rule": band });
    says_at("/rules_changed", rule, &["rules_changed.output_rule", "the aim 3.5", "2 to 3"]);
}

#[test]
fn a_rule_that_does_not_exist() {
    let rule = json!({ "sensing_rule": "a tenth" });
    says_at("/rules_changed", rule, &["rules_changed.sensing_rule", "a tenth", "below half", "one third"]);
    says_at("/rules", json!("mine"), &["rules: there is no mine", "example"]);
    says_at("/rules", json!({ "id": "mine" }), &["rules.", "missing"]);
}

#[test]
fn dials_found_where_there_is_no_position() {
    says_at("/found/output", json!("36"), &["found.output: OUTPUT 36: no such position; 3.5 or 3.6?"]);
    says_at("/found/output", json!("6.05"), &["found.output: OUTPUT 6.05", "6.0 or 6.5?"]);
    says_at("/found/rate", json!("999"), &["found.rate: RATE 999: no such position; "]);
    says_at("/found/mv", json!("none"), &["found.mv: mV none: no such position; 0.4 to 15.0."]);
    says_at("/found/mv", json!(""), &["found.mv: mV: nothing entered"]);
    let earlier = json!([{ "hours_before": 4, "found": { "output": "36", "rate": "80", "mv": "2.0" } }]);
    says_at("/history", earlier, &["history[0].found.output: OUTPUT 36: no such position"]);
    let turn = json!([{ "on": {}, "do": { "turn": { "dial": "rate", "to": "fast" } } }]);
    says_at("/script", turn, &["script[0].do.turn.rate: RATE fast: no such position; "]);
}

#[test]
fn a_generator_without_asynchronous() {
    let sentence = said(|scenario| {
        scenario["generator"] = generator(|file| {
            file["sensitivity_mV"]["asynchronous"] = json!("none");
            file["modes"] = json!(["VVI"]);
        });
        scenario["found"]["mv"] = json!("asynchronous");
    });
    says(&sentence, &["found.mv: mV asynchronous: no such position; "]);
}

#[test]
fn a_heart_of_figures_below_zero() {
    let signal = json!({ "own_mV": -3.0 });
    says_at("/heart/signal", signal, &["heart.signal.own_mV: -3 stands there", "zero or more is allowed"]);
    let still = json!({ "rhythm": "sinus", "rate_per_min": 0 });
    says_at("/heart/atrium", still, &["heart.atrium.rate_per_min: 0 stands there", "1 or more"]);
}

/// What is told once it is played.
fn told(change: impl FnOnce(&mut Value)) -> String {
    let mut scenario = plain();
    change(&mut scenario);
    let ready = read(&scenario.to_string()).unwrap();
    let sentence = rehearse(&ready, &mut |_| {}).map(|ending| ending.turns).unwrap_err().to_string();
    assert!(!sentence.contains(['{', '}']), "{sentence}");
    sentence
}

#[test]
fn a_script_that_taps_what_is_not_there() {
    let sentence = told(|scenario| {
        scenario["script"] = json!([{ "on": { "asks": "ask-first-look" }, "do": { "tap": "fly" } }]);
    });
    says(&sentence, &["fly", "every-beat-paced"]);
}
