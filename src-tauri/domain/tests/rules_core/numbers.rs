//! The table of numbers: every bound is kept, every source is a listed one.

use domain::document::{Fault, Why};
use domain::rules::{BAND, NUMBERS, NumberRule, OutputRule, Rules, SensingRule, Status};
use serde_json::{Value, json};

const EXAMPLE: &str = include_str!("../../../../scenarios/rules/example.json");
const SOURCES: [&str; 9] = ["ACCCN", "CICM13", "CICM16", "CTS", "COMP", "NK", "CONG", "PLOS", "RULE3"];

fn written(number: &NumberRule, value: u32) -> Value {
    if number.unit.scale().is_some() { json!(number.unit.text(value)) } else { json!(value) }
}

/// Every number of a rule file, with what its place begins with.
fn all() -> impl Iterator<Item = (&'static str, &'static NumberRule)> {
    NUMBERS.iter().map(|number| ("", number)).chain(BAND.iter().map(|bound| ("output_rule.", bound)))
}

fn with(place: &str, number: &NumberRule, value: u32) -> Result<Rules, Fault> {
    let mut file: Value = serde_json::from_str(EXAMPLE).unwrap();
    if place.is_empty() {
        file[number.name] = written(number, value);
    } else {
        // Of the band each end can be reached: no aim, and a name for what begins below double.
        file["output_rule"]["aim"] = Value::Null;
        file["band_below_double_by"] = json!("Dr Invented");
        file["output_rule"][number.name] = written(number, value);
    }
    Rules::from_json(&file.to_string())
}

#[test]
fn the_shipped_file_is_the_example() {
    assert_eq!(Rules::from_json(EXAMPLE), Ok(Rules::example()));
    assert!(Rules::example().example && Rules::example().approval.is_none());
}

#[test]
fn rules_are_written_and_read_back() {
    let rules = Rules::example();
    assert_eq!(Rules::from_json(&rules.to_json()), Ok(rules.clone()));
    let kept: Rules = serde_json::from_str(&serde_json::to_string(&rules).unwrap()).unwrap();
    assert_eq!(kept, rules);
}

/// A bound is accepted unless it breaks an agreement with another number; then that is the fault.
#[test]
fn every_bound_is_taken() {
    for (place, number) in all() {
        for value in [number.least, number.greatest] {
            match with(place, number, value) {
                Ok(rules) => assert_eq!(number.load(&rules), value, "{}", number.name),
                Err(fault) => assert!(matches!(*fault.why, Why::BelowOther { .. }), "{fault}"),
            }
        }
    }
}

#[test]
fn beyond_every_bound_is_refused_with_place_range_and_source() {
    for (place, number) in all() {
        let step = number.unit.scale().map_or(1, |scale| scale / 10);
        let beyond = [Some(0), number.least.checked_sub(step), Some(number.greatest + step)];
        for value in beyond.into_iter().flatten().filter(|value| !number.allows(*value)) {
            let [least, greatest] = [number.least, number.greatest].map(|bound| number.unit.text(bound));
            let expected = Why::OutOfRange {
                found: number.unit.text(value),
                least,
                greatest,
                unit: number.unit.symbol().to_owned(),
                source: number.source.keys.to_owned(),
            };
            let fault = with(place, number, value).unwrap_err();
            assert_eq!((fault.place.clone(), *fault.why), (format!("{place}{}", number.name), expected));
        }
    }
}

#[test]
fn the_example_lies_in_every_range() {
    for (_, number) in all() {
        let sets_none = number.may_lack && number.example == 0;
        assert!(number.allows(number.example) || sets_none, "{}", number.name);
        assert_eq!(number.load(&Rules::example()), number.example, "{}", number.name);
    }
}

/// The limits are a unit's own: the example sets none, and a file from before them is written as it was.
#[test]
fn a_number_that_a_file_lacks_stays_absent() {
    let written = Rules::example().to_json();
    assert!(!written.contains("capture_limit") && !written.contains("signal_limit"), "{written}");
    assert_eq!(written.parse::<Value>().unwrap()["sign_off_months"], json!(12));
    let mut file: Value = serde_json::from_str(EXAMPLE).unwrap();
    for number in NUMBERS.iter().filter(|number| number.may_lack) {
        file.as_object_mut().unwrap().remove(number.name);
    }
    let rules = Rules::from_json(&file.to_string()).unwrap();
    for number in NUMBERS.iter().filter(|number| number.may_lack) {
        assert_eq!(number.load(&rules), 0, "{}", number.name);
        assert!(!rules.to_json().contains(number.name), "{}", number.name);
    }
}

/// A figure between tenths is written as it was read.
#[test]
fn no_digit_is_lost_when_rules_are_written() {
    for (name, text) in
        [("starting_ventricle_mV", "2.25"), ("capture_limit_V", "2.505"), ("capture_limit_mA", "5.0")]
    {
        let mut file: Value = serde_json::from_str(EXAMPLE).unwrap();
        file[name] = json!(text);
        let rules = Rules::from_json(&file.to_string()).unwrap();
        assert_eq!(rules.to_json().parse::<Value>().unwrap()[name], json!(text));
    }
}

#[test]
fn every_source_is_a_listed_one() {
    let named = SensingRule::ALL.map(SensingRule::source).into_iter();
    let output = [OutputRule::EXAMPLE, OutputRule::WIDE, OutputRule::Double, OutputRule::DoublePlusOne];
    let all = all().map(|(_, number)| number.source).chain(named).chain(output.map(OutputRule::source));
    for source in all {
        let without = matches!(source.status, Status::Practice | Status::Memory);
        assert_eq!(source.keys.is_empty(), without, "{source:?}");
        let keys = source.keys.split(", ").filter(|key| !key.is_empty());
        assert!(keys.into_iter().all(|key| SOURCES.contains(&key)), "{source:?}");
    }
}

#[test]
fn a_figure_on_a_card_can_name_its_source() {
    let rules = Rules::example();
    let keys = |field: &str| rules.source_of(field).map(|source| source.keys);
    assert_eq!(keys("own_step"), Some("ACCCN"));
    assert_eq!(keys("sensing_rule"), Some("CTS"));
    assert_eq!(keys("output_rule"), Some("CTS, ACCCN"));
    assert_eq!(keys("lowest_mv_ventricle_uv"), keys("lowest_ventricle_mV"));
    assert_eq!(keys("id"), None);
}
