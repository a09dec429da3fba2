//! The second model: exact fractions of what is printed, searched from the top, clause by clause
//! from the wording of the rules. It shares no arithmetic with the product.

use std::cmp::Ordering;

use domain::plan::{MvPlan, OutputPlan};
use domain::profile::Profile;
use domain::rules::{OutputRule, SensingRule};

/// A fraction with a denominator above zero.
#[derive(Clone, Copy, Debug)]
pub struct Fraction(i128, i128);

impl Fraction {
    pub fn of(numerator: u32, denominator: u32) -> Self {
        Self(numerator.into(), denominator.into())
    }

    pub fn printed(text: &str) -> Self {
        let places = text.chars().rev().position(|c| c == '.').unwrap_or(0);
        let digits: String = text.chars().filter(char::is_ascii_digit).collect();
        Self(digits.parse().unwrap(), 10_i128.pow(places.try_into().unwrap()))
    }

    pub fn times(self, other: Self) -> Self {
        Self(self.0 * other.0, self.1 * other.1)
    }

    pub fn plus(self, other: Self) -> Self {
        Self(self.0 * other.1 + other.0 * self.1, self.1 * other.1)
    }

    pub fn minus(self, other: Self) -> Self {
        self.plus(Self(-other.0, other.1))
    }

    pub fn or_more(self, other: Self) -> Self {
        if self > other { self } else { other }
    }
}

impl PartialEq for Fraction {
    fn eq(&self, other: &Self) -> bool {
        self.0 * other.1 == other.0 * self.1
    }
}

impl PartialOrd for Fraction {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        (self.0 * other.1).partial_cmp(&(other.0 * self.1))
    }
}

pub fn outputs(profile: &Profile) -> Vec<Fraction> {
    (0..=profile.output_last()).map(|p| Fraction::printed(profile.output_text(p))).collect()
}

pub fn numbers(profile: &Profile) -> Vec<Fraction> {
    (0..=profile.mv_last()).map(|p| Fraction::printed(profile.mv_text(p))).collect()
}

/// Low end, aim and high end of the rule, in the dial's own unit; none for mA words on volts.
pub fn band(rule: OutputRule, unit: &str, t: Fraction) -> Option<[Fraction; 3]> {
    match (rule, unit) {
        (OutputRule::Double, _) => Some([t.plus(t); 3]),
        (OutputRule::DoublePlusOne, "mA") => Some([t.plus(t).plus(Fraction::of(1, 1)); 3]),
        (OutputRule::DoublePlusOne, _) => None,
        (OutputRule::Band { low_percent, high_percent, aim_percent, floor_ua }, unit) => {
            let times = |percent: u16| t.times(Fraction::of(percent.into(), 100));
            let floor = if unit == "mA" { t.plus(Fraction::of(floor_ua, 1_000)) } else { Fraction::of(0, 1) };
            let low = times(low_percent).or_more(floor);
            Some([low, times(aim_percent).or_more(low), times(high_percent).or_more(low)])
        }
    }
}

pub fn output_plan(profile: &Profile, rule: OutputRule, threshold: u8) -> OutputPlan {
    let dial = outputs(profile);
    let t = dial[usize::from(threshold)];
    let Some([low, aim, high]) = band(rule, profile.output_unit().symbol(), t) else {
        return OutputPlan::OtherUnit;
    };
    let mut lowest_that_is_enough = None;
    for (i, &value) in dial.iter().enumerate().rev() {
        if value < low {
            break;
        }
        lowest_that_is_enough = Some((i, value));
        if value <= aim {
            break;
        }
    }
    lowest_that_is_enough.map_or(OutputPlan::Maximum, |(i, value)| OutputPlan::At {
        position: u8::try_from(i).unwrap(),
        flagged: value > high,
    })
}

/// The greatest number the rule allows, and whether that number itself is allowed.
pub fn number_bound(rule: SensingRule, t: Fraction) -> (Fraction, bool) {
    let half = t.times(Fraction::of(1, 2));
    match rule {
        SensingRule::BelowHalf => (half, false),
        SensingRule::Half => (half, true),
        SensingRule::HalfLessOne => (half.minus(Fraction::of(1, 1)), true),
        SensingRule::OneThird => (t.times(Fraction::of(1, 3)), true),
    }
}

pub fn number_by_rule(profile: &Profile, rule: SensingRule, lowest: Fraction, threshold: u8) -> Option<u8> {
    let dial = numbers(profile);
    let (bound, itself) = number_bound(rule, dial[usize::from(threshold)]);
    let fits = |value: &Fraction| (*value < bound || (itself && *value == bound)) && *value >= lowest;
    dial.iter().rposition(fits).map(|i| u8::try_from(i).unwrap())
}

/// From the wording: a number that saw every beat, at or below the rule and at or above the
/// lowest ever set, stays; only ever lowered; nothing between lowest and rule: refused.
pub fn number_plan(
    by_rule: Option<u8>,
    present: u8,
    present_allowed: bool,
    saw: bool,
    below_lowest: bool,
) -> MvPlan {
    if saw && present_allowed {
        MvPlan::Stays
    } else if below_lowest {
        MvPlan::BelowLowest
    } else if by_rule.is_some_and(|to| to < present) {
        MvPlan::Down { to: by_rule.unwrap() }
    } else {
        MvPlan::Refused
    }
}
