//! The closed loop at the command line: any harm is a failure of the program.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failing test stops")]

use std::process::{Command, Output};

fn prove(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_terminal")).arg("prove").args(words).output().unwrap()
}

fn said(output: &[u8]) -> String {
    String::from_utf8(output.to_vec()).unwrap()
}

/// The seed that stays harmed, and why, stands beside the million in `tests/src/closed_loop`.
#[test]
fn a_harmed_seed_fails_and_is_named() {
    let output = prove(&["--checks", "1", "--seed", "1997196"]);
    assert_eq!(output.status.code(), Some(1));
    let report = said(&output.stdout);
    assert!(report.contains("\n        1 harmed\n"), "{report}");
    assert!(report.contains("\nharm 1997196 SpikeOnTByCard("), "{report}");
    assert!(said(&output.stderr).contains("Harm was done, or"));
    let replay = prove(&["--replay", "1997196"]);
    assert!(replay.status.success());
    assert!(said(&replay.stdout).contains("\nSpikeOnTByCard("));
}

#[test]
fn checks_without_harm_succeed() {
    let output = prove(&["--checks", "3", "--seed", "1"]);
    let report = said(&output.stdout);
    assert_eq!(output.status.code(), Some(0), "{report}");
    assert!(report.starts_with("        3 checks\n"), "{report}");
    assert!(report.contains("\n        0 harmed\n        0 stuck\n"), "{report}");
}

#[test]
fn what_is_no_number_of_checks_is_refused() {
    let output = prove(&["--checks", "many", "--seed", "1"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(said(&output.stderr).starts_with("\"many\" is no whole number."));
}
