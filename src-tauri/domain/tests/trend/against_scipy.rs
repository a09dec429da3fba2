//! 160 random series and what scipy.stats.theilslopes said of them (`tests/outside/theil_sen.py`; the versions stand
//! in the file).

use domain::trend::{MOST_POINTS, Point, Slope, theil_sen};

const FILE: &str = include_str!("series.json");

/// Micro-units per minute, for comparison only.
fn as_float(slope: &Slope) -> f64 {
    let (rise, run) = slope.fraction();
    rise as f64 / run as f64
}

fn series() -> Vec<serde_json::Value> {
    let file: serde_json::Value = serde_json::from_str(FILE).unwrap();
    assert_eq!(file["scipy"], "1.17.1");
    file["series"].as_array().unwrap().clone()
}

fn points(series: &serde_json::Value) -> Vec<Point> {
    let numbers = |name: &str| -> Vec<i64> {
        series[name].as_array().unwrap().iter().map(|value| value.as_i64().unwrap()).collect()
    };
    numbers("minutes")
        .into_iter()
        .zip(numbers("values"))
        .map(|(minute, value)| Point { minute, value })
        .collect()
}

#[test]
fn slope_and_interval_are_those_of_scipy() {
    let all = series();
    assert_eq!(all.len(), 160);
    for (number, series) in all.iter().enumerate() {
        let points = points(series);
        assert!(points.len() <= MOST_POINTS);
        let trend = theil_sen(&points).unwrap();
        for (name, ours) in [("slope", trend.slope), ("low", trend.low), ("high", trend.high)] {
            let (ours, theirs) = (as_float(&ours), series[name].as_f64().unwrap());
            assert!(
                (ours - theirs).abs() <= 1e-9 * theirs.abs().max(1e-6),
                "series {number}: {name} {ours} {theirs}"
            );
        }
    }
}

/// The series are of use: some rise, some do not, some have ties and repeated times.
#[test]
fn the_series_are_of_every_kind() {
    let (mut rising, mut flat, mut twice) = (0, 0, 0);
    for series in series() {
        let points = points(&series);
        let trend = theil_sen(&points).unwrap();
        rising += usize::from(trend.rises());
        flat += usize::from(!trend.low.is_rising() && !trend.high.is_falling());
        twice += usize::from(points.windows(2).any(|two| two[0].minute == two[1].minute));
    }
    assert!(rising > 20 && flat > 20 && twice >= 1, "{rising} {flat} {twice}");
}
