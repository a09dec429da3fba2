//! A threshold that differs from beat to beat: how much a number of watched beats tells, and how often the plan's
//! real margin falls below the rule. Bounds set before the first run. n of n beats leave a miss rate of
//! 1 - 0.05^(1/n) in one case of twenty (RULE3); up to three positions are counted on the way up, so that the
//! result may lie above that bound in at most 15 of 100 checks.

use proof::{Scatter, left_open};
use simulator::{Capture, Dials, Generator, Heart, Patient, SpikeOutcome, What};

const CHECKS: u64 = 150;
const MOST_ABOVE_BOUND: f64 = 0.15;

#[test]
fn watched_beats_bound_the_misses_that_are_left() {
    let mut scatter = Scatter::begun();
    (1..=CHECKS).for_each(|seed| scatter.add(seed));
    println!("{scatter}");
    assert!(scatter.is_complete(CHECKS));
    let rows = &scatter.rows;
    for row in rows {
        let (found, above) = (row.miss_rates.len(), row.above_left_open(row.beats));
        assert!(found > 30, "{} beats: {found} thresholds", row.beats);
        assert!(above <= MOST_ABOVE_BOUND, "{} beats: {above}", row.beats);
    }
    // Five beats do not tell what thirty tell: the measure can fail.
    assert!(rows[0].above_left_open(30) > MOST_ABOVE_BOUND);
    assert!(rows[3].below_rule() < rows[0].below_rule());
    assert!(rows.is_sorted_by(|few, many| few.missed_by_95() >= many.missed_by_95()));
}

/// The formula itself, on the simulated heart: at an output that misses just that share of beats, n beats in a row
/// are captured in one watch of twenty. 4,000 watches of each; three and a half standard deviations are allowed.
#[test]
fn as_many_beats_pass_unmissed_in_one_watch_of_twenty() {
    const WATCHES: u32 = 4_000;
    const TOLERANCE: f64 = 0.012;
    let (middle, scatter) = (100_000_u32, 50_000);
    for beats in [5_u8, 10, 20, 30] {
        // Thresholds are drawn evenly about the middle.
        let captures = 1.0 - left_open(beats);
        let output_micro = middle - scatter + (captures * f64::from(2 * scatter)).round() as u32;
        let capture = Capture {
            going_down_micro: middle,
            going_up_micro: middle,
            scatter_micro: scatter,
            ..Capture::default()
        };
        let dials = Dials { rate_per_min: 80, output_micro, sensitivity_uv: None };
        let heart = Heart { capture, ..Heart::silent() };
        let mut patient = Patient::new(heart, Generator::ventricular(dials), u64::from(beats)).unwrap();
        let spikes = WATCHES * u32::from(beats);
        let events = patient.run(u64::from(spikes) * 750_000);
        let captured: Vec<bool> = events
            .iter()
            .filter_map(|event| match event.what {
                What::Spike { outcome, .. } => Some(outcome == SpikeOutcome::Captured),
                _ => None,
            })
            .collect();
        assert_eq!(captured.len(), spikes as usize);
        let unmissed = captured.chunks(beats.into()).filter(|watch| watch.iter().all(|one| *one)).count();
        let share = unmissed as f64 / f64::from(WATCHES);
        assert!((share - 0.05).abs() <= TOLERANCE, "{beats} beats: {share}");
    }
}
