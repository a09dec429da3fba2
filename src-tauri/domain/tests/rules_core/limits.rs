//! Every threshold × limits on the dial, between its positions and beside them × every shipped generator, against
//! the printed figures as exact fractions.

use domain::check::facts::{Facts, Found, NONE};
use domain::check::step::Step;
use domain::ending;
use domain::flags::Flag;
use domain::moment::Moment;
use domain::profile::Profile;
use domain::rules::{Chamber, NumberRule, Rules};
use domain::state::State;
use domain::state::bed::{Names, OpenCheck, Polarity, Wire, WireKind};
use serde_json::{Value, json};
use uuid::Uuid;

use crate::made::every_shipped;
use crate::oracle::{self, Fraction};

const NOW: Moment = Moment { wall_ms: 1_795_552_800_000, offset_min: 0, boot_ms: 0, boot: 1, fresh: [1; 16] };

/// One generator with a wire, under rules with one limit.
struct World {
    state: State,
    wire: Wire,
    rules: Box<Rules>,
}

impl World {
    fn new(profile: &Profile, chamber: Chamber, name: &str, limit: &str) -> World {
        let mut file = Value::from(Rules::example());
        file[name] = json!(limit);
        let (kind, polarity) = (WireKind::Epicardial, Polarity::Bipolar);
        World {
            state: State { generators: vec![profile.clone()], ..State::default() },
            wire: Wire::new(1, chamber, kind, polarity, profile.id.clone(), NOW),
            rules: Box::new(Rules::try_from(file).unwrap()),
        }
    }

    /// What is told of a limit when a check ends so.
    fn told(&self, facts: Facts) -> Option<Flag> {
        let open = OpenCheck { rules: self.rules.clone(), ..OpenCheck::new(Uuid::nil(), facts, NOW) };
        let record = ending::record(&self.state, &self.wire, &open, &facts, &Names::default(), NOW).unwrap();
        let mut of_limits = record
            .flags
            .into_iter()
            .filter(|flag| matches!(flag, Flag::CaptureAboveLimit { .. } | Flag::SignalBelowLimit { .. }));
        let told = of_limits.next();
        assert_eq!(of_limits.next(), None, "two at once");
        told
    }
}

fn ended(profile: &Profile) -> Facts {
    let mut facts = Facts::new(Step::Done);
    facts.found = domain::check::facts::Dials { output: profile.output_last(), rate: 0, mv: 0 };
    facts.stand = facts.found;
    facts
}

/// Every figure of the dial that a unit may set, and a twentieth beyond each.
fn limits(name: &str, printed: &[&str]) -> Vec<String> {
    let number = NumberRule::named(name).unwrap();
    let hundredths = |text: &str| {
        let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
        whole.parse::<u32>().unwrap() * 100 + format!("{part:0<2}").parse::<u32>().unwrap()
    };
    let parts = number.unit.scale().unwrap() / 100;
    let all = printed.iter().flat_map(|text| [hundredths(text), hundredths(text) + 5]);
    all.filter(|value| number.allows(value * parts))
        .map(|value| format!("{}.{:02}", value / 100, value % 100))
        .collect()
}

fn outputs(profile: &Profile) -> Vec<&str> {
    (0..=profile.output_last()).map(|at| profile.output_text(at)).collect()
}

fn numbers(profile: &Profile) -> Vec<&str> {
    (0..=profile.mv_last()).map(|at| profile.mv_text(at)).collect()
}

#[test]
fn a_threshold_is_told_exactly_above_the_limit_of_its_unit() {
    let (mut told, mut compared) = (0, 0);
    for profile in every_shipped() {
        let unit = profile.output_unit().symbol();
        let dial = oracle::outputs(&profile);
        for name in ["capture_limit_mA", "capture_limit_V"] {
            for limit in limits(name, &outputs(&profile)) {
                let world = World::new(&profile, Chamber::Ventricle, name, &limit);
                for (at, &threshold) in (0..).zip(&dial) {
                    let facts = Facts { capture: Found::Exact, capture_at: at, ..ended(&profile) };
                    let expected =
                        name.ends_with(&format!("_{unit}")) && threshold > Fraction::printed(&limit);
                    assert_eq!(world.told(facts).is_some(), expected, "{} {name} {limit} {at}", profile.id);
                    let at_most = Facts { capture: Found::AtMost, ..facts };
                    assert_eq!(world.told(at_most), None, "{} {name} {limit} {at}", profile.id);
                    (told, compared) = (told + usize::from(expected), compared + 1);
                }
            }
        }
    }
    println!("thresholds: {compared}, above a limit: {told}");
    assert!(compared > 5_000 && told > 1_000);
}

/// Lost at one output and held at another: every threshold that may be is above the limit, or nothing is told.
#[test]
fn a_bracket_is_told_where_all_of_it_lies_above_the_limit() {
    let mut told = 0;
    for profile in every_shipped() {
        let dial = oracle::outputs(&profile);
        let name = format!("capture_limit_{}", profile.output_unit().symbol());
        for limit in limits(&name, &outputs(&profile)).iter().step_by(5) {
            let world = World::new(&profile, Chamber::Ventricle, &name, limit);
            for held in 1..=profile.output_last() {
                for lost in (0..held).rev().take(6) {
                    let facts = ended(&profile);
                    let facts =
                        Facts { capture: Found::Bracket, capture_at: held, capture_low: lost, ..facts };
                    let may_be = &dial[usize::from(lost) + 1..=usize::from(held)];
                    let expected = may_be.iter().all(|value| *value > Fraction::printed(limit));
                    assert_eq!(world.told(facts).is_some(), expected, "{} {limit} {lost} {held}", profile.id);
                    told += usize::from(expected);
                }
            }
        }
    }
    assert!(told > 1_000, "{told}");
}

#[test]
fn a_signal_is_told_exactly_below_the_limit_of_its_chamber() {
    let (mut told, mut compared) = (0, 0);
    let names =
        [(Chamber::Ventricle, "signal_limit_ventricle_mV"), (Chamber::Atrium, "signal_limit_atrium_mV")];
    for profile in every_shipped() {
        let dial = oracle::numbers(&profile);
        for (own, name) in names {
            for limit in limits(name, &numbers(&profile)) {
                for chamber in [Chamber::Ventricle, Chamber::Atrium] {
                    let world = World::new(&profile, chamber, name, &limit);
                    for (at, &signal) in (0..).zip(&dial) {
                        let facts = Facts { sensing: Found::Exact, sensing_at: at, ..ended(&profile) };
                        let expected = chamber == own && signal < Fraction::printed(&limit);
                        let place = format!("{} {name} {limit} {at}", profile.id);
                        assert_eq!(world.told(facts).is_some(), expected, "{place}");
                        for kind in [Found::AtLeast, Found::SeenWhereItStood] {
                            assert_eq!(world.told(Facts { sensing: kind, ..facts }), None, "{place}");
                        }
                        let none = Facts { sensing: Found::SeenAtNone, missed: at, ..ended(&profile) };
                        let sure = chamber == own && signal <= Fraction::printed(&limit);
                        assert_eq!(world.told(none).is_some(), sure, "{place}");
                        let pauses = Facts { missed: NONE, ..none };
                        assert_eq!(world.told(pauses), None, "{place}");
                        (told, compared) = (told + usize::from(expected), compared + 1);
                    }
                }
            }
        }
    }
    println!("signals: {compared}, below a limit: {told}");
    assert!(compared > 5_000 && told > 1_000);
}
