//! An exercise led and judged at the command line, in the words of the catalogue.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failing test stops")]

use std::path::Path;
use std::process::{Command, Output};

const EXERCISES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/exercises");

fn practise(file: &Path, folder: &Path) -> Output {
    practise_seed("4", file, folder)
}

fn practise_seed(seed: &str, file: &Path, folder: &Path) -> Output {
    let mut terminal = Command::new(env!("CARGO_BIN_EXE_terminal"));
    terminal.arg("practise").arg(file).args(["--seed", seed, "--out"]).arg(folder).output().unwrap()
}

#[test]
fn a_careful_run_is_judged_in_words() {
    let folder = tempfile::tempdir().unwrap();
    let quiet = Path::new(EXERCISES).join("quiet.json");
    let output = practise(&quiet, folder.path());
    let told = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success(), "{told}");
    assert!(told.starts_with("Quiet: passed\nDone: RATE down in steps, each watched ("), "{told}");
    assert!(told.contains("\nOUTPUT: found 1.3, true 1.3\nmV: found 9.0, true 9.0\n"), "{told}");
    assert!(!told.contains("Missed:") && !told.contains("Unsafe:"), "{told}");
    let strip = std::fs::read_to_string(folder.path().join("strip.csv")).unwrap();
    let events = std::fs::read_to_string(folder.path().join("events.csv")).unwrap();
    assert!(strip.lines().count() > 100_000 && events.lines().count() > 1_000);
}

#[test]
fn another_seed_is_another_patient() {
    let folder = tempfile::tempdir().unwrap();
    let output = practise_seed("3", &Path::new(EXERCISES).join("quiet.json"), folder.path());
    let told = String::from_utf8(output.stdout).unwrap();
    assert!(told.contains("\nOUTPUT: found 2.6, true 2.6\nmV: found 7.0, true 7.0\n"), "{told}");
}

#[test]
fn a_command_that_lacks_something_says_what_and_nothing_else() {
    let quiet = Path::new(EXERCISES).join("quiet.json");
    let quiet = quiet.to_str().unwrap();
    for (words, says) in [
        (vec!["practise", quiet], "practise: --seed N is missing.\n"),
        (vec!["practise", quiet, "--seed"], "practise: --seed N is missing.\n"),
        (vec!["practise"], "practise: FILE is missing.\n"),
        (vec!["signoff", "verify"], "signoff verify: FILE is missing.\n"),
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_terminal")).args(&words).output().unwrap();
        assert_eq!(String::from_utf8(output.stderr).unwrap(), says);
        assert!(!output.status.success());
    }
}

/// Of a run nobody has finished the cards' thresholds: what the app says.
#[test]
fn the_report_uses_the_words_of_the_app() {
    let folder = tempfile::tempdir().unwrap();
    let output = practise(&Path::new(EXERCISES).join("spikes-without-beats.json"), folder.path());
    let told = String::from_utf8(output.stdout).unwrap();
    assert!(told.contains("\nOUTPUT: found not tested, true 7.0\n"), "{told}");
    assert!(told.contains(" · OUTPUT 20.0 · RATE 80 · mV 2.0)\n"), "{told}");
}

#[test]
fn an_impossible_exercise_is_refused_with_place_and_allowed() {
    let folder = tempfile::tempdir().unwrap();
    let text = std::fs::read_to_string(Path::new(EXERCISES).join("quiet.json")).unwrap();
    for (from, to, names) in [
        (
            "\"own_mV\": 8.0",
            "\"own_mV\": -8.0",
            "heart.signal.own_mV: -8 stands there; a figure of zero or more is allowed",
        ),
        ("\"rate\": \"80\"", "\"rate\": \"81\"", "found.rate: RATE 81: no such position; 80 or 85?"),
        ("\"quiet\"", "\"loud\"", "id: “loud” is not known. Allowed: quiet,"),
    ] {
        assert!(text.contains(from));
        let file = folder.path().join("changed.json");
        std::fs::write(&file, text.replace(from, to)).unwrap();
        let output = practise(&file, folder.path());
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(!output.status.success() && said.contains(names), "{said}");
    }
}
