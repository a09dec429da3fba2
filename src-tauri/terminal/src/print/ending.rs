//! The end of a rehearsal: the result, the lines of the code, the code.

use std::fmt::Write as _;

use super::qr::half_blocks;
use crate::rehearsal::Ending;

pub fn ending(ending: &Ending) -> String {
    let mut text = String::from("══ end ══════════════════════════════\n");
    let _ = writeln!(text, "{}", pretty(ending));
    for line in &ending.code_lines {
        let _ = writeln!(text, "{line}");
    }
    for line in half_blocks(&ending.code_modules) {
        let _ = writeln!(text, "{line}");
    }
    text
}

/// Outcome, thresholds, plan, flags, refusals and where the dials stay.
fn pretty(ending: &Ending) -> String {
    let mut json = ending.json();
    if let serde_json::Value::Object(map) = &mut json {
        // Said line by line below.
        map.remove("code");
    }
    format!("{json:#}")
}
