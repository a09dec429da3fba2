//! Typed readings: only positions are taken, and a refusal says what may have been meant.

use domain::profile::Profile;

use crate::made::{every_shipped, with_numbers, with_outputs};

fn asked(profile: &Profile, typed: &str) -> Vec<String> {
    let refusal = profile.read_output(typed).unwrap_err();
    refusal.suggestions().into_iter().map(str::to_owned).collect()
}

#[test]
fn every_position_is_read_back_from_its_print() {
    for profile in every_shipped() {
        for p in 0..=profile.output_last() {
            assert_eq!(profile.read_output(profile.output_text(p)), Ok(p));
            assert_eq!(profile.read_output(&profile.output_text(p).replace('.', ",")), Ok(p));
        }
        for p in 0..=profile.mv_last() {
            assert_eq!(profile.read_mv(profile.mv_text(p)), Ok(p));
        }
        for p in 0..=profile.rate_last() {
            assert_eq!(profile.read_rate(profile.rate_text(p)), Ok(p));
        }
    }
}

#[test]
fn a_forgotten_point_is_asked_about() {
    let profile = with_outputs("mA", &["0.7", "0.8", "3.4", "3.5", "3.6", "8.0", "20.0"]);
    assert_eq!(asked(&profile, "36"), ["3.5", "3.6"]);
    assert_eq!(asked(&profile, "08"), ["0.7", "0.8"], "08 is not taken for 8.0");
    assert_eq!(profile.read_output("8"), Ok(5));
}

#[test]
fn between_and_beyond_positions_the_neighbours_are_asked_about() {
    let profile = with_outputs("mA", &["0.5", "1.0", "4.0"]);
    assert_eq!(asked(&profile, "2.0"), ["1.0", "4.0"]);
    assert_eq!(asked(&profile, "0.1"), ["0.5"]);
    assert_eq!(asked(&profile, "4.1"), ["4.0"]);
    assert_eq!(asked(&profile, "500"), ["4.0"], "a tenth is beyond the dial too");
}

#[test]
fn what_is_no_figure_is_refused_and_repeated_shortened() {
    let profile = with_numbers(&["0.5", "1.0", "4.0"]);
    let entries = ["", " ", "abc", "1.0.0", "-1.0", "+1.0", "1e0", ".5", "1.", "١", "1 0", "0x1", "NaN"];
    for typed in entries {
        let refusal = profile.read_mv(typed).unwrap_err();
        assert!(refusal.below.is_none() && refusal.above.is_none(), "{typed:?}");
    }
    let long = profile.read_mv(&"9".repeat(500)).unwrap_err();
    assert_eq!(long.typed, "9".repeat(12));
}

#[test]
fn spaces_around_a_figure_and_missing_final_zeros_do_no_harm() {
    let profile = with_numbers(&["0.50", "1.0", "10"]);
    for (typed, position) in [(" 1,0 ", 1), ("1", 1), ("1.00", 1), ("0.5", 0), ("10.0", 2)] {
        assert_eq!(profile.read_mv(typed), Ok(position), "{typed}");
    }
}

/// A rate has no point to forget: neighbours only.
#[test]
fn a_rate_beyond_the_dial_is_not_divided() {
    let profile = with_numbers(&["1.0"]);
    let refusal = profile.read_rate("700").unwrap_err();
    assert_eq!(refusal.suggestions(), ["80"]);
    assert_eq!(profile.read_rate("070").unwrap_err().suggestions(), ["70"]);
}

/// A position beyond the dial counts as its last: a stale index from an old record cannot panic.
#[test]
fn a_position_beyond_the_dial_is_its_last() {
    for profile in every_shipped() {
        assert_eq!(profile.rate_at(u8::MAX), profile.rate_at(profile.rate_last()));
        assert_eq!(profile.output_text(u8::MAX), profile.output_text(profile.output_last()));
        assert_eq!(profile.mv_at(u8::MAX), profile.mv_at(profile.mv_last()));
    }
}

#[test]
fn a_refusal_names_the_dial_and_what_is_allowed() {
    let profile = with_outputs("mA", &["0.7", "3.5", "3.6", "8.0"]);
    let english = |none: domain::profile::NoSuchPosition| {
        words::say(&none.say(), domain::command::Language::English).unwrap()
    };
    let output = |typed: &str| english(profile.read_output(typed).unwrap_err());
    assert_eq!(output("36"), "OUTPUT 36: no such position; 3.5 or 3.6?");
    assert_eq!(output("8.5"), "OUTPUT 8.5: no such position; 8.0?");
    assert_eq!(output("x"), "OUTPUT x: no such position; 0.7 to 8.0. Look again.");
    assert_eq!(output("٦"), "OUTPUT ٦: no such position; 0.7 to 8.0. Look again.");
    assert_eq!(output(" "), "OUTPUT: nothing entered.");
    let numbers = with_numbers(&["0.5", "1.0", "4.0"]);
    assert_eq!(
        english(numbers.read_mv("low").unwrap_err()),
        "mV low: no such position; 0.5 to 4.0. Look again."
    );
    let rate = english(numbers.read_rate("fast").unwrap_err());
    assert!(rate.starts_with("RATE fast: no such position; "), "{rate}");
}
