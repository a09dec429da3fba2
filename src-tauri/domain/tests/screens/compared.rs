//! The dials beside a handover: each figure by the positions of the generator in front of the person.

use domain::check::facts::{ASYNCHRONOUS, Dials};
use domain::handover::compare::{Beside, Compared, Margin, Seeing, compare};
use domain::handover::figure::Figure;
use domain::handover::summary::{Capture, Check, DialsAt, OwnBeats, Sensing};
use domain::profile::Profile;
use domain::rules::Rules;
use domain::units::OutputUnit;

use crate::made::{at, fine, profile};

fn figure(text: &str) -> Figure {
    Figure::new(text).unwrap()
}

/// RATE 80, OUTPUT 3.6 mA, mV 2.0; captured from 1.2 mA, signal 5.0 mV.
pub fn check() -> Check {
    Check {
        id: 1,
        example_rules: true,
        ended: 29_925_880,
        read: true,
        read_later: None,
        dials: Some(DialsAt { rate: figure("80"), output: figure("3.6"), mv: Some(figure("2.0")) }),
        unit: OutputUnit::MilliAmp,
        capture: Capture::Exact { at: figure("1.2") },
        margin: Some(figure("3")),
        sensing: Sensing::Exact { at: figure("5.0") },
        own: OwnBeats::NotLooked,
        pulse_width: None,
        flags: Vec::new(),
    }
}

fn stand(profile: &Profile, output: &str, rate: &str, mv: &str) -> Dials {
    Dials {
        output: profile.read_output(output).unwrap(),
        rate: profile.read_rate(rate).unwrap(),
        mv: if mv == "asynchronous" { ASYNCHRONOUS } else { profile.read_mv(mv).unwrap() },
    }
}

fn beside(profile: &Profile, output: &str, rate: &str, mv: &str, check: &Check) -> Compared {
    compare(profile, &Rules::example(), stand(profile, output, rate, mv), check, at(0))
}

fn differs(said: &str) -> Beside {
    Beside::Differs { said: Some(said.to_owned()) }
}

fn times(multiple: &str, below_rule: bool) -> Margin {
    Margin::Times { multiple: multiple.into(), threshold: "1.2".into(), at_least: false, below_rule }
}

#[test]
fn dials_that_stand_as_the_code_says_are_the_same() {
    let done = beside(&fine(), "3.6", "80", "2.0", &check());
    assert!(done.is_same(), "{done:?}");
    assert_eq!(done.margin, times("3", false));
    assert_eq!(done.seeing, Seeing::Sees { signal: "5.0".into() });
}

/// 3.0 / 1.2 = 2.5; the example rule asks for 2 to 3 times and 1 mA more than the threshold at least.
#[test]
fn what_differs_is_named_with_what_the_code_says_and_the_margin_is_of_the_dials_as_they_stand() {
    let done = beside(&fine(), "3.0", "90", "2.0", &check());
    assert_eq!((&done.output, &done.rate, &done.mv), (&differs("3.6"), &differs("80"), &Beside::Same));
    assert_eq!(done.margin, times("2.5", false));
    assert!(!done.is_same());
}

/// 2.0 / 1.2 = 1.66, cut to 1.6; below twice the threshold.
#[test]
fn too_little_output_is_below_the_rule_and_less_than_the_threshold_is_lost() {
    assert_eq!(beside(&fine(), "2.0", "80", "2.0", &check()).margin, times("1.6", true));
    assert_eq!(beside(&fine(), "1.2", "80", "2.0", &check()).margin, times("1", true));
    assert_eq!(
        beside(&fine(), "1.1", "80", "2.0", &check()).margin,
        Margin::Lost { threshold: "1.2".into() }
    );
}

#[test]
fn a_number_above_the_signal_may_be_blind_and_asynchronous_is_said() {
    let number = |mv: &str| beside(&fine(), "3.6", "80", mv, &check());
    assert_eq!(number("5.0").seeing, Seeing::Sees { signal: "5.0".into() });
    assert_eq!(number("6.0").seeing, Seeing::Blind { signal: "5.0".into() });
    assert_eq!((number("6.0").mv), differs("2.0"));
    let blind = compare(
        &fine(),
        &Rules::example(),
        Dials { mv: ASYNCHRONOUS, ..stand(&fine(), "3.6", "80", "2.0") },
        &check(),
        at(0),
    );
    assert_eq!((blind.seeing, blind.mv), (Seeing::Asynchronous, differs("2.0")));
}

#[test]
fn asynchronous_in_the_code_is_the_same_as_asynchronous_here_and_unlike_any_number() {
    let mut said = check();
    said.dials = Some(DialsAt { mv: None, ..said.dials.unwrap() });
    assert_eq!(beside(&fine(), "3.6", "80", "2.0", &said).mv, Beside::Differs { said: None });
    let here = Dials { mv: ASYNCHRONOUS, ..stand(&fine(), "3.6", "80", "2.0") };
    assert_eq!(compare(&fine(), &Rules::example(), here, &said, at(0)).mv, Beside::Same);
}

/// Another generator has other positions, and prints them otherwise: values are compared, not texts.
#[test]
fn the_same_value_printed_otherwise_is_the_same() {
    let mut said = check();
    said.dials = Some(DialsAt { rate: figure("80"), output: figure("3.60"), mv: Some(figure("2")) });
    assert!(beside(&fine(), "3.6", "80", "2.0", &said).is_same());
}

/// mA and V are never compared, neither as settings nor as a margin.
#[test]
fn milliamps_and_volts_are_never_compared() {
    let volts = profile("example-volts");
    let output = volts.output_text(volts.output_last()).to_owned();
    let rate = volts.rate_text(0).to_owned();
    let done = beside(&volts, &output, &rate, "2.0", &check());
    assert_eq!(done.output, Beside::OtherUnit { said: "3.6".into(), unit: OutputUnit::MilliAmp });
    assert_eq!(done.margin, Margin::Unknown);
}

#[test]
fn an_upper_bound_gives_at_least_so_much_and_a_bracket_counts_from_its_upper_end() {
    let with = |capture| Check { capture, ..check() };
    let at_most = with(Capture::AtMost { at: figure("0.5") });
    assert_eq!(
        beside(&fine(), "3.0", "80", "2.0", &at_most).margin,
        Margin::Times { multiple: "6".into(), threshold: "0.5".into(), at_least: true, below_rule: false }
    );
    let bracket = with(Capture::Bracket { low: figure("0.9"), high: figure("1.2") });
    assert_eq!(beside(&fine(), "3.0", "80", "2.0", &bracket).margin, times("2.5", false));
    assert_eq!(beside(&fine(), "3.0", "80", "2.0", &with(Capture::NotTested)).margin, Margin::Unknown);
}

#[test]
fn a_code_without_dials_compares_nothing_and_still_gives_the_margin() {
    let done = beside(&fine(), "3.0", "80", "2.0", &Check { dials: None, ..check() });
    assert_eq!([&done.output, &done.rate, &done.mv], [&Beside::NotSaid; 3]);
    assert_eq!(done.margin, times("2.5", false));
}
