//! A threshold that climbs over days brings the next check forward, and nothing else does it by the slope.

use domain::check::facts::{Facts, Found};
use domain::ending;
use domain::flags::Flag;
use domain::moment::Moment;
use domain::record::Record;
use domain::state::bed::{Names, Wire};
use domain::state::screen::Screen;
use domain::units::OutputUnit;
use domain::{State, view};
use proptest::prelude::*;

use crate::made::{HOUR, MINUTE, at, bed, fine, output, record, state_with, wire, with_capture};

/// A check at this instant: threshold and set output as printed on the dial of tenths.
struct Done {
    at: Moment,
    kind: Found,
    threshold: String,
    set: String,
}

fn tenths(value: u32) -> String {
    format!("{}.{}", value / 10, value % 10)
}

fn done(at: Moment, threshold: u32, set: u32) -> Done {
    Done { at, kind: Found::Exact, threshold: tenths(threshold), set: tenths(set) }
}

fn facts(done: &Done) -> Facts {
    let mut facts = with_capture(&fine(), done.kind, &done.threshold);
    facts.stand.output = output(&fine(), &done.set);
    facts
}

fn wire_after(checks: &[Done]) -> (State, Wire) {
    let state = state_with(fine());
    let mut made = wire(1, &fine().id);
    for check in checks {
        let next = record(&state, &made, facts(check), &Names::default(), check.at);
        made.records.push(next);
    }
    (state, made)
}

fn last_of(checks: &[Done]) -> Record {
    wire_after(checks).1.records.pop().expect("a check")
}

fn minutes_to_next(record: &Record) -> i64 {
    assert_eq!((record.due_ms - record.ended.wall_ms) % MINUTE, 0);
    (record.due_ms - record.ended.wall_ms) / MINUTE
}

fn climbs(record: &Record) -> bool {
    record.flags.iter().any(|flag| matches!(flag, Flag::Climbs { .. }))
}

/// 1.0, 1.2, 1.4, 1.6, 1.8 mA, one every twelve hours: every pair rises 200 µA in 720 minutes, so the slope and both
/// ends of its interval do. Rising, the rule alone says 8 h (480 min). Narrow is 2 × in the example rules.
#[test]
fn the_next_check_comes_before_the_margin_is_eaten() {
    let table = [
        // set 5.4: 2 × is left until 2.7 mA; (2700 - 1800) × 720 / 200 = 3240 min, after the rule's own time.
        (54, 480, false),
        // set 3.8: until 1.9 mA; 100 × 720 / 200 = 360 min.
        (38, 360, true),
        // set 3.7: until 1.85 mA; 50 × 720 / 200 = 180 min.
        (37, 180, true),
        // set 3.6 is 2 × already, so capture itself counts: until 3.6 mA; 1800 × 720 / 200 = 6480 min.
        (36, 480, false),
        // set 1.9: until 1.9 mA; 100 × 720 / 200 = 360 min.
        (19, 360, true),
    ];
    for (set, minutes, flagged) in table {
        let checks: Vec<_> = (0..5).map(|n| done(at(i64::from(n) * 720), 10 + 2 * n, set)).collect();
        let last = last_of(&checks);
        assert_eq!((minutes_to_next(&last), climbs(&last)), (minutes, flagged), "set {}", tenths(set));
    }
}

/// 200 µA in half a day are 0.4 mA a day.
#[test]
fn the_flag_says_how_fast_and_asks_for_an_act() {
    let checks: Vec<_> = (0..5).map(|n| done(at(i64::from(n) * 720), 10 + 2 * n, 38)).collect();
    let expected = Flag::Climbs { per_day: "0.4".into(), unit: OutputUnit::MilliAmp };
    assert!(last_of(&checks).flags.contains(&expected));
}

#[test]
fn four_checks_one_odd_check_or_another_direction_are_no_climb() {
    let half_days = |n: u32| at(i64::from(n) * 720);
    let four: Vec<_> = (0..4).map(|n| done(half_days(n), 12 + 2 * n, 38)).collect();
    assert!(!climbs(&last_of(&four)));
    let odd = [10, 10, 10, 10, 10, 10, 19].iter().zip(0..).map(|(t, n)| done(half_days(n), *t, 39));
    assert!(!climbs(&last_of(&odd.collect::<Vec<_>>())));
    let mut mixed: Vec<_> = (0..5).map(|n| done(half_days(n), 10 + 2 * n, 38)).collect();
    mixed[..4].iter_mut().for_each(|check| check.kind = Found::Bracket);
    let last = last_of(&mixed);
    assert_eq!((minutes_to_next(&last), climbs(&last)), (12 * 60, false), "going down and going up differ");
}

/// The clock was set back a day before the fourth check: 0, 12, 24, 12, 24 h by the wall.
#[test]
fn a_clock_set_back_a_day_breaks_nothing() {
    let hours = [0, 12, 24, 12, 24];
    let checks: Vec<_> = hours.iter().zip(0..).map(|(h, n)| done(at(h * 60), 10 + 2 * n, 38)).collect();
    let last = last_of(&checks);
    assert!((0..=8 * 60).contains(&minutes_to_next(&last)), "{}", minutes_to_next(&last));
    let (state, wire) = wire_after(&checks);
    let shown = State { beds: vec![bed(1, "Bay 1", vec![wire])], ..state };
    let shown = State { screen: Screen::History { bed: 1, wire: 1 }, ..shown };
    let domain::contract::Shape::Chart(trend) = view(&shown, at(48 * 60)).shape else { panic!("no history") };
    let inside = |place: &(f32, f32)| (0.0..=1.0).contains(&place.0) && (0.0..=1.0).contains(&place.1);
    assert!(trend.charts.iter().all(|chart| chart.line.iter().chain(&chart.steps).all(inside)));
}

/// The slope of the records is the one that another implementation gives (`tests/trend/series.json`).
#[test]
fn records_have_the_slope_of_their_series() {
    let file: serde_json::Value =
        serde_json::from_str(include_str!("../../../src-tauri/domain/tests/trend/series.json")).unwrap();
    let mut compared = 0;
    for series in file["series"].as_array().unwrap() {
        let numbers = |name: &str| -> Vec<i64> {
            series[name].as_array().unwrap().iter().map(|value| value.as_i64().unwrap()).collect()
        };
        let model = last_of(&[done(at(0), 12, 36)]);
        let of = |(minute, value): (i64, i64)| {
            let ended = Moment { wall_ms: minute * MINUTE, ..at(0) };
            Record { ended, capture_micro: u32::try_from(value).ok(), ..model.clone() }
        };
        let records: Vec<Record> = numbers("minutes").into_iter().zip(numbers("values")).map(of).collect();
        if records.iter().any(|record| record.capture_micro.is_none()) {
            continue;
        }
        let (last, before) = records.split_last().unwrap();
        let (rise, run) = ending::trend(last, before).unwrap().slope.fraction();
        let theirs = series["slope"].as_f64().unwrap();
        assert!((rise as f64 / run as f64 - theirs).abs() <= 1e-9 * theirs.abs().max(1e-6));
        compared += 1;
    }
    assert!(compared >= 100, "only {compared} series of thresholds");
}

proptest! {
    /// Whatever was found before, and whenever by the clock: never later than by the last check alone, never earlier
    /// than the end of this one.
    #[test]
    fn the_slope_only_brings_the_check_forward(
        checks in prop::collection::vec((2_u32..60, 2_u32..60, -4_000_i64..4_000), 1..12)
    ) {
        let all: Vec<_> = checks.iter().map(|(t, set, m)| done(at(*m), *t, *set)).collect();
        let with = last_of(&all);
        let without = last_of(&all[all.len().saturating_sub(2)..]);
        prop_assert!(with.due_ms <= without.due_ms);
        prop_assert!(with.due_ms >= with.ended.wall_ms);
        prop_assert_eq!(climbs(&with), with.due_ms < without.due_ms);
        prop_assert!((without.due_ms - without.ended.wall_ms) % HOUR == 0);
    }
}
