//! A real ECG, counted as numpy counts it (`tests/outside/sense.py`), and what is said of files and options that
//! cannot be.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failing test stops")]

use serde_json::Value;
use simulator::{Dials, Generator, Sense, Timer};
use terminal::sense::{read, run};

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/sense");

fn excerpt() -> String {
    format!("{FOLDER}/excerpt.csv")
}

fn line(signal: &str, other: &str) -> Result<String, String> {
    let line = format!("--hz 360 --from 0.2 --to 1.5 --step 0.1 --blank-ms 250 --json {other}");
    let words: Vec<&str> = ["--signal", signal].into_iter().chain(line.split_whitespace()).collect();
    run(&words).map_err(|fault| fault.to_string())
}

#[test]
fn every_level_is_counted_as_numpy_counts_it() {
    let kept: Value =
        serde_json::from_str(&std::fs::read_to_string(format!("{FOLDER}/numpy.json")).unwrap()).unwrap();
    let mut compared = 0;
    for (blank, levels) in kept["blank_ms"].as_object().unwrap() {
        let other = format!("--from 0.05 --to 1.8 --step 0.025 --blank-ms {blank}");
        let ours: Value = serde_json::from_str(&line(&excerpt(), &other).unwrap()).unwrap();
        assert_eq!(&ours, levels, "blank {blank}");
        compared += levels.as_array().unwrap().len();
    }
    assert_eq!(compared, 3 * 71);
}

/// The generator fed the excerpt sample by sample, as long refractory as numpy looks away: it starts its timer again
/// with each beat that numpy counts.
#[test]
fn the_generator_itself_restarts_as_often_as_numpy_counts() {
    let text = std::fs::read_to_string(excerpt()).unwrap();
    let signal: Vec<i64> =
        read("excerpt", &text).unwrap().iter().map(|mv| (mv * 1_000.0).round() as i64).collect();
    let kept: Value =
        serde_json::from_str(&std::fs::read_to_string(format!("{FOLDER}/numpy.json")).unwrap()).unwrap();
    let mut compared = 0;
    for (blank_ms, levels) in kept["blank_ms"].as_object().unwrap() {
        let refractory_us = blank_ms.parse::<u32>().unwrap() * 1_000;
        for level in levels.as_array().unwrap() {
            let level_uv = (level["level_mV"].as_f64().unwrap() * 1_000.0).round() as u32;
            let sensed = restarts(&signal, level_uv, refractory_us);
            assert_eq!(sensed, level["sensed"].as_u64().unwrap(), "{level_uv} µV, {blank_ms} ms");
            compared += 1;
        }
    }
    assert_eq!(compared, 3 * 71);
}

fn restarts(signal: &[i64], level_uv: u32, refractory_us: u32) -> u64 {
    // Its first spike would come after a minute, and the excerpt lasts 20 s.
    let dials = Dials { rate_per_min: 1, output_micro: 100, sensitivity_uv: Some(level_uv) };
    let generator = Generator { refractory_us, blanking_us: 0, ..Generator::ventricular(dials) };
    let mut timer = Timer::new(generator, 0).unwrap();
    let at_us = |sample: u64| sample * 1_000_000 / 360;
    let pairs = (1..).zip(signal.windows(2));
    let sensed = pairs.map(|(at, pair)| timer.sense_rise(pair[0], pair[1], at_us(at)));
    sensed.map(|sense| u64::from(sense == Some(Sense::Restarted))).sum()
}

/// Figures as a file may hold them, none of them whole µV but the middle one of each three.
#[test]
fn a_figure_reaches_the_levels_at_or_below_it_and_no_other() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("signal.csv");
    let mut compared = 0;
    for level_uv in (1..6_000).step_by(29) {
        let level = f64::from(level_uv) / 1_000.0;
        for figure in [level.next_down(), level, level.next_up()] {
            std::fs::write(&file, format!("-1e2\n{figure:?}\n-0.0\n1e2\n")).unwrap();
            let other = format!("--from {level} --to {level} --blank-ms 0");
            let told: Value = serde_json::from_str(&line(file.to_str().unwrap(), &other).unwrap()).unwrap();
            let sensed = 1 + u64::from(figure >= level);
            assert_eq!(told[0]["sensed"].as_u64(), Some(sensed), "{figure:?} at {level}");
            compared += 1;
        }
    }
    assert_eq!(compared, 3 * 207);
}

#[test]
fn the_levels_are_those_asked_for() {
    let told: Value = serde_json::from_str(&line(&excerpt(), "").unwrap()).unwrap();
    let levels: Vec<f64> =
        told.as_array().unwrap().iter().map(|one| one["level_mV"].as_f64().unwrap()).collect();
    assert_eq!(levels, [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.4, 1.5]);
}

#[test]
fn blanking_counts_from_the_crossing_that_was_seen() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("signal.csv");
    std::fs::write(&file, "time,mV\n0,0\n1,1\n2,0\n3,1\n4,0\n5,1\n").unwrap();
    let counted = |blank: u32| {
        let other = format!("--hz 1000 --from 0.5 --to 0.5 --step 1 --blank-ms {blank}");
        let told: Value = serde_json::from_str(&line(file.to_str().unwrap(), &other).unwrap()).unwrap();
        told[0]["sensed"].as_u64().unwrap()
    };
    assert_eq!([0, 2, 3, 4, 5].map(counted), [3, 3, 2, 2, 1]);
    // Two samples at 2,001 Hz are half a microsecond less than 1 ms, which whole microseconds would not tell.
    std::fs::write(&file, "0\n1\n0\n1\n0\n").unwrap();
    let counted = |hz: u32| {
        let other = format!("--hz {hz} --from 0.5 --to 0.5 --blank-ms 1");
        let told: Value = serde_json::from_str(&line(file.to_str().unwrap(), &other).unwrap()).unwrap();
        told[0]["sensed"].as_u64().unwrap()
    };
    assert_eq!([2_000, 2_001].map(counted), [2, 1]);
}

/// Columns as other lands write them, and as a spreadsheet saves them.
#[test]
fn a_decimal_comma_is_read_where_something_else_parts_the_columns() {
    let plain = read("plain", "0.1\n-0.25\n1.5\n").unwrap();
    assert_eq!(plain, [0.1, -0.25, 1.5]);
    for other in [
        "s;mV\n0,00;0,1\n0,01;-0,25\n0,02;1,5\n",
        "\u{feff}s;mV\r\n0,00;0,1\r\n0,01;-0,25\r\n0,02;1,5\r\n",
        "\u{feff}0.1\n-0.25\n1.5\n",
        "0,0\t0,1\n0,0\t-0,25\n0,1\t1,5",
        "s,mV\n0.00,0.1\n0.00,-0.25\n0.01,1.5\n",
        "sample,lead,mV\n0,II,0.1\n1,II,-0.25\n2,II,1.5\n",
        "12:00:01,0.1\n12:00:02,-0.25\n12:00:03,1.5\n",
    ] {
        assert_eq!(read("other", other).unwrap(), plain, "{other:?}");
    }
}

#[test]
fn what_cannot_be_is_said_in_a_sentence() {
    let folder = tempfile::tempdir().unwrap();
    let written = |name: &str, text: &str| {
        let file = folder.path().join(name);
        std::fs::write(&file, text).unwrap();
        file.to_str().unwrap().to_owned()
    };
    let cases = [
        (written("empty.csv", ""), "", "holds no figure"),
        (written("heading.csv", "mV\n"), "", "holds no figure"),
        (written("nan.csv", "mV\n0.1\nNaN\n"), "", "line 3: \"NaN\""),
        (written("first.csv", "nan\n0.1\n"), "", "line 1: \"nan\""),
        (written("infinite.csv", "0.1\ninf\n"), "", "line 2: \"inf\""),
        (written("words.csv", "mV\n0.1\nlots\n"), "", "line 3: \"lots\""),
        (written("gap.csv", "mV\n0.1\n0.2,\n"), "", "line 3: \"\""),
        (format!("{FOLDER}/none.csv"), "", "cannot be read"),
        (written("uv.csv", "mV\n0.1\n250\n"), "", "line 3: \"250\" stands there; up to 100 mV"),
        (written("uv-below.csv", "0.1\n-100.5\n"), "", "line 2: \"-100.5\""),
        (written("comma.csv", "0,12\n0,48\n0,11\n"), "", "line 2: \"0,48\" stands there"),
        (written("comma-falls.csv", "1,2\n0,9\n"), "", "does not rise as time does"),
        (written("comma-below.csv", "mV\n-0,12\n-0,11\n"), "", "line 3: \"-0,11\""),
        (written("time.csv", "s,mV\n0.10,0.1\n0.09,0.2\n"), "", "line 3"),
        (written("marks.csv", "s;mV\n0,0;lots\n"), "", "line 2: \"lots\""),
        (excerpt(), "--hz 0", "--hz: 0 stands there; 1 to 100000"),
        (excerpt(), "--hz NaN", "--hz: NaN"),
        (excerpt(), "--hz -360", "--hz: -360"),
        (excerpt(), "--step 0", "--step: 0 stands there; 0.001 mV or more"),
        (excerpt(), "--to 0.1", "--to: 0.1 stands there; 0.200 mV or more"),
        (excerpt(), "--from NaN", "--from: NaN"),
        (excerpt(), "--to 900000 --step 0.001", "fewer than 100000 levels"),
        (excerpt(), "--blank-ms -1", "--blank-ms: -1"),
        (excerpt(), "--loud", "--loud: no such option"),
        (excerpt(), "--hz", "--hz is missing"),
    ];
    for (file, other, names) in cases {
        let said = line(&file, other).unwrap_err();
        assert!(said.contains(names), "{said:?} does not say {names:?}");
    }
}
