//! The same seed gives the same bytes under another mathematical library: `other_math.c`, put before the system's,
//! whose every function that libraries may differ in gives nonsense. The compiler is the one that links this test.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failing test stops")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const MANIFEST: &str = env!("CARGO_MANIFEST_DIR");
const FILES: [&str; 3] = ["events.csv", "strip.csv", "strip.svg"];

fn other_library(folder: &Path) -> PathBuf {
    let library = folder.join("libother_math.so");
    let source = format!("{MANIFEST}/tests/other_math.c");
    let mut compiler = Command::new("cc");
    compiler.args(["-shared", "-fPIC", "-fno-builtin", "-o"]).arg(&library).arg(source);
    let compiled = compiler.output().unwrap();
    assert!(compiled.status.success(), "{}", String::from_utf8_lossy(&compiled.stderr));
    library
}

fn terminal(library: Option<&Path>) -> Command {
    let mut terminal = Command::new(env!("CARGO_BIN_EXE_terminal"));
    library.iter().for_each(|library| {
        terminal.env("LD_PRELOAD", library);
    });
    terminal
}

/// What was said, and the three files.
fn practised(library: Option<&Path>, file: &Path, seed: &str, into: &Path) -> (Output, Vec<Vec<u8>>) {
    let mut terminal = terminal(library);
    // Named alike in both, since the folder's name is said.
    terminal.current_dir(into).arg("practise").arg(file).args(["--seed", seed, "--out", "out"]);
    let output = terminal.output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.success(), "{}: {said}", file.display());
    (output, FILES.map(|name| std::fs::read(into.join("out").join(name)).unwrap()).to_vec())
}

/// Every exercise, a scenario, and a rhythm read from a CSV.
fn runs() -> Vec<PathBuf> {
    let scenarios = Path::new(MANIFEST).join("../../scenarios");
    let exercises = std::fs::read_dir(scenarios.join("exercises")).unwrap();
    let exercises = exercises.map(|entry| entry.unwrap().path());
    let is_exercise = |file: &PathBuf| file.file_name().is_some_and(|name| name != "schema.json");
    let others = ["plain-v.json", "irregular-v.json", "recorded/quiet.json"].map(|name| scenarios.join(name));
    exercises.filter(is_exercise).chain(others).collect()
}

#[test]
fn every_run_has_the_same_bytes_under_another_mathematical_library() {
    let folder = tempfile::tempdir().unwrap();
    let library = other_library(folder.path());
    let runs = runs();
    assert!(runs.len() > 16, "{runs:?}");
    for (at, file) in runs.iter().enumerate() {
        let seed = (at + 3).to_string();
        let [here, there] = ["here", "there"].map(|name| folder.path().join(name));
        [&here, &there].into_iter().for_each(|into| std::fs::create_dir_all(into).unwrap());
        let (said, files) = practised(None, file, &seed, &here);
        let (other, others) = practised(Some(&library), file, &seed, &there);
        assert_eq!(said.stdout, other.stdout, "{}", file.display());
        assert!(files == others, "{}: the files differ", file.display());
        assert!(files.iter().all(|bytes| bytes.len() > 1_000), "{}", file.display());
    }
}

/// The other library is really asked: the formula in this table, which is no part of any run, comes out as nonsense.
#[test]
fn a_figure_that_does_ask_the_library_is_another_one() {
    let folder = tempfile::tempdir().unwrap();
    let library = other_library(folder.path());
    let table = |library: Option<&Path>| {
        let mut terminal = terminal(library);
        let file = folder.path().join("scatter.svg");
        terminal.args(["prove", "--scatter", "2", "--seed", "1", "--svg"]).arg(file);
        String::from_utf8(terminal.output().unwrap().stdout).unwrap()
    };
    let other = table(Some(&library));
    assert!(table(None).contains("45.1%") && !other.contains("45.1%"), "{other}");
}
