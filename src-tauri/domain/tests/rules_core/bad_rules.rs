//! Rule files that are refused: where, what was found, what is allowed.

use domain::document::{Fault, Kind, Why};
use domain::rules::{OutputRule, Rules};
use serde_json::{Value, json};

const EXAMPLE: &str = include_str!("../../../../scenarios/rules/example.json");

fn changed(change: impl FnOnce(&mut Value)) -> Result<Rules, Fault> {
    let mut file: Value = serde_json::from_str(EXAMPLE).unwrap();
    change(&mut file);
    Rules::from_json(&file.to_string())
}

fn refused(place: &str, value: Value) -> (String, Why) {
    let pointer = format!("/{}", place.replace('.', "/"));
    let (parent, name) = pointer.rsplit_once('/').unwrap();
    let fault = changed(|file| file.pointer_mut(parent).unwrap()[name] = value).unwrap_err();
    (fault.place, *fault.why)
}

fn texts(list: &[&str]) -> Vec<String> {
    list.iter().map(|text| (*text).to_owned()).collect()
}

fn no_figure(found: &Value, [least, greatest]: [&str; 2], unit: &str, source: &str) -> Why {
    Why::NotAFigure {
        found: found.to_string(),
        least: least.to_owned(),
        greatest: greatest.to_owned(),
        unit: unit.to_owned(),
        source: source.to_owned(),
    }
}

#[test]
fn an_unknown_named_rule() {
    let allowed = texts(&["below half", "half", "half less 1 mV", "one third"]);
    let why = Why::NotOneOf { found: "a quarter".to_owned(), allowed };
    assert_eq!(refused("sensing_rule", json!("a quarter")), ("sensing_rule".to_owned(), why));

    let allowed = texts(&["band", "double", "double plus 1 mA"]);
    let why = Why::NotOneOf { found: "triple".to_owned(), allowed };
    assert_eq!(refused("output_rule.name", json!("triple")), ("output_rule.name".to_owned(), why));
}

#[test]
fn a_band_that_is_reversed_or_misses_its_aim() {
    let why = Why::BandReversed { low: "3".to_owned(), high: "2.5".to_owned() };
    let (low, high, aim) = ("3", "2.5", Value::Null);
    let rule = json!({ "name": "band", "low": low, "high": high, "aim": aim, "floor_mA": "1" });
    assert_eq!(refused("output_rule", rule), ("output_rule".to_owned(), why));

    for aim in ["1.9", "3.1"] {
        let why = Why::AimOutsideBand { aim: aim.to_owned(), low: "2".to_owned(), high: "3".to_owned() };
        assert_eq!(refused("output_rule.aim", json!(aim)), ("output_rule.aim".to_owned(), why));
    }
}

#[test]
fn a_band_of_one_multiple_is_allowed() {
    let rule = json!({ "name": "band", "low": "2.5", "high": "2.5", "floor_mA": "0.5" });
    let rules = changed(|file| file["output_rule"] = rule).unwrap();
    let band = OutputRule::Band { low_percent: 250, high_percent: 250, aim_percent: 250, floor_ua: 500 };
    assert_eq!(rules.output_rule, band);
}

/// CTS (V): 1.5 to 3 times is the widest band a source names; ACCCN (V): 1 mA added.
#[test]
fn a_band_no_source_supports() {
    let range = |found: &str, least: &str, greatest: &str, unit: &str, source: &str| Why::OutOfRange {
        found: found.to_owned(),
        least: least.to_owned(),
        greatest: greatest.to_owned(),
        unit: unit.to_owned(),
        source: source.to_owned(),
    };
    assert_eq!(refused("output_rule.low", json!("1.4")).1, range("1.4", "1.5", "3", "×", "CTS"));
    assert_eq!(refused("output_rule.high", json!("4")).1, range("4", "2", "3", "×", "CTS"));
    assert_eq!(refused("output_rule.floor_mA", json!("1.1")).1, range("1.1", "0.0", "1.0", "mA", "ACCCN"));
    let why = no_figure(&json!("two"), ["1.5", "3"], "×", "CTS");
    assert_eq!(refused("output_rule.low", json!("two")).1, why);
    let why = no_figure(&json!("0,5"), ["0.0", "1.0"], "mA", "ACCCN");
    assert_eq!(refused("output_rule.floor_mA", json!("0,5")).1, why);
}

/// CONG (V): medians rose 1.9 times in a day, so a band from below double needs a name.
#[test]
fn a_band_from_below_double_needs_a_name() {
    let why = Why::BelowDoubleUnapproved { low: "1.5".to_owned() };
    assert_eq!(refused("output_rule.low", json!("1.5")), ("output_rule.low".to_owned(), why));
    let named = changed(|file| {
        file["output_rule"] = json!({ "name": "band", "low": "1.5", "high": "3", "floor_mA": "0" });
        file["band_below_double_by"] = json!("Dr Invented");
    });
    assert_eq!(named.unwrap().output_rule, OutputRule::WIDE);
}

#[test]
fn a_rule_that_is_missing_misspelt_or_of_another_kind() {
    let missing = changed(|file| drop(file.as_object_mut().unwrap().remove("own_limit"))).unwrap_err();
    assert_eq!((missing.place.as_str(), *missing.why), ("own_limit", Why::Missing));

    let (place, why) = refused("own_limits", json!(50));
    assert_eq!(place, "own_limits");
    assert!(matches!(why, Why::NoSuchField { allowed } if allowed.contains(&"own_limit".to_owned())));

    let wrong = |found: &str, wanted| Why::WrongKind { found: found.to_owned(), wanted };
    assert_eq!(refused("own_limit", json!("50")).1, wrong("\"50\"", Kind::WholeNumber));
    assert_eq!(refused("own_limit", json!(49.5)).1, wrong("49.5", Kind::WholeNumber));
    assert_eq!(refused("own_limit", json!(-5)).1, wrong("-5", Kind::WholeNumber));
    assert_eq!(refused("going_up", json!(1)).1, wrong("1", Kind::YesNo));
    assert_eq!(refused("id", json!(1.0)).1, wrong("1.0", Kind::Text));
    assert_eq!(refused("output_rule", json!([])).1, wrong("[]", Kind::Object));
    let surplus = json!({ "name": "double", "low": "2" });
    assert_eq!(refused("output_rule", surplus).0, "output_rule.low");
}

/// Where they are set they are figures as the dial prints them, and 0 is none: to set no limit is to leave it out.
#[test]
fn limits_that_are_no_limits() {
    let beyond = |found: &str, least: &str, greatest: &str, unit: &str| Why::OutOfRange {
        found: found.to_owned(),
        least: least.to_owned(),
        greatest: greatest.to_owned(),
        unit: unit.to_owned(),
        source: String::new(),
    };
    for (name, found, [least, greatest], unit) in [
        ("capture_limit_mA", "0", ["1.0", "25.0"], "mA"),
        ("capture_limit_mA", "25.1", ["1.0", "25.0"], "mA"),
        ("capture_limit_V", "0.4", ["0.5", "10.0"], "V"),
        ("signal_limit_ventricle_mV", "0.0", ["0.5", "10.0"], "mV"),
        ("signal_limit_atrium_mV", "4.1", ["0.2", "4.0"], "mV"),
    ] {
        assert_eq!(refused(name, json!(found)), (name.to_owned(), beyond(found, least, greatest, unit)));
    }
    let odd = ["5,0", "5 mA", "-1", "+5.0", " 5.0", "5.", ".5", "1e1", "five", "5.0000001", "٥", ""];
    for found in odd.map(|text| json!(text)).into_iter().chain([json!(5.0), json!(0), json!(true), json!([])])
    {
        for (name, bounds, unit) in [
            ("capture_limit_mA", ["1.0", "25.0"], "mA"),
            ("capture_limit_V", ["0.5", "10.0"], "V"),
            ("signal_limit_ventricle_mV", ["0.5", "10.0"], "mV"),
            ("signal_limit_atrium_mV", ["0.2", "4.0"], "mV"),
        ] {
            assert_eq!(refused(name, found.clone()), (name.to_owned(), no_figure(&found, bounds, unit, "")));
        }
    }
    assert_eq!(changed(|file| file["capture_limit_mA"] = Value::Null).unwrap(), Rules::example());
}

#[test]
fn numbers_that_contradict_each_other() {
    let below = |found: &str, other: &str, least: &str| Why::BelowOther {
        found: found.to_owned(),
        other: other.to_owned(),
        least: least.to_owned(),
    };
    assert_eq!(
        refused("starting_ventricle_mV", json!("0.9")),
        ("starting_ventricle_mV".to_owned(), below("0.9", "lowest_ventricle_mV", "1.0"))
    );
    assert_eq!(refused("starting_atrium_mV", json!("0.3")).1, below("0.3", "lowest_atrium_mV", "0.4"));
    assert_eq!(refused("check_every_h", json!(6)).1, below("6", "check_every_narrow_h", "8"));
    let beats = |down: u8, threshold: u8, confirm: u8| {
        let fault = changed(|file| {
            file["beats_down"] = json!(down);
            file["beats_threshold"] = json!(threshold);
            file["beats_confirm"] = json!(confirm);
        });
        *fault.unwrap_err().why
    };
    assert_eq!(beats(6, 5, 20), below("5", "beats_down", "6"));
    assert_eq!(beats(5, 20, 19), below("19", "beats_threshold", "20"));
}

#[test]
fn an_approval_that_is_incomplete_or_contradicted() {
    let approval =
        json!({ "by": "Dr Invented", "document": "Invented 1", "on": "2026-11-01", "review": "2027-11-01" });
    let contradiction = Why::Contradicts { other: "approval".to_owned() };
    assert_eq!(refused("approval", approval.clone()), ("example".to_owned(), contradiction.clone()));
    assert_eq!(refused("example", json!(false)), ("example".to_owned(), contradiction));

    let with = |name: &str, value: &str| {
        let mut approval = approval.clone();
        approval[name] = json!(value);
        refused("approval", approval)
    };
    let no_date = Why::NotADate { found: "1.11.2026".to_owned() };
    assert_eq!(with("on", "1.11.2026"), ("approval.on".to_owned(), no_date));
    assert_eq!(with("by", "  ").1, Why::TextLength { most: 60 });
    assert_eq!(with("review", "2026-11-01").0, "approval.review");
    assert!(matches!(with("on", "2026-02-30").1, Why::NotADate { .. }));
}

#[test]
fn an_approved_file_is_no_example_and_comes_up_for_review() {
    let rules = changed(|file| {
        file["example"] = json!(false);
        file["approval"] = json!({ "by": "Dr Invented", "document": "Invented 1", "on": "2026-11-01", "review": "2027-11-01" });
    })
    .unwrap();
    let approval = rules.approval.clone().unwrap();
    assert!(!rules.example && !approval.review_overdue(approval.review));
    assert!(approval.review_overdue(approval.review.succ_opt().unwrap()));
    assert_eq!(Rules::from_json(&rules.to_json()), Ok(rules));
}

#[test]
fn a_file_that_is_no_json_too_long_or_repeats_a_field() {
    let why = |text: &str| *Rules::from_json(text).unwrap_err().why;
    assert_eq!(why("{\n  \"id\": }"), Why::NotJson { line: 2, column: 9 });
    assert!(matches!(why(""), Why::NotJson { .. }));
    assert_eq!(why(&" ".repeat(65_537)), Why::FileTooLong { most: 65_536 });
    assert_eq!(why("[]"), Why::WrongKind { found: "[]".to_owned(), wanted: Kind::Object });
    let twice = EXAMPLE.replace("\"own_limit\": 50,", "\"own_limit\": 50,\n  \"own_limit\": 30,");
    assert!(matches!(why(&twice), Why::RepeatedField { line: 10, .. }));
    assert!(matches!(why(&"[".repeat(5_000)), Why::NotJson { .. }));
}

/// A unit may want no check once the review is overdue; without a word it is only said.
#[test]
fn the_block_after_the_review_is_off_unless_the_file_says_so() {
    let approval = |blocks: Value| {
        json!({ "by": "Dr Example", "document": "Example", "on": "2026-01-01", "review": "2027-01-01",
            "blocks_when_overdue": blocks })
    };
    let read = |blocks: Value| {
        changed(|file| {
            file["example"] = json!(false);
            file["approval"] = approval(blocks);
        })
    };
    assert!(!read(Value::Null).unwrap().blocks_when_overdue());
    assert!(!read(json!(false)).unwrap().blocks_when_overdue());
    let blocks = read(json!(true)).unwrap();
    assert!(blocks.blocks_when_overdue());
    assert_eq!(Rules::from_json(&blocks.to_json()).unwrap(), blocks, "written and read again");
    assert_eq!(read(json!("yes")).unwrap_err().place, "approval.blocks_when_overdue");
}
