//! A recorded rhythm at the command line: the kept ECG excerpt (record 208 of the MIT-BIH Arrhythmia Database; its
//! source and licence stand in `tests/outside/sense.py`) as a heart's own rhythm, against numpy's counts of it.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failing test stops")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use practice::Exercise;
use serde_json::{Value, json};
use simulator::{AtrialRhythm, Chamber, Dials, Generator, Heart, MarkKind, Origin, Patient, What};

const SENSE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/sense");
const SAMPLE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/recorded");
const EXCERPT_US: u64 = 20_000_000;
const LEVEL_MV: f64 = 0.8;

/// The excerpt ends within its last beat: a quarter of a second more, level, lets that one be taken too.
fn excerpt() -> String {
    let text = std::fs::read_to_string(format!("{SENSE}/excerpt.csv")).unwrap();
    let last = text.lines().last().unwrap().to_owned();
    text + &format!("{last}\n").repeat(90)
}

fn heart() -> Heart {
    let mut file: Value =
        serde_json::from_str(&std::fs::read_to_string(format!("{SAMPLE}/quiet.json")).unwrap()).unwrap();
    let source = "MIT-BIH Arrhythmia Database, record 208";
    file["heart"]["recorded"] =
        json!({ "source": source, "file": "excerpt.csv", "hz": 360, "level_mV": LEVEL_MV });
    Exercise::from_json_beside(&file.to_string(), &|_| Ok(excerpt())).unwrap().heart(0)
}

/// How often numpy counted each level, 250 ms blanked; from the level that the beats were found by.
fn counted() -> Vec<(u32, usize)> {
    let kept: Value =
        serde_json::from_str(&std::fs::read_to_string(format!("{SENSE}/numpy.json")).unwrap()).unwrap();
    let levels = kept["blank_ms"]["250"].as_array().unwrap().iter().map(|level| {
        let uv = (level["level_mV"].as_f64().unwrap() * 1_000.0).round() as u32;
        (uv, usize::try_from(level["sensed"].as_u64().unwrap()).unwrap())
    });
    levels.filter(|(uv, _)| *uv >= (LEVEL_MV * 1_000.0) as u32).collect()
}

#[test]
fn the_recorded_beats_are_those_that_numpy_counts_at_every_level() {
    let heart = heart();
    let AtrialRhythm::Recorded(recording) = &heart.atrium else { panic!("{heart:?}") };
    let counted = counted();
    assert_eq!(counted.len(), 41);
    for (level_uv, sensed) in counted {
        let sees = recording.beats().iter().filter(|beat| beat.signal_uv.unwrap() >= level_uv);
        assert_eq!(sees.count(), sensed, "{level_uv}");
    }
}

/// A generator of each level on that heart marks as many beats as numpy counts; those that come within its
/// refractory period are marked as such.
#[test]
fn a_generator_marks_as_many_of_them() {
    let heart = heart();
    let AtrialRhythm::Recorded(recording) = &heart.atrium else { panic!("{heart:?}") };
    for (level_uv, sensed) in counted() {
        let dials = Dials { rate_per_min: 1, output_micro: 100, sensitivity_uv: Some(level_uv) };
        let mut patient = Patient::new(heart.clone(), Generator::ventricular(dials), 1).unwrap();
        let events = patient.run(EXCERPT_US);
        let is_seen = |what| matches!(what, What::Mark(mark) if mark.kind != MarkKind::Pace);
        let marked = events.iter().filter(|event| is_seen(event.what));
        assert_eq!(marked.count(), sensed, "{level_uv}");
        let own = What::Beat { chamber: Chamber::Ventricle, origin: Origin::Own };
        let beats = events.iter().filter(|event| event.what == own).count();
        assert_eq!(beats, recording.beats().len(), "every beat comes, marked or not");
    }
}

fn practise(file: &Path, folder: &Path) -> Output {
    let mut terminal = Command::new(env!("CARGO_BIN_EXE_terminal"));
    terminal.arg("practise").arg(file).args(["--seed", "4", "--out"]).arg(folder).output().unwrap()
}

#[test]
fn the_sample_is_led_and_judged_with_the_csv_that_lies_beside_it() {
    let folder = tempfile::tempdir().unwrap();
    let output = practise(&Path::new(SAMPLE).join("quiet.json"), folder.path());
    let told = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success() && told.starts_with("Quiet: passed\n"), "{told}");
    assert!(told.contains("\nmV: found 7.5, true 7.5\n"), "{told}");
    let events = std::fs::read_to_string(folder.path().join("events.csv")).unwrap();
    let own_at = |us: u64| events.contains(&format!("\n{us},Beat {{ chamber: Ventricle; origin: Own }}\n"));
    assert!(own_at(412_000), "the first beat of the recording comes at its instant");
    assert!(!own_at(1_188_000), "a spike at the found RATE comes before the second and puts it off");
    assert!(std::fs::read_to_string(folder.path().join("strip.csv")).unwrap().lines().count() > 100_000);
}

/// A folder with the sample and this recording beside it.
fn beside(folder: &Path, csv: Option<&str>) -> PathBuf {
    let file = folder.join("quiet.json");
    std::fs::copy(format!("{SAMPLE}/quiet.json"), &file).unwrap();
    csv.iter().for_each(|csv| std::fs::write(folder.join("invented-beats.csv"), csv).unwrap());
    file
}

#[test]
fn a_recording_that_cannot_be_is_refused_in_a_sentence() {
    for (csv, names) in [
        (None, "heart.recorded: invented-beats.csv cannot be read"),
        (Some(""), "heart.recorded: there is no figure in the CSV"),
        (Some("1\nNaN\n"), "line 2: \"NaN\" stands there"),
        (Some("1\n2\n"), "too short"),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let output = practise(&beside(folder.path(), csv), &folder.path().join("out"));
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(!output.status.success() && said.contains(names), "{said}");
        assert!(!folder.path().join("out").exists());
    }
}

/// A scenario's heart may be recorded too.
#[test]
fn a_scenario_is_rehearsed_on_a_recorded_rhythm() {
    let folder = tempfile::tempdir().unwrap();
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/plain-v.json");
    let mut scenario: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let recorded = json!({ "source": "invented", "file": "invented-beats.csv" });
    scenario["heart"].as_object_mut().unwrap().remove("atrium");
    scenario["heart"]["recorded"] = recorded;
    let file = folder.path().join("recorded.json");
    std::fs::write(&file, scenario.to_string()).unwrap();
    let read = || terminal::scenario::read_file(&file);
    let said = read().map(|_| ()).unwrap_err().to_string();
    assert!(said.starts_with("heart.recorded: invented-beats.csv cannot be read"), "{said}");
    std::fs::copy(format!("{SAMPLE}/invented-beats.csv"), folder.path().join("invented-beats.csv")).unwrap();
    let ready = read().unwrap();
    let ending = terminal::rehearsal::rehearse(&ready, &mut |_| {}).unwrap();
    assert_eq!(ending.json()["thresholds"]["sensing_mV"], json!(7.5));
}
