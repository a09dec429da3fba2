//! The program itself: a check by keyboard with the real session, the record verified beside it, and what it
//! says when it cannot.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failing test stops")]

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Output, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// On a machine that does many things at once.
const PATIENCE: Duration = Duration::from_secs(60);

struct Keyboard {
    child: Child,
    keys: Option<ChildStdin>,
    lines: Receiver<String>,
    seen: Vec<String>,
}

impl Keyboard {
    fn at_the_bedside(folder: &Path) -> Keyboard {
        let mut child = Command::new(env!("CARGO_BIN_EXE_terminal"))
            .args(["bedside", "--data"])
            .arg(folder)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let (sender, lines) = channel();
        let out = BufReader::new(child.stdout.take().unwrap());
        std::thread::spawn(move || out.lines().map_while(Result::ok).try_for_each(|line| sender.send(line)));
        let keys = child.stdin.take();
        Keyboard { child, keys, lines, seen: Vec::new() }
    }

    /// Waits until a line that holds `text` is printed.
    fn until(&mut self, text: &str) {
        let end = Instant::now() + PATIENCE;
        while Instant::now() < end {
            let Ok(line) = self.lines.recv_timeout(Duration::from_millis(200)) else { continue };
            let found = line.contains(text);
            self.seen.push(line);
            if found {
                return;
            }
        }
        panic!("\"{text}\" did not come:\n{}", self.seen.join("\n"));
    }

    /// Types a line, past the time within which it counts as the second half of a double tap.
    fn types(&mut self, line: &str) {
        std::thread::sleep(Duration::from_millis(400));
        writeln!(self.keys.as_mut().unwrap(), "{line}").unwrap();
    }

    /// Presses the key that stands before a label.
    fn presses(&mut self, label: &str) {
        let is_it =
            |line: &&String| line.trim_start().split_once("  ").is_some_and(|(_, said)| said == label);
        if !self.seen.iter().rev().take(12).any(|line| is_it(&line)) {
            self.until(&format!("  {label}"));
        }
        let line = self.seen.iter().rev().find(is_it).unwrap().trim_start().to_owned();
        let key = line.split_once("  ").unwrap().0.to_owned();
        self.types(&key);
    }

    fn leaves(mut self) {
        self.types("q");
        self.keys = None;
        assert!(self.child.wait().unwrap().success());
    }
}

fn terminal(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_terminal")).args(words).env_remove("HOLDFAST_DATA").output().unwrap()
}

fn complaint(words: &[&str]) -> String {
    let output = terminal(words);
    assert!(!output.status.success(), "{words:?} went well");
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.ends_with(".\n"), "no sentence: {said}");
    said
}

#[test]
fn a_check_by_keyboard_is_in_the_record() {
    let folder = tempfile::tempdir().unwrap();
    let mut keyboard = Keyboard::at_the_bedside(folder.path());
    keyboard.presses("I have read this");
    keyboard.presses("Add a bed");
    keyboard.presses("Add this bed");
    keyboard.until("Bed:");
    keyboard.types("Bay 3 (invented)");
    keyboard.presses("Add this wire");
    for field in ["Chamber [", "Kind [", "Polarity [", "Generator ["] {
        keyboard.until(field);
        keyboard.types("1");
    }
    keyboard.until("Bay 3 (invented)");
    keyboard.presses("Start a pacing check");
    keyboard.until("Is there an order, and may you do this check?");
    let verified = terminal(&["verify", folder.path().to_str().unwrap()]);
    let said = String::from_utf8(verified.stdout).unwrap();
    assert!(verified.status.success() && said.contains("holds"), "beside the running session: {said}");
    keyboard.types("z");
    keyboard.until("z: no such key.");
    keyboard.leaves();
}

#[test]
fn what_it_cannot_do_it_says_in_a_sentence() {
    assert!(complaint(&[]).contains("rehearse FILE"));
    assert!(complaint(&["fly", "away"]).contains("fly away"));
    assert!(complaint(&["rehearse", "nowhere.json"]).contains("nowhere.json"));
    assert!(complaint(&["bedside"]).contains("--data DIR"));
    let empty = tempfile::tempdir().unwrap();
    assert!(complaint(&["verify", empty.path().to_str().unwrap()]).len() > 20);
}

#[test]
fn the_last_line_of_json_has_the_keys_that_others_read() {
    let plain = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/plain-v.json");
    let output = terminal(&["rehearse", plain, "--json"]);
    assert!(output.status.success());
    let text = String::from_utf8(output.stdout).unwrap();
    let lines: Vec<serde_json::Value> =
        text.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    let (last, cards) = lines.split_last().unwrap();
    assert!(cards.len() > 40 && cards.iter().all(|card| card["card"].is_u64() && card["view"].is_object()));
    let keys: Vec<&String> = last.as_object().unwrap().keys().collect();
    let wanted = ["code", "flags", "outcome", "plan", "readback", "refusals", "stays", "thresholds"];
    assert_eq!(keys, wanted);
    let dials = serde_json::json!({ "rate_per_min": 80, "output_mA": 5.4, "sensitivity_mV": 2.0, "asynchronous": false });
    for key in ["plan", "readback", "stays"] {
        assert_eq!(last[key], dials, "{key}");
    }
    assert_eq!(last["thresholds"]["capture_mA"], 1.8);
    assert_eq!(last["thresholds"]["sensing_mV"], 8.0);
}
