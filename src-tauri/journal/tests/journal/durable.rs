//! A commit waits for the disk. Kills cannot show that (the system keeps what a dead process wrote);
//! counting the calls that wait can.

#![cfg(target_os = "linux")]

use std::path::PathBuf;
use std::process::{Command, Stdio};

use crate::desk::{bodies, folder, open};
use crate::tools::is_there;

const FOLDER: &str = "HOLDFAST_TEST_SYNC_FOLDER";
const COMMITS: usize = 200;

/// Not a test by itself: it does nothing unless the next one started it.
#[test]
fn child() {
    let Ok(folder) = std::env::var(FOLDER) else { return };
    let mut journal = open(&PathBuf::from(folder));
    println!("commits begin");
    for body in bodies(1..=COMMITS as u32) {
        journal.append(&[body]).unwrap();
    }
    println!("commits end");
}

#[test]
fn each_commit_waits_once_for_the_disk() {
    let folder = folder();
    let trace = folder.path().join("trace");
    let started = Command::new("strace")
        .args(["-f", "-qq", "-e", "trace=fsync,fdatasync,write", "-o"])
        .arg(&trace)
        .arg(std::env::current_exe().unwrap())
        .args(["--exact", "durable::child", "--nocapture", "--test-threads", "1"])
        .env(FOLDER, folder.path().join("data"))
        .stdout(Stdio::null())
        .status();
    let traced = started.is_ok_and(|status| status.success());
    if !is_there(traced, "strace", "counting syncs needs strace, and it did not run here") {
        return;
    }
    let trace = std::fs::read_to_string(trace).unwrap();
    let (_, commits) = trace.split_once("commits begin").unwrap();
    let (commits, _) = commits.split_once("commits end").unwrap();
    let syncs = commits.lines().filter(|line| line.contains("sync(")).count();
    println!("{syncs} syncs for {COMMITS} commits");
    assert!((COMMITS..COMMITS + 10).contains(&syncs), "{syncs} syncs for {COMMITS} commits");
}
