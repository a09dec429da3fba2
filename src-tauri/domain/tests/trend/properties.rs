//! What must hold of any slope.

use domain::trend::{FEWEST_POINTS, Point, theil_sen};
use proptest::prelude::*;

const HALF_DAY: i64 = 720;

fn every_half_day(values: &[i64]) -> Vec<Point> {
    let point = |(at, value): (usize, &i64)| Point { minute: at as i64 * HALF_DAY, value: *value };
    values.iter().enumerate().map(point).collect()
}

#[test]
fn a_straight_line_is_its_own_slope() {
    let trend = theil_sen(&every_half_day(&[1000, 1100, 1200, 1300, 1400, 1500])).unwrap();
    assert_eq!([trend.slope, trend.low, trend.high].map(|slope| slope.per_day()), [200; 3]);
    assert!(trend.rises());
    assert_eq!(trend.minutes_to(1500, 1800), Some(3 * HALF_DAY));
    assert_eq!(trend.minutes_to(1500, 1500), Some(0));
}

#[test]
fn one_odd_check_makes_no_trend() {
    let trend = theil_sen(&every_half_day(&[1000, 1000, 1000, 9000, 1000, 1000, 1000])).unwrap();
    assert_eq!(trend.slope.per_day(), 0);
    assert!(!trend.rises());
    assert_eq!(trend.minutes_to(1000, 2000), None, "no check is brought forward");
}

#[test]
fn a_fall_never_reaches_a_limit_above() {
    let trend = theil_sen(&every_half_day(&[2000, 1800, 1600, 1400, 1200, 1000])).unwrap();
    assert!(trend.slope.is_falling() && !trend.rises());
    assert_eq!(trend.slope.minutes_to(1000, 2000), None);
}

#[test]
fn few_points_say_nothing() {
    assert!(theil_sen(&[]).is_none());
    assert!(theil_sen(&every_half_day(&[1000])).is_none());
    let same_minute = [Point { minute: 5, value: 1000 }, Point { minute: 5, value: 2000 }];
    assert!(theil_sen(&same_minute).is_none());
    let four = theil_sen(&every_half_day(&[1000, 2000, 3000, 4000])).unwrap();
    assert!(FEWEST_POINTS == 5 && !four.rises());
}

#[test]
fn a_slope_is_never_shown_smaller_than_it_is() {
    let up = theil_sen(&[Point { minute: 0, value: 0 }, Point { minute: 1441, value: 100 }]).unwrap();
    assert_eq!(up.slope.per_day(), 100, "99.93, rounded up");
    let down = theil_sen(&[Point { minute: 0, value: 100 }, Point { minute: 1441, value: 0 }]).unwrap();
    assert_eq!(down.slope.per_day(), -100);
}

proptest! {
    #[test]
    fn order_within_the_interval(values in prop::collection::vec(0..30_000_i64, 2..80), shift in -9_999..9_999_i64) {
        let points = every_half_day(&values);
        let trend = theil_sen(&points).unwrap();
        prop_assert!(trend.low.per_day() <= trend.slope.per_day());
        prop_assert!(trend.slope.per_day() <= trend.high.per_day());
        let shifted: Vec<Point> = points.iter().map(|p| Point { minute: p.minute, value: p.value + shift }).collect();
        prop_assert_eq!(theil_sen(&shifted).unwrap().slope.per_day(), trend.slope.per_day());
        let mirrored: Vec<Point> = points.iter().map(|p| Point { minute: p.minute, value: -p.value }).collect();
        prop_assert_eq!(theil_sen(&mirrored).unwrap().slope.per_day(), -trend.slope.per_day());
    }

    #[test]
    fn largest_figures_do_not_overflow(values in prop::collection::vec(any::<u32>(), 2..70)) {
        let point = |(at, value): (usize, &u32)| Point { minute: at as i64 * 40_000_000, value: i64::from(*value) };
        let points: Vec<Point> = values.iter().enumerate().map(point).collect();
        prop_assert!(theil_sen(&points).is_some());
    }
}
