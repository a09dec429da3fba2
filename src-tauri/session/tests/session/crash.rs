//! kill -9 at any moment and at every write: what was shown is recorded, the record holds, and the
//! next start opens on the right resume card.
//!
//! The child is this same program, run again as the test `child` with a folder in its environment.
//! A kill proves nothing about a power cut: for that the record's own tests count the syncs.

mod child;
mod recovered;

use std::io::{BufRead, BufReader, Read};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use child::{FOLDER, SEED, START, TAPS};
use recovered::{Acknowledged, expect_recovered};
use tempfile::TempDir;

use crate::hand_clock::HandClock;
use crate::nurse::Nurse;
use crate::tools::is_there;

const FIRST_BOOT_MS: i64 = 3_600_000;
/// Under a minute, under a quarter of an hour, and more: each its own resume card.
const GAPS_MS: [i64; 3] = [20_000, 200_000, 1_000_000];

/// In memory where that is to be had: a kill is no power cut, and a disk would only be slower.
fn folder() -> TempDir {
    let memory = Path::new("/dev/shm");
    let place = if memory.is_dir() { memory.to_owned() } else { std::env::temp_dir() };
    tempfile::tempdir_in(place).unwrap()
}

fn nurse(program: &mut Command, folder: &Path, start_ms: i64, seed: u64, taps: u32) -> Child {
    program
        .args(["--exact", "crash::child::child", "--nocapture", "--test-threads", "1"])
        .env(FOLDER, folder)
        .env(START, start_ms.to_string())
        .env(SEED, seed.to_string())
        .env(TAPS, taps.to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

fn this_program() -> Command {
    Command::new(std::env::current_exe().unwrap())
}

/// Everything it said before it died.
fn said(child: &mut Child) -> String {
    let mut bytes = Vec::new();
    child.stdout.take().unwrap().read_to_end(&mut bytes).unwrap();
    child.wait().unwrap();
    String::from_utf8_lossy(&bytes).into_owned()
}

/// Lets it show so many cards, then any moment more.
fn killed_after(folder: &Path, start_ms: i64, seed: u64, cards: u64, delay: Duration) -> Acknowledged {
    let mut child = nurse(&mut this_program(), folder, start_ms, seed, u32::MAX);
    let mut out = BufReader::new(child.stdout.take().unwrap());
    let mut said = Vec::new();
    let mut shown = 0;
    while shown < cards {
        let from = said.len();
        assert!(out.read_until(b'\n', &mut said).unwrap() > 0, "it ended by itself");
        shown += u64::from(said[from..].starts_with(b"card "));
    }
    std::thread::sleep(delay);
    child.kill().unwrap();
    out.read_to_end(&mut said).unwrap();
    child.wait().unwrap();
    Acknowledged::read(&String::from_utf8_lossy(&said), start_ms)
}

fn begun() -> TempDir {
    let folder = folder();
    let mut nurse = Nurse::in_a_check(folder.path(), &HandClock::at(FIRST_BOOT_MS - 60_000));
    nurse.reach_the_first_dial();
    nurse.session.close();
    folder
}

/// In each run of the tests.
const FOLDERS: u64 = 6;
const DEATHS: u64 = 20;

/// Twenty deaths a folder: each start goes on from what the death before left.
fn kill_at_random_moments(folders: u64, deaths: u64) {
    let mut in_a_check = 0;
    for place in 0..folders {
        let folder = begun();
        let mut start_ms = FIRST_BOOT_MS;
        for death in 0..deaths {
            let seed = place * 1_000 + death;
            let delay = Duration::from_micros(child::mixed(seed) % 15_000);
            let cards = 2 + child::mixed(seed + 3) % 14;
            let acknowledged = killed_after(folder.path(), start_ms, seed, cards, delay);
            let gap_ms = GAPS_MS[usize::try_from(child::mixed(seed + 7) % 4).unwrap() % 3];
            start_ms = acknowledged.latest_ms + gap_ms;
            in_a_check += u64::from(expect_recovered(folder.path(), &acknowledged, gap_ms));
        }
    }
    let kills = folders * deaths;
    println!("{kills} kills at random moments, {in_a_check} of them with dials read in an open check");
    assert!(in_a_check * 4 >= kills, "too few of them in a check: {in_a_check}");
}

#[test]
fn killed_at_random_moments_it_comes_back_whole() {
    kill_at_random_moments(FOLDERS, DEATHS);
}

#[test]
#[ignore = "full width: make prove"]
fn killed_at_a_thousand_random_moments_it_comes_back_whole() {
    kill_at_random_moments(50, DEATHS);
}

const WRITES: &str = "pwrite64,write,fdatasync,fsync,ftruncate,rename,unlink";

/// Kills the child as it enters its `n`th call of this kind on any thread. `None` when it never
/// came so far.
fn killed_at_call(call: &str, n: u32, folder: &Path, taps: u32) -> Option<Acknowledged> {
    let mut strace = Command::new("strace");
    strace.args(["-f", "-qq", "-o", "/dev/null", "-e", &format!("trace={call}")]);
    strace.args(["-e", &format!("inject={call}:signal=KILL:when={n}")]);
    strace.arg(std::env::current_exe().unwrap());
    let mut child = nurse(&mut strace, folder, FIRST_BOOT_MS, 3, taps);
    let said = said(&mut child);
    (!said.contains("the end")).then(|| Acknowledged::read(&said, FIRST_BOOT_MS))
}

pub fn can_trace() -> bool {
    let tried = Command::new("strace").args(["-qq", "-o", "/dev/null", "true"]).output();
    let traced = tried.is_ok_and(|output| output.status.success());
    is_there(traced, "strace", "killing at each write call needs strace, and it did not run here")
}

/// Where a walk that is killed at its calls begins.
#[derive(Clone, Copy, Debug)]
enum From {
    /// The first start of all.
    AnEmptyFolder,
    /// An open check, its dials read, at its first dial card.
    ACheck,
}

impl From {
    fn folder(self, begun: &Path) -> TempDir {
        let folder = folder();
        if matches!(self, From::ACheck) {
            for file in std::fs::read_dir(begun).unwrap() {
                let file = file.unwrap();
                std::fs::copy(file.path(), folder.path().join(file.file_name())).unwrap();
            }
        }
        folder
    }
}

/// Every call up to `most` of each kind, each on a folder of its own. How many there were.
fn kill_at_every_call(from: From, calls: &str, most: u32, taps: u32) -> u32 {
    let begun = begun();
    let (mut kills, mut in_a_check) = (0, 0);
    for call in calls.split(',') {
        for n in 1..=most {
            let folder = from.folder(begun.path());
            let Some(acknowledged) = killed_at_call(call, n, folder.path(), taps) else { break };
            in_a_check += u32::from(expect_recovered(folder.path(), &acknowledged, GAPS_MS[0]));
            kills += 1;
        }
    }
    println!(
        "{kills} kills from {from:?}, at every call of {calls} in a walk of {taps} taps, \
         {in_a_check} of them with dials read in an open check"
    );
    assert!(kills >= most, "only {kills}");
    let expected = matches!(from, From::ACheck);
    assert!(!expected || in_a_check * 4 >= kills * 3, "too few of them in a check: {in_a_check}");
    kills
}

#[test]
fn killed_at_every_write_it_comes_back_whole() {
    if !can_trace() {
        return;
    }
    let first = kill_at_every_call(From::AnEmptyFolder, WRITES, 20, 6);
    let check = kill_at_every_call(From::ACheck, WRITES, 40, 6);
    let random = FOLDERS * DEATHS;
    assert!(u64::from(first + check) + random >= 200, "{first}, {check} and {random} at random moments");
}

#[test]
#[ignore = "full width: make prove"]
fn killed_at_every_write_of_a_check_it_comes_back_whole() {
    if can_trace() {
        kill_at_every_call(From::AnEmptyFolder, WRITES, 600, 60);
        kill_at_every_call(From::ACheck, WRITES, 600, 60);
    }
}
