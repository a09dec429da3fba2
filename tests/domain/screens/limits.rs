//! The two limits that a unit may set: told strictly beyond them, of a figure that was measured, and of no other.

use domain::check::facts::{Facts, Found, NONE};
use domain::contract::Shape;
use domain::ending;
use domain::flags::Flag;
use domain::profile::Profile;
use domain::rules::{Chamber, Rules};
use domain::say::{Say, figure};
use domain::state::bed::{Names, OpenCheck, Wire};
use domain::state::screen::Screen;
use domain::units::OutputUnit;
use domain::{State, view};

use serde_json::{Value, json};

use crate::made::{
    at, fine, mv, open_check, output, profile, state_with, whole_check, wire, with_capture, with_signal,
};

fn with_limits(limits: &[(&str, &str)]) -> Rules {
    let mut file = Value::from(Rules::example());
    for (name, text) in limits {
        file[*name] = json!(text);
    }
    Rules::try_from(file).unwrap()
}

fn flags_of(p: &Profile, chamber: Chamber, limits: &[(&str, &str)], facts: Facts) -> Vec<Flag> {
    let state = state_with(p.clone());
    let wire = Wire { chamber, ..wire(1, &p.id) };
    let open = OpenCheck { rules: Box::new(with_limits(limits)), ..open_check(facts, at(0)) };
    ending::record(&state, &wire, &open, &facts, &Names::default(), at(0)).unwrap().flags
}

/// On the finest dial, found high enough for any threshold here.
fn capture_flags(limits: &[(&str, &str)], facts: Facts) -> Vec<Flag> {
    flags_of(&fine(), Chamber::Ventricle, limits, facts)
}

fn above(is: &str, limit: &str, unit: OutputUnit) -> Vec<Flag> {
    vec![Flag::CaptureAboveLimit { is: is.to_owned(), limit: limit.to_owned(), unit }]
}

fn below(is: &str, limit: &str) -> Vec<Flag> {
    vec![Flag::SignalBelowLimit { is: is.to_owned(), limit: limit.to_owned() }]
}

fn bracket(lost: &str, held: &str) -> Facts {
    let p = fine();
    Facts { capture_low: output(&p, lost), ..with_capture(&p, Found::Bracket, held) }
}

#[test]
fn a_threshold_measured_above_the_limit_is_told() {
    let p = fine();
    let limit = [("capture_limit_mA", "1.2")];
    let told = |is: &str| above(is, "1.2", OutputUnit::MilliAmp);
    let measured = |kind: Found, at: &str| capture_flags(&limit, with_capture(&p, kind, at));
    assert_eq!(measured(Found::Exact, "1.2"), [], "just at it");
    assert_eq!(measured(Found::Exact, "1.3"), told("1.3"));
    assert_eq!(measured(Found::AtMost, "1.3"), [], "at most says no height");
    assert_eq!(measured(Found::Nothing, "1.3"), [], "not tested");
    assert_eq!(capture_flags(&limit, bracket("1.1", "1.2")), []);
    assert_eq!(capture_flags(&limit, bracket("1.2", "1.3")), told("1.3"));
}

/// The threshold of a wide bracket may lie anywhere above the output that lost.
#[test]
fn of_a_wide_bracket_only_what_is_sure_counts() {
    let limit = [("capture_limit_mA", "1.2")];
    let wide = |low: &str| Flag::NotNarrowed { low: low.to_owned(), high: "1.6".to_owned() };
    assert_eq!(capture_flags(&limit, bracket("1.0", "1.6")), [wide("1.0")], "it may be 1.1");
    assert_eq!(capture_flags(&limit, bracket("1.1", "1.6")), [wide("1.1")], "it may be 1.2");
    let mut told = above("1.6", "1.2", OutputUnit::MilliAmp);
    told.push(wide("1.2"));
    assert_eq!(capture_flags(&limit, bracket("1.2", "1.6")), told);
}

/// mA and volts are two scales (trade, trap 4): no figure of one says anything of the other.
#[test]
fn each_unit_has_its_own_limit() {
    let volts = profile("example-volts");
    let of = |p: &Profile, limits: &[(&str, &str)], at: &str| {
        let mut facts = Facts::new(domain::check::step::Step::Done);
        facts.found = domain::check::facts::Dials { output: p.output_last(), rate: 5, mv: 0 };
        facts.stand = facts.found;
        (facts.capture, facts.capture_at) = (Found::Exact, output(p, at));
        flags_of(p, Chamber::Ventricle, limits, facts)
    };
    let (current, volt) = ([("capture_limit_mA", "1.0")], [("capture_limit_V", "2.0")]);
    assert_eq!(of(&volts, &current, "2.2"), []);
    assert_eq!(of(&volts, &volt, "2.0"), []);
    assert_eq!(of(&volts, &volt, "2.2"), above("2.2", "2.0", OutputUnit::Volt));
    assert_eq!(of(&fine(), &volt, "2.2"), []);
    let both = [current, volt].concat();
    assert_eq!(of(&fine(), &both, "2.2"), above("2.2", "1.0", OutputUnit::MilliAmp));
    assert_eq!(of(&volts, &both, "2.2"), above("2.2", "2.0", OutputUnit::Volt));
}

#[test]
fn a_signal_measured_below_the_limit_is_told() {
    let p = fine();
    let limit = [("signal_limit_ventricle_mV", "5.0")];
    let measured = |kind: Found, at: &str| capture_flags(&limit, with_signal(&p, kind, at));
    assert_eq!(measured(Found::Exact, "5.0"), [], "just at it");
    assert_eq!(measured(Found::Exact, "4.5"), below("4.5", "5.0"));
    for kind in [Found::AtLeast, Found::SeenWhereItStood, Found::Nothing] {
        assert_eq!(measured(kind, "4.5"), [], "{kind:?} says no height");
    }
}

/// Nothing is seen from the lowest number that missed a beat on; where none has missed one, pauses ended the search,
/// and the signal may be any.
#[test]
fn a_signal_that_no_number_saw_lies_below_the_lowest_that_missed_it() {
    let p = fine();
    let seen_at_none = |missed: Option<&str>| {
        let mut facts = whole_check(&p);
        (facts.sensing, facts.sensing_at, facts.saw) = (Found::SeenAtNone, NONE, NONE);
        facts.missed = missed.map_or(NONE, |printed| mv(&p, printed));
        let flags = capture_flags(&[("signal_limit_ventricle_mV", "1.0")], facts);
        flags.into_iter().filter(|flag| matches!(flag, Flag::SignalBelowLimit { .. })).collect::<Vec<_>>()
    };
    assert_eq!(seen_at_none(Some("0.4")), below("< 0.4", "1.0"));
    assert_eq!(seen_at_none(Some("1.0")), below("< 1.0", "1.0"));
    assert_eq!(seen_at_none(Some("1.2")), [], "it may be 1.1");
    assert_eq!(seen_at_none(None), []);
}

#[test]
fn each_chamber_has_its_own_limit() {
    let p = fine();
    let of = |chamber: Chamber, limits: &[(&str, &str)]| {
        flags_of(&p, chamber, limits, with_signal(&p, Found::Exact, "2.4"))
    };
    let (ventricle, atrium) = ([("signal_limit_ventricle_mV", "5.0")], [("signal_limit_atrium_mV", "2.5")]);
    assert_eq!(of(Chamber::Ventricle, &ventricle), below("2.4", "5.0"));
    assert_eq!(of(Chamber::Ventricle, &atrium), []);
    assert_eq!(of(Chamber::Atrium, &ventricle), []);
    assert_eq!(of(Chamber::Atrium, &atrium), below("2.4", "2.5"));
}

#[test]
fn where_the_unit_has_set_none_nothing_is_told() {
    let p = fine();
    assert_eq!(capture_flags(&[], with_capture(&p, Found::Exact, "1.9")), []);
    assert_eq!(capture_flags(&[], with_signal(&p, Found::Exact, "4.5")), []);
}

/// Told in passing like a near miss, and before it: it holds still, that was put right.
#[test]
fn both_stand_before_the_near_miss_and_call_nobody_at_once() {
    let p = fine();
    let mut facts = with_capture(&p, Found::Exact, "1.3");
    facts.found.output = output(&p, "2.4");
    facts.sensing_at = mv(&p, "4.5");
    let flags = capture_flags(&[("capture_limit_mA", "1.2"), ("signal_limit_ventricle_mV", "5.0")], facts);
    let near_miss = vec![Flag::FoundMarginBelowRule { multiple: "1.8".to_owned() }];
    let expected = [above("1.3", "1.2", OutputUnit::MilliAmp), below("4.5", "5.0"), near_miss].concat();
    assert_eq!(flags, expected);
    assert!(flags.iter().all(|flag| !flag.asks_to_act_at_once()));
    let unit = Box::new(Say::MilliAmp);
    let is = Box::new(Say::FigureUnit { figure: "1.3".to_owned(), unit });
    assert_eq!(flags[0].say(), Say::FlagCaptureAboveLimit { is, limit: "1.2".to_owned() });
}

/// What the rules screen says of them, label and value.
fn told(limits: &[(&str, &str)]) -> [Say; 2] {
    let state = State { rules: with_limits(limits), screen: Screen::Rules, ..state_with(fine()) };
    let Shape::Result(rules) = view(&state, at(0)).shape else { panic!("the rules") };
    [Say::RowCaptureLimit, Say::RowSignalLimit].map(|label| {
        let row = rules.rows.iter().find(|row| row.label == label).unwrap();
        row.value.clone()
    })
}

#[test]
fn the_rules_say_each_limit_and_where_there_is_none() {
    assert_eq!(told(&[]), [Say::NoLimit, Say::NoLimit]);
    let set = |text: &str| Box::new(figure(text));
    let none = || Box::new(Say::NoLimit);
    assert_eq!(
        told(&[("capture_limit_V", "2.5"), ("signal_limit_ventricle_mV", "5")]),
        [
            Say::RuleCaptureLimits { current: none(), volts: set("2.5") },
            Say::RuleSignalLimits { ventricle: set("5.0"), atrium: none() },
        ]
    );
    let all =
        [("capture_limit_mA", "5.25"), ("capture_limit_V", "3.0"), ("signal_limit_ventricle_mV", "5.0")];
    assert_eq!(
        told(&[&all[..], &[("signal_limit_atrium_mV", "1.5")]].concat()),
        [
            Say::RuleCaptureLimits { current: set("5.25"), volts: set("3.0") },
            Say::RuleSignalLimits { ventricle: set("5.0"), atrium: set("1.5") },
        ]
    );
}
