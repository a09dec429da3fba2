//! What a test needs besides Rust. Where it is not there the test is not tried, and says so past the harness, which
//! swallows what a passing test prints. `make test` sees to it that the programs are there and fails without them; a
//! system that lets nobody mount or trace cannot be helped.

use std::io::Write as _;
use std::process::Command;

/// Set by the Makefile.
const TOOLS: &str = "HOLDFAST_TOOLS";

/// Whether it could be done. `program` does it.
pub fn is_there(done: bool, program: &str, not_tried: &str) -> bool {
    let given = std::env::var(TOOLS).is_ok_and(|tools| tools == "given");
    let installed = || Command::new(program).arg("-V").output().is_ok();
    assert!(done || !given || installed(), "{not_tried}: {program} is missing");
    if !done {
        // A test that cannot even say so has nothing else to tell it by.
        writeln!(std::io::stderr(), "NOT TRIED: {not_tried}").ok();
    }
    done
}
