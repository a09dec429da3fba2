//! What a test needs besides Rust. Where it is not there the test is not tried, and says so past the harness, which
//! swallows what a passing test prints; `make test`, which sees to it that everything is there, fails.

use std::io::Write as _;

/// Set by the Makefile; another value than this lets a system that refuses something pass.
const TOOLS: &str = "HOLDFAST_TOOLS";

/// Whether it is there. `of_root` is what only root may do.
pub fn is_there(there: bool, of_root: bool, not_tried: &str) -> bool {
    let given = std::env::var(TOOLS).is_ok_and(|tools| tools == "given") && (!of_root || is_root());
    assert!(there || !given, "{not_tried}. Where the system refuses it: make test {TOOLS}=some");
    if !there {
        writeln!(std::io::stderr(), "NOT TRIED: {not_tried}").unwrap();
    }
    there
}

fn is_root() -> bool {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    status.lines().any(|line| line.starts_with("Uid:\t0\t"))
}
