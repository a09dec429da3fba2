//! Figures of the trade. Each test names its source key and status: V read in the source,
//! C calculated from read figures.

use domain::plan::{
    MvPlan, OutputPlan, late_rate, miss_bound_percent, mv_plan, mv_rule_position, output_plan,
    spike_comes_late,
};
use domain::profile::Profile;
use domain::rules::{Chamber, OutputRule, Rules, SensingRule};
use domain::units::interval_ms;
use serde_json::json;

use crate::made::{generator, read, with_numbers, with_output_rule, with_outputs, with_sensing_rule};

fn output_set(profile: &Profile, rule: OutputRule, threshold: &str) -> Option<String> {
    let threshold = profile.read_output(threshold).unwrap();
    match output_plan(profile, &with_output_rule(rule), threshold) {
        OutputPlan::At { position, flagged: false } => Some(profile.output_text(position).to_owned()),
        OutputPlan::At { flagged: true, .. } => panic!("above the rule"),
        OutputPlan::Maximum | OutputPlan::OtherUnit => None,
    }
}

/// A rate dial in ones from 30 to 90, which has every rate the sources name.
fn fine_rates() -> Profile {
    let rates = json!([{ "from": "30", "to": "90", "step": "1" }]);
    read(&generator(&rates, "mA", &json!(["1.0", "2.0"]), &json!(["3.0", "6.0"])))
}

/// Check 2 (CICM13, V): own 72 is sensed at 62; a threshold of 6.0 mV sets 3.0 by half.
#[test]
fn own_72_is_sensed_at_62_and_six_millivolts_set_three() {
    let profile = fine_rates();
    let offset = i32::from(Rules::example().sensing_offset);
    let rate = profile.rate_at_or_below(72 - offset).unwrap();
    assert_eq!(profile.rate_text(rate), "62");

    let [three, six] = ["3.0", "6.0"].map(|number| profile.read_mv(number).unwrap());
    let rules = with_sensing_rule(SensingRule::Half);
    let plan = mv_plan(&profile, &rules, Chamber::Ventricle, six, six, true);
    assert_eq!(plan, MvPlan::Down { to: three });
}

/// CTS (V): below half, so 3.0 of 6.0 is not low enough.
#[test]
fn below_half_does_not_allow_half() {
    let profile = with_numbers(&["2.5", "3.0", "6.0"]);
    let rules = with_sensing_rule(SensingRule::BelowHalf);
    let found = mv_rule_position(&profile, &rules, Chamber::Ventricle, 2);
    assert_eq!(found.map(|p| profile.mv_text(p)), Some("2.5"));
}

/// Check 3 (ACCCN, V): from 80 in steps of 10 down to 50 and no further.
#[test]
fn own_rhythm_is_sought_at_80_70_60_50() {
    let (profile, rules) = (fine_rates(), Rules::example());
    let limit = profile.rate_at_or_above(rules.own_limit.into()).unwrap();
    let down = |p: &u8| profile.rate_at_or_below(i32::from(profile.rate_at(*p)) - i32::from(rules.own_step));
    let start = profile.read_rate("80").unwrap();
    let steps = std::iter::successors(Some(start), down).take_while(|p| *p >= limit);
    assert_eq!(steps.map(|p| profile.rate_at(p)).collect::<Vec<_>>(), [80, 70, 60, 50]);
    assert!(!rules.limit_needs_clinician());
}

/// Check 4 (ACCCN, V; the refusal C): half less 1 mV.
#[test]
fn half_less_one_millivolt() {
    let profile = with_numbers(&["0.5", "1.0", "2.0", "3.0", "4.0", "6.0", "8.0", "10.0"]);
    let mut rules = with_sensing_rule(SensingRule::HalfLessOne);
    rules.lowest_mv_ventricle_uv = 500;
    let set = |threshold: &str| {
        let threshold = profile.read_mv(threshold).unwrap();
        let position = mv_rule_position(&profile, &rules, Chamber::Ventricle, threshold);
        position.map(|p| profile.mv_text(p))
    };
    let pairs = [("10", "4.0"), ("8", "3.0"), ("6", "2.0"), ("4", "1.0"), ("3", "0.5")];
    for (threshold, expected) in pairs {
        assert_eq!(set(threshold), Some(expected), "threshold {threshold}");
    }
    assert_eq!(set("2"), None);
    assert_eq!(set("1"), None);
}

/// Check 5 (ACCCN, V; the refusal C): double plus 1 mA on a dial that ends at 20 mA.
#[test]
fn double_plus_one_milliampere() {
    let positions = ["0.7", "1.0", "2.4", "3.0", "5.0", "7.0", "9.5", "10.0", "11.0", "20.0"];
    let profile = with_outputs("mA", &positions);
    let pairs = [("0.7", "2.4"), ("1", "3.0"), ("3", "7.0"), ("5", "11.0"), ("9.5", "20.0")];
    for (threshold, expected) in pairs {
        let set = output_set(&profile, OutputRule::DoublePlusOne, threshold);
        assert_eq!(set.as_deref(), Some(expected), "threshold {threshold}");
    }
    assert_eq!(output_set(&profile, OutputRule::DoublePlusOne, "10"), None);
}

/// Check 6 (CICM13, V): own 72 is captured at 82; double of 1.2 and 2.5 mA.
#[test]
fn own_72_is_captured_at_82_and_the_output_doubled() {
    let rates = fine_rates();
    let rate = rates.rate_at_or_above(72 + i32::from(Rules::example().capture_offset)).unwrap();
    assert_eq!(rates.rate_text(rate), "82");

    let profile = with_outputs("mA", &["1.2", "2.4", "2.5", "5.0"]);
    assert_eq!(output_set(&profile, OutputRule::Double, "1.2").as_deref(), Some("2.4"));
    assert_eq!(output_set(&profile, OutputRule::Double, "2.5").as_deref(), Some("5.0"));
}

/// Check 7 (ACCCN × CTS, C): double plus 1 mA lies inside 1.5 to 3 times exactly from 1 mA up.
#[test]
fn double_plus_one_lies_in_the_wide_band_from_one_milliampere() {
    let fits = |threshold: u32| {
        let set = 2 * threshold + 1_000;
        let texts = [threshold, set].map(|ua| domain::units::printed(ua, 1_000, 1));
        let profile = with_outputs("mA", &[&texts[0], &texts[1]]);
        let by_wide = output_plan(&profile, &with_output_rule(OutputRule::WIDE), 0);
        assert_eq!(output_set(&profile, OutputRule::DoublePlusOne, &texts[0]), Some(texts[1].clone()));
        by_wide == OutputPlan::At { position: 1, flagged: false }
    };
    for tenths in 1..=95 {
        assert_eq!(fits(tenths * 100), tenths >= 10, "threshold {tenths} tenths of a mA");
    }
}

/// Check 8 (PLOS, eight rows, V): an escape of 35/min is dependence by cut-offs of 40 and 50, not
/// of 30. As limits of the search all three can be chosen; below 50 only with a clinician (ACCCN).
#[test]
fn a_limit_below_50_needs_a_clinician() {
    let limit = domain::rules::NumberRule::named("own_limit").unwrap();
    for (cut_off, dependent, clinician) in [(30, false, true), (40, true, true), (50, true, false)] {
        let mut rules = Rules::example();
        rules.own_limit = cut_off;
        assert!(limit.allows(cut_off.into()));
        assert_eq!(rules.limit_needs_clinician(), clinician, "{cut_off}");
        assert_eq!(35 < cut_off, dependent, "{cut_off}");
    }
}

/// Check 9 (arithmetic, C): 60, 80, 90, 30 per minute; rounded up, a watch is never too short.
#[test]
fn intervals_of_rates() {
    for (rate, ms) in [(60, 1_000), (80, 750), (90, 667), (30, 2_000)] {
        assert_eq!(interval_ms(rate), ms);
    }
    assert_eq!(interval_ms(0), interval_ms(1));
}

/// RULE3 (C): n of n beats seen leaves a bound of 1 − 0.05^(1/n): 5 → 45 %, 10 → 26 %, 20 → 14 %,
/// 30 → 9.5 %.
#[test]
#[allow(clippy::disallowed_methods, reason = "compared within a tolerance")]
fn the_bound_on_missed_beats() {
    for beats in 1..=30_u8 {
        let exact = 1_000.0 * (1.0 - 0.05_f64.powf(1.0 / f64::from(beats)));
        assert!((f64::from(miss_bound_percent(beats)) - exact).abs() <= 0.5, "{beats}");
    }
    let published = [(5, 45.0, 0.5), (10, 26.0, 0.5), (20, 14.0, 0.5), (30, 9.5, 0.05)];
    for (beats, percent, within) in published {
        let bound = f64::from(miss_bound_percent(beats)) / 10.0;
        assert!((bound - percent).abs() <= within, "{beats}: {bound}");
    }
    assert_eq!(miss_bound_percent(0), 1_000);
    assert_eq!(miss_bound_percent(31), miss_bound_percent(30));
}

/// The example rule at work (CTS, ACCCN, V): inside 2 to 3 times the highest; the floor of 1 mA
/// above the threshold rules below 1 mA; a coarse dial may offer nothing inside, then the lowest
/// above, flagged; nothing above: maximum. Volts have no floor.
#[test]
fn the_example_band() {
    let rules = with_output_rule(OutputRule::EXAMPLE);
    let at = |profile: &Profile, threshold| output_plan(profile, &rules, threshold);
    let fine = with_outputs("mA", &["0.2", "0.4", "0.6", "1.2", "1.3", "2.0", "4.0", "5.5", "6.0", "6.5"]);
    assert_eq!(at(&fine, 5), OutputPlan::At { position: 8, flagged: false }, "2.0: 4.0 to 6.0");
    assert_eq!(at(&fine, 0), OutputPlan::At { position: 3, flagged: false }, "0.2: exactly 1.2");
    let coarse = with_outputs("mA", &["1", "4", "20"]);
    assert_eq!(at(&coarse, 0), OutputPlan::At { position: 1, flagged: true }, "1: nothing from 2 to 3");
    assert_eq!(at(&coarse, 2), OutputPlan::Maximum, "20: nothing from 40");
    let volts = with_outputs("V", &["0.2", "0.4", "0.6", "1.2"]);
    assert_eq!(at(&volts, 0), OutputPlan::At { position: 2, flagged: false }, "0.2 V: 0.4 to 0.6");
}

/// After one missed beat the spike of "10 below own" comes so long after its R, ms (C): on the T wave of a slow
/// rhythm, on refractory muscle of a fast one. It is not late: RATE goes further down, on a dial in ones to here.
#[test]
fn ten_below_own_puts_the_spike_behind_a_missed_beat_too_soon() {
    let dial = fine_rates();
    for (own, ms, late) in [(72_u8, 134, "46"), (60, 200, "41"), (52, 275, "36"), (45, 381, "31")] {
        let ten_below = own - 10;
        let (spike, beat) = (60_000.0 / f64::from(ten_below), 60_000.0 / f64::from(own));
        assert_eq!((spike - beat).round() as i32, ms, "own {own}");
        let highest = dial.read_rate(&ten_below.to_string()).unwrap();
        let found = late_rate(&dial, highest, own, own).map(|rate| dial.rate_text(rate));
        assert_eq!(found, Some(late), "own {own}");
    }
}

/// The highest late RATE on a dial in ones (C, with 440 ms or two fifths of the own interval from memory).
#[test]
fn a_late_spike_needs_a_lower_rate() {
    for (own, highest) in [(50, 35), (60, 41), (72, 46), (80, 50), (100, 57), (120, 63)] {
        let late = (1..own - 10).rev().find(|rate| spike_comes_late(u16::from(*rate), own, own));
        assert_eq!(late, Some(highest), "own {own}");
    }
    assert!(!(1..50).any(|rate| spike_comes_late(rate, 60, 100)), "an irregular rhythm cannot be foreseen");
}
