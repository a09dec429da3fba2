//! Every threshold position × every named rule × every shipped generator, against the oracle.

use domain::plan::{
    OutputPlan, is_below_rule, margin_position, multiple_text, mv_plan, mv_rule_position, output_plan,
    starting_mv,
};
use domain::profile::Profile;
use domain::rules::{Chamber, OutputRule, Rules, SensingRule};

use crate::made::{every_shipped, output_rules, with_output_rule, with_outputs, with_sensing_rule};
use crate::oracle::{self, Fraction};

const CHAMBERS: [Chamber; 2] = [Chamber::Atrium, Chamber::Ventricle];

#[test]
fn output_follows_every_rule_from_every_threshold() {
    let mut compared = 0;
    for profile in every_shipped() {
        for rule in output_rules() {
            for threshold in 0..=profile.output_last() {
                let plan = output_plan(&profile, &with_output_rule(rule), threshold);
                let expected = oracle::output_plan(&profile, rule, threshold);
                assert_eq!(plan, expected, "{} {rule:?} at {}", profile.id, profile.output_text(threshold));
                compared += 1;
            }
        }
    }
    println!("output plans compared: {compared}");
    assert!(compared > 1_000);
}

/// N6 of the check: never below the rule's low end, and a flag exactly above its high end.
#[test]
fn output_never_lies_below_the_low_end_of_its_rule() {
    for (profile, rule) in
        every_shipped().iter().flat_map(|p| output_rules().into_iter().map(move |r| (p, r)))
    {
        let dial = oracle::outputs(profile);
        for (threshold, &t) in (0..).zip(&dial) {
            let OutputPlan::At { position, flagged } =
                output_plan(profile, &with_output_rule(rule), threshold)
            else {
                continue;
            };
            let [low, _, high] = oracle::band(rule, profile.output_unit().symbol(), t).unwrap();
            let set = dial[usize::from(position)];
            assert!(set >= low, "{} {rule:?}", profile.id);
            assert_eq!(flagged, set > high, "{} {rule:?}", profile.id);
        }
    }
}

/// A found output is flagged exactly when it lies below the low end of the rule on its threshold.
#[test]
fn an_output_is_below_its_rule_exactly_below_the_low_end() {
    for (profile, rule) in
        every_shipped().iter().flat_map(|p| output_rules().into_iter().map(move |r| (p, r)))
    {
        let (dial, rules) = (oracle::outputs(profile), with_output_rule(rule));
        for (threshold, &t) in (0..).zip(&dial) {
            let low = oracle::band(rule, profile.output_unit().symbol(), t).map(|[low, _, _]| low);
            for (set, &value) in (0..).zip(&dial) {
                let expected = low.is_some_and(|low| value < low);
                assert_eq!(
                    is_below_rule(profile, &rules, set, threshold),
                    expected,
                    "{} {rule:?}",
                    profile.id
                );
            }
        }
    }
}

#[test]
fn a_higher_threshold_never_gives_a_lower_output() {
    let height = |profile: &Profile, plan| match plan {
        OutputPlan::At { position, .. } => position,
        OutputPlan::Maximum | OutputPlan::OtherUnit => profile.output_last(),
    };
    for profile in every_shipped() {
        for rule in output_rules() {
            let rules = with_output_rule(rule);
            let plans =
                (0..=profile.output_last()).map(|t| height(&profile, output_plan(&profile, &rules, t)));
            assert!(plans.is_sorted(), "{} {rule:?}", profile.id);
        }
    }
}

#[test]
fn the_number_follows_every_rule_from_every_threshold() {
    for profile in every_shipped() {
        for (rule, chamber) in SensingRule::ALL.into_iter().flat_map(|r| CHAMBERS.map(|c| (r, c))) {
            let rules = with_sensing_rule(rule);
            for threshold in 0..=profile.mv_last() {
                let found = mv_rule_position(&profile, &rules, chamber, threshold);
                let expected = oracle::number_by_rule(&profile, rule, lowest(&rules, chamber), threshold);
                assert_eq!(found, expected, "{} {rule:?} {chamber:?} {threshold}", profile.id);
            }
        }
    }
}

#[test]
fn the_number_plan_follows_its_wording_from_every_present_number() {
    for profile in every_shipped() {
        for (rule, chamber) in SensingRule::ALL.into_iter().flat_map(|r| CHAMBERS.map(|c| (r, c))) {
            for threshold in 0..=profile.mv_last() {
                compare_number_plans(&profile, rule, chamber, threshold);
            }
        }
    }
}

fn compare_number_plans(profile: &Profile, rule: SensingRule, chamber: Chamber, threshold: u8) {
    let rules = with_sensing_rule(rule);
    let dial = oracle::numbers(profile);
    let least = lowest(&rules, chamber);
    let by_rule = oracle::number_by_rule(profile, rule, least, threshold);
    let (bound, itself) = oracle::number_bound(rule, dial[usize::from(threshold)]);
    for (present, &value) in (0..).zip(&dial) {
        let allowed = value >= least && (value < bound || (itself && value == bound));
        for saw in [false, true] {
            let plan = mv_plan(profile, &rules, chamber, threshold, present, saw);
            let expected = oracle::number_plan(by_rule, present, allowed, saw, value < least);
            assert_eq!(plan, expected, "{} {rule:?} {threshold} {present} {saw}", profile.id);
        }
    }
}

/// Half of an odd restore output is rounded up, so the margin shown is at least the half asked for.
#[test]
fn the_margin_position_is_the_lowest_at_or_above_half() {
    for profile in every_shipped() {
        let dial = oracle::outputs(&profile);
        for (restore, &value) in (0..).zip(&dial) {
            let half = value.times(Fraction::of(1, 2));
            let expected = dial.iter().position(|v| *v >= half).unwrap();
            assert_eq!(usize::from(margin_position(&profile, restore)), expected, "{}", profile.id);
        }
    }
}

/// The multiple shown is never more than the true one, and within a tenth of it.
#[test]
fn the_multiple_is_rounded_down_to_a_tenth() {
    for profile in every_shipped() {
        let dial = oracle::outputs(&profile);
        for (set, &s) in (0..).zip(&dial) {
            for (threshold, &t) in (0..).zip(&dial) {
                let text = multiple_text(&profile, set, threshold);
                let shown = Fraction::printed(&text);
                assert!(shown.times(t) <= s, "{text}");
                assert!(shown.plus(Fraction::of(1, 10)).times(t) > s, "{text}");
                assert!(!text.ends_with(".0"), "{text}");
            }
        }
    }
}

#[test]
fn the_starting_number_is_the_units_or_the_next_below() {
    let rules = Rules::example();
    for (profile, chamber) in every_shipped().iter().flat_map(|p| CHAMBERS.map(|c| (p, c))) {
        let wanted = Fraction::of(rules.starting_mv_uv(chamber), 1_000);
        let expected = oracle::numbers(profile).iter().rposition(|v| *v <= wanted).unwrap_or(0);
        assert_eq!(usize::from(starting_mv(profile, &rules, chamber)), expected, "{}", profile.id);
    }
}

/// 1.5 times 0.101 mA is 0.1515 mA, and half of 0.303 mA too: 0.151 is below both.
#[test]
fn a_fraction_of_a_microampere_is_rounded_to_the_safe_side() {
    let rule = OutputRule::Band { low_percent: 150, high_percent: 200, aim_percent: 150, floor_ua: 0 };
    let profile = with_outputs("mA", &["0.101", "0.151", "0.200", "0.303"]);
    let plan = output_plan(&profile, &with_output_rule(rule), 0);
    assert_eq!(plan, OutputPlan::At { position: 2, flagged: false });
    assert_eq!(margin_position(&profile, 3), 2);
}

fn lowest(rules: &Rules, chamber: Chamber) -> Fraction {
    Fraction::of(rules.lowest_mv_uv(chamber), 1_000)
}
