//! A threshold that differs from beat to beat: how much a number of watched beats tells, and how often the plan's
//! real margin falls below the rule. Bounds set before the first run. n of n beats leave a miss rate of
//! 1 - 0.05^(1/n) in one case of twenty (RULE3); up to three positions are counted on the way up, so that the
//! result may lie above that bound in at most 15 of 100 checks.

use domain::check::facts::Found;
use domain::rules::{OutputRule, Rules};
use observer::Reading;
use proof::{Case, Shift, play};
use simulator::{Capture, Chamber, Heart};

use crate::shipped_by_id;

const CHECKS: u64 = 150;
const MOST_ABOVE_BOUND: f64 = 0.15;
/// The same in both directions: only the beats are looked at here. µA.
const MIDDLE: u32 = 1_600;

struct Row {
    beats: u8,
    /// Of each threshold found, the share of beats that it misses.
    miss_rates: Vec<f64>,
    /// Outputs set below double the one that misses no beat.
    below_double: u32,
}

fn case(seed: u64, beats: u8) -> Case {
    let mut rules = Rules::example();
    rules.beats_threshold = beats;
    rules.output_rule = OutputRule::Double;
    let scatter_micro = 100 + u32::try_from(seed % 4).unwrap() * 100;
    let capture =
        Capture { going_down_micro: MIDDLE, going_up_micro: MIDDLE, scatter_micro, ..Capture::default() };
    let found = Reading { output: "6.0".to_owned(), rate: "80".to_owned(), mv: Some("2.0".to_owned()) };
    Case {
        seed,
        port: Chamber::Ventricle,
        profile: shipped_by_id("example-fine-current"),
        rules,
        heart: Heart { capture, ..Heart::sinus(72) },
        found,
        plain: false,
        shift: Shift::default(),
    }
}

/// At this output: thresholds are drawn evenly about the middle.
fn miss_rate(scatter: u32, output: u32) -> f64 {
    let (scatter, above) = (f64::from(scatter), f64::from(MIDDLE + scatter) - f64::from(output));
    (above / (2.0 * scatter)).clamp(0.0, 1.0)
}

fn row(beats: u8) -> Row {
    let mut row = Row { beats, miss_rates: Vec::new(), below_double: 0 };
    for seed in 1..=CHECKS {
        let case = case(seed, beats);
        let record = play(&case).unwrap().record.unwrap();
        if record.capture != Found::Exact {
            continue;
        }
        let scatter = case.heart.capture.scatter_micro;
        row.miss_rates.push(miss_rate(scatter, case.profile.output_at(record.facts.capture_at)));
        row.below_double += u32::from(record.output_micro < 2 * (MIDDLE + scatter));
    }
    row
}

impl Row {
    /// The share of thresholds that miss more than n of n beats leave open.
    fn above_bound_of(&self, beats: u8) -> f64 {
        let bound = 1.0 - 0.05_f64.powf(1.0 / f64::from(beats));
        self.share(self.miss_rates.iter().filter(|rate| **rate > bound).count())
    }

    fn below_double(&self) -> f64 {
        self.share(usize::try_from(self.below_double).unwrap())
    }

    fn share(&self, count: usize) -> f64 {
        count as f64 / self.miss_rates.len().max(1) as f64
    }
}

#[test]
fn watched_beats_bound_the_misses_that_are_left() {
    let rows = [5, 10, 20, 30].map(row);
    for row in &rows {
        let (found, above, below) = (row.miss_rates.len(), row.above_bound_of(row.beats), row.below_double());
        println!(
            "{:>2} beats: {found:>3} thresholds, {above:.3} above their bound, real margin below double {below:.3}",
            row.beats
        );
        assert!(found > 30, "{} beats: {found} thresholds", row.beats);
        assert!(above <= MOST_ABOVE_BOUND, "{} beats: {above}", row.beats);
    }
    // Five beats do not tell what thirty tell: the measure can fail.
    assert!(rows[0].above_bound_of(30) > MOST_ABOVE_BOUND);
    assert!(rows[3].below_double() < rows[0].below_double());
}
