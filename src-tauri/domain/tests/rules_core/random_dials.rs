//! Random generators: whatever the dial, the plan is the oracle's; whatever the text, no panic.

use domain::plan::{mv_plan, mv_rule_position, mv_stride_up, output_plan, output_stride_down};
use domain::profile::Profile;
use domain::rules::{Chamber, OutputRule, Rules, SensingRule};
use proptest::collection::btree_set;
use proptest::prelude::*;
use serde_json::json;

use crate::made::{generator, read, with_output_rule, with_sensing_rule};
use crate::oracle::{self, Fraction};

/// Ascending positions with one to three decimals, unequal steps.
fn dial(most: usize) -> impl Strategy<Value = Vec<String>> {
    (btree_set(1..30_000_u32, 1..=most), 1..=3_u32).prop_map(|(values, places)| {
        let unit = 10_u32.pow(places);
        let width = usize::try_from(places).unwrap();
        values.iter().map(|v| format!("{}.{:0width$}", v / unit % 999, v % unit)).collect()
    })
}

fn profile() -> impl Strategy<Value = Profile> {
    let sorted = |mut dial: Vec<String>| {
        dial.retain(|text| Fraction::printed(text) > Fraction::of(0, 1));
        dial.sort_by(|a, b| Fraction::printed(a).partial_cmp(&Fraction::printed(b)).unwrap());
        dial.dedup();
        dial
    };
    let unit = prop_oneof![Just("mA"), Just("V")];
    (btree_set(30..200_u16, 1..=64), dial(128), dial(64), unit).prop_filter_map(
        "an empty dial",
        move |(rate, output, numbers, unit)| {
            let rates: Vec<String> = rate.iter().map(u16::to_string).collect();
            let (output, numbers) = (sorted(output), sorted(numbers));
            let empty = output.is_empty() || numbers.is_empty();
            (!empty).then(|| read(&generator(&json!(rates), unit, &json!(output), &json!(numbers))))
        },
    )
}

fn output_rule() -> impl Strategy<Value = OutputRule> {
    let band =
        (150..=300_u16, 0..=100_u16, 0..=100_u16, 0..=1_000_u32).prop_map(|(low, aim, above, floor_ua)| {
            let high_percent = (low + aim + above).clamp(200, 300);
            let aim_percent = (low + aim).min(high_percent);
            OutputRule::Band { low_percent: low.min(aim_percent), high_percent, aim_percent, floor_ua }
        });
    prop_oneof![band, Just(OutputRule::Double), Just(OutputRule::DoublePlusOne)]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn output_plans_are_the_oracles(profile in profile(), rule in output_rule()) {
        let rules = with_output_rule(rule);
        for threshold in 0..=profile.output_last() {
            let expected = oracle::output_plan(&profile, rule, threshold);
            prop_assert_eq!(output_plan(&profile, &rules, threshold), expected);
        }
    }

    #[test]
    fn numbers_are_the_oracles(profile in profile(), rule in prop::sample::select(&SensingRule::ALL[..]), lowest in 200..=2_000_u32) {
        let mut rules = with_sensing_rule(rule);
        rules.lowest_mv_ventricle_uv = lowest;
        for threshold in 0..=profile.mv_last() {
            let expected = oracle::number_by_rule(&profile, rule, Fraction::of(lowest, 1_000), threshold);
            prop_assert_eq!(mv_rule_position(&profile, &rules, Chamber::Ventricle, threshold), expected);
        }
    }

    /// The plan only ever lowers the number, and never below the lowest ever set.
    #[test]
    fn a_number_is_never_raised(profile in profile(), rule in prop::sample::select(&SensingRule::ALL[..]), threshold: u8, present: u8, saw: bool) {
        let (rules, chamber) = (with_sensing_rule(rule), Chamber::Atrium);
        if let domain::plan::MvPlan::Down { to } = mv_plan(&profile, &rules, chamber, threshold, present, saw) {
            prop_assert!(to < present);
            prop_assert!(profile.mv_at(to) >= rules.lowest_mv_atrium_uv);
            prop_assert!(profile.mv_at(to) * 2 <= profile.mv_at(threshold));
        }
    }

    /// One position at least; beyond one position never more than the rule's share.
    #[test]
    fn strides_keep_their_share(profile in profile(), sensing in 5..=50_u8, capture in 5..=20_u8) {
        let mut rules = Rules::example();
        (rules.sensing_stride_percent, rules.capture_stride_percent) = (sensing, capture);
        let (outputs, numbers) = (oracle::outputs(&profile), oracle::numbers(&profile));
        for from in 1..=profile.output_last() {
            let to = output_stride_down(&profile, &rules, from).unwrap();
            let least = outputs[usize::from(from)].times(Fraction::of(100 - u32::from(capture), 100));
            prop_assert!(to + 1 == from || (to < from && outputs[usize::from(to)] >= least));
        }
        for from in 0..profile.mv_last() {
            let to = mv_stride_up(&profile, &rules, from).unwrap();
            let most = numbers[usize::from(from)].times(Fraction::of(100 + u32::from(sensing), 100));
            prop_assert!(to == from + 1 || (to > from && numbers[usize::from(to)] <= most));
        }
    }

    #[test]
    fn a_generator_is_written_and_read_back(profile in profile()) {
        prop_assert_eq!(Profile::from_json(&profile.to_json()), Ok(profile.clone()));
        let kept: Profile = serde_json::from_str(&serde_json::to_string(&profile).unwrap()).unwrap();
        prop_assert_eq!(kept, profile);
    }

    /// What is taken has exactly the value typed; the neighbours of what is not lie around it.
    #[test]
    fn a_typed_figure_is_exact_or_refused(profile in profile(), typed in "0|[1-9][0-9]{0,2}(\\.[0-9]{1,3})?") {
        let value = Fraction::printed(&typed);
        match profile.read_output(&typed) {
            Ok(position) => prop_assert_eq!(Fraction::printed(profile.output_text(position)), value),
            Err(refusal) => {
                prop_assert!(refusal.below.is_none_or(|text| Fraction::printed(&text) < value));
                prop_assert!(refusal.above.is_none_or(|text| Fraction::printed(&text) > value));
                prop_assert!(!oracle::outputs(&profile).contains(&value));
            }
        }
    }

    #[test]
    fn no_text_is_too_odd_to_be_refused(typed in any::<String>(), file in any::<String>()) {
        let profile = &crate::made::every_shipped()[0];
        let _ = (profile.read_mv(&typed), profile.read_output(&typed), profile.read_rate(&typed));
        prop_assert!(Profile::from_json(&file).is_err());
        prop_assert!(Rules::from_json(&file).is_err());
    }
}
