//! The dials beside a handover: each figure by the positions of the generator in front of the person.

use domain::check::facts::{ASYNCHRONOUS, Dials};
use domain::contract::Shape;
use domain::handover::compare::{Beside, Compared, Margin, Seeing, compare};
use domain::handover::figure::Figure;
use domain::handover::history::Arrival;
use domain::handover::stamp::Place;
use domain::handover::summary::{Capture, Check, DialsAt, Next, OwnBeats, Sensing};
use domain::handover::tablet::Tablet;
use domain::profile::Profile;
use domain::rules::Rules;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::units::OutputUnit;
use domain::{State, view};

use crate::made::{at, bed, fine, profile, state_with, wire};

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

/// This check, handed over by another tablet a minute ago.
pub fn arrival(check: &Check, compared: Option<Compared>) -> Arrival {
    Arrival {
        tablet: Tablet::of_key(&[7; 32]),
        name: None,
        place: Place::new(60).unwrap(),
        newest: check.clone(),
        next: Next::Now,
        at: at(-1),
        first: Some(at(-1)),
        compared,
    }
}

/// What the screen of a comparison warns of.
fn warnings(compared: &Compared, check: &Check) -> Vec<Say> {
    let mut one = wire(1, "example-fine-current");
    one.arrival = Some(arrival(check, Some(compared.clone())));
    let screen = Screen::Compared { bed: 1, wire: 1 };
    let state = State { beds: vec![bed(1, "Bay 2", vec![one])], screen, ..state_with(fine()) };
    let Shape::Result(outcome) = view(&state, at(0)).shape else { panic!("no comparison") };
    outcome.flags
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
    assert_eq!(done.seeing, Seeing::Sees { signal: "5.0".into(), at_least: false });
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
        Margin::Lost { threshold: "1.2".into(), at_most: false }
    );
}

#[test]
fn a_number_above_the_signal_may_be_blind_and_asynchronous_is_said() {
    let number = |mv: &str| beside(&fine(), "3.6", "80", mv, &check());
    assert_eq!(number("5.0").seeing, Seeing::Sees { signal: "5.0".into(), at_least: false });
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

/// Where the search ended with "at least", or the number was not raised, no signal is known above that number.
#[test]
fn above_a_number_that_saw_nothing_is_known_and_nobody_is_called() {
    for sensing in [Sensing::AtLeast { at: figure("5.0") }, Sensing::AsFound { at: figure("5.0") }] {
        let check = Check { sensing, ..check() };
        let at_it = beside(&fine(), "3.6", "80", "5.0", &check);
        assert_eq!(at_it.seeing, Seeing::Sees { signal: "5.0".into(), at_least: true });
        let above = beside(&fine(), "3.6", "80", "6.0", &check);
        assert_eq!(above.seeing, Seeing::Untried { signal: "5.0".into() });
        let said = Say::NumberUntried { number: "6.0".into(), signal: "5.0".into() };
        assert_eq!(warnings(&above, &check), [said]);
    }
}

/// An upper bound of the threshold: an OUTPUT below it was never shown to capture. That calls, in words that are true.
#[test]
fn below_an_output_that_captured_the_threshold_is_at_most_that() {
    let check = Check { capture: Capture::AtMost { at: figure("1.2") }, ..check() };
    let below = beside(&fine(), "1.1", "80", "2.0", &check);
    assert_eq!(below.margin, Margin::Lost { threshold: "1.2".into(), at_most: true });
    assert!(matches!(warnings(&below, &check).as_slice(), [Say::MarginNowUntried { .. }]));
    let short = beside(&fine(), "2.0", "80", "2.0", &check);
    assert!(
        matches!(warnings(&short, &check).as_slice(), [Say::MarginNowMayBeBelow { .. }]),
        "at least 1.6 times"
    );
}

/// Comparisons of older records say neither "at least" nor "at most".
#[test]
fn a_comparison_of_before_reads() {
    let text = r#"[{"Lost":{"threshold":"1.2"}},{"Sees":{"signal":"5.0"}}]"#;
    let (margin, seeing): (Margin, Seeing) = serde_json::from_str(text).unwrap();
    assert_eq!(margin, Margin::Lost { threshold: "1.2".into(), at_most: false });
    assert_eq!(seeing, Seeing::Sees { signal: "5.0".into(), at_least: false });
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
