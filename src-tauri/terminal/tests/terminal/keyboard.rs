//! The program itself: a check by keyboard with the real session, the record verified beside it, and what it
//! says when it cannot.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failing test stops")]

use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Output, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use domain::contract::Shape;
use terminal::rehearsal::rehearse;

/// On a machine that does many things at once.
const PATIENCE: Duration = Duration::from_secs(60);

struct Keyboard {
    child: Child,
    keys: Option<ChildStdin>,
    lines: Receiver<String>,
    seen: Vec<String>,
    /// Lines seen before the last key: their menus are of an older card.
    old: usize,
}

impl Keyboard {
    fn at_the_bedside(folder: &Path) -> Keyboard {
        let mut child = Command::new(env!("CARGO_BIN_EXE_terminal"))
            .args(["bedside", "--data"])
            .arg(folder)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let (sender, lines) = channel();
        let out = BufReader::new(child.stdout.take().unwrap());
        std::thread::spawn(move || out.lines().map_while(Result::ok).try_for_each(|line| sender.send(line)));
        let keys = child.stdin.take();
        Keyboard { child, keys, lines, seen: Vec::new(), old: 0 }
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
        self.seen.extend(self.lines.try_iter());
        self.old = self.seen.len();
        writeln!(self.keys.as_mut().unwrap(), "{line}").unwrap();
    }

    /// Presses the key that stands before a label.
    fn presses(&mut self, label: &str) {
        let is_it =
            |line: &&String| line.trim_start().split_once("  ").is_some_and(|(_, said)| said == label);
        let end = Instant::now() + PATIENCE;
        let line = loop {
            if let Some(line) = self.seen[self.old..].iter().rev().find(is_it) {
                break line.trim_start().to_owned();
            }
            assert!(Instant::now() < end, "no key for \"{label}\":\n{}", self.seen.join("\n"));
            self.seen.extend(self.lines.recv_timeout(Duration::from_millis(200)));
        };
        let key = line.split_once("  ").unwrap().0.to_owned();
        self.types(&key);
    }

    /// Answers every card of a check as the nurse of a rehearsal does: the same cards must come.
    fn goes_through(&mut self, scenario: &str) {
        let path = format!("{}/../../scenarios/{scenario}.json", env!("CARGO_MANIFEST_DIR"));
        let ready = terminal::scenario::read_file(Path::new(&path)).unwrap();
        let mut cards = Vec::new();
        rehearse(&ready, &mut |seen| cards.push(seen.clone())).unwrap();
        for seen in cards {
            let card = terminal::print::card(&seen);
            let answered = card.lines().find_map(|line| line.trim().strip_prefix("answered "));
            self.presses(answered.unwrap());
            let Shape::Form(form) = &seen.view.shape else { continue };
            for field in form.fields.iter().filter(|field| seen.typed.contains_key(&field.id)) {
                self.until(&field.label);
                self.types(&seen.typed[&field.id]);
            }
        }
    }

    /// Nothing of the log has come among the cards.
    fn leaves(mut self) {
        self.types("q");
        self.keys = None;
        assert!(self.child.wait().unwrap().success());
        let mut logged = String::new();
        self.child.stderr.take().unwrap().read_to_string(&mut logged).unwrap();
        assert_eq!(logged, "");
    }
}

fn run(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_terminal")).args(words).env_remove("HOLDFAST_DATA").output().unwrap()
}

fn complaint(words: &[&str]) -> String {
    let output = run(words);
    assert!(!output.status.success(), "{words:?} went well");
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.ends_with(".\n"), "no sentence: {said}");
    said
}

/// A first start, a bed, a wire, and a check to its result; what it found is then in the record and its code.
fn a_whole_check(scenario: &str, found: &[&str]) {
    let folder = tempfile::tempdir().unwrap();
    let place = folder.path().to_str().unwrap();
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
    keyboard.presses("Start a pacing check");
    keyboard.until("Is there an order, and may you do this check?");
    keyboard.types("z");
    keyboard.until("z: no such key.");
    keyboard.until("leave the terminal");
    keyboard.old = keyboard.seen.len() - 5;
    keyboard.goes_through(scenario);
    keyboard.until("leave the terminal");
    let verified = run(&["verify", place]);
    let said = String::from_utf8(verified.stdout).unwrap();
    assert!(verified.status.success() && said.contains("holds"), "beside the running session: {said}");
    keyboard.leaves();
    let code = String::from_utf8(run(&["code", place]).stdout).unwrap();
    for line in found {
        assert!(code.contains(line), "{line:?} is not in {code}");
    }
    let log = std::fs::read_to_string(folder.path().join("bedside.log")).unwrap();
    assert!(log.contains("record verified"), "{log}");
}

/// Stopped in the own rhythm, so that it takes less than a minute: its watches are real ones.
#[test]
fn a_check_by_keyboard_goes_to_its_end_and_is_in_the_record() {
    let found = ["RATE: 80 /min", "OUTPUT: 6.0 mA", "mV: 2.0", "Capture threshold: not tested"];
    a_whole_check("stop-own-rhythm", &found);
}

/// With both thresholds found: some five minutes of watches.
#[test]
#[ignore = "some five minutes"]
fn a_plain_check_by_keyboard_finds_what_the_rehearsal_finds() {
    let found = [
        "RATE: 80 /min",
        "OUTPUT: 5.4 mA",
        "mV: 2.0",
        "Capture threshold: 1.8 mA",
        "Sensing threshold: 8.0 mV",
    ];
    a_whole_check("plain-v", &found);
}

#[test]
fn what_it_cannot_do_it_says_in_a_sentence() {
    assert!(complaint(&[]).contains("--help"));
    let unknown = complaint(&["fly", "away"]);
    assert!(unknown.contains("fly away") && unknown.contains("--help"), "{unknown}");
    let misused = complaint(&["rehearse"]);
    assert!(misused.contains("rehearse FILE [--json]") && !misused.contains("no command"), "{misused}");
    let misused = complaint(&["prove", "--checks", "3"]);
    assert_eq!(misused.matches("prove --").count(), 3, "each way to type it, and no other: {misused}");
    assert!(complaint(&["prove", "--replay", "x"]).contains("\"x\" is no whole number"));
    assert!(complaint(&["rehearse", "nowhere.json"]).contains("nowhere.json"));
    assert!(complaint(&["bedside"]).contains("--data FOLDER"));
    let empty = tempfile::tempdir().unwrap();
    let place = empty.path().to_str().unwrap();
    let none = complaint(&["verify", place]);
    assert!(none.contains(place) && none.contains("Name the folder that holds"), "{none}");
    assert!(!none.contains("empty folder"), "{none}");
}

#[test]
fn help_is_one_command_a_line_and_no_failure() {
    let output = run(&["--help"]);
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.success() && output.stderr.is_empty());
    assert_eq!(said.lines().count(), 13, "{said}");
    let readme = include_str!("../../../../README.md");
    for line in said.lines() {
        let name = line.split([' ', '[']).next().unwrap();
        assert!(readme.contains(&format!("terminal -- {name} ")), "README does not tell {line}");
    }
    for other in [&["help"][..], &["-h"], &["rehearse", "--help"]] {
        assert_eq!(String::from_utf8(run(other).stdout).unwrap(), said);
    }
}

#[test]
fn the_last_line_of_json_has_the_keys_that_others_read() {
    let plain = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scenarios/plain-v.json");
    let output = run(&["rehearse", plain, "--json"]);
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
