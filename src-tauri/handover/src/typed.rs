//! What a hand scanner or a paste does to a text before it arrives.

/// Line breaks as they were written, and none at the end: scanners type Enter, and Enter is not one byte
/// everywhere. Nothing else is mended; a keyboard layout that changes letters shows as a damaged code.
pub fn as_written(typed: &str) -> String {
    let lines = typed.replace("\r\n", "\n").replace('\r', "\n");
    lines.trim_end_matches('\n').to_owned()
}

/// Begins like a code of ours, but in letters of another keyboard: `HOLDFAST` in other capitals or without what a
/// country's keys move, or letters that no code has.
pub fn is_mangled(text: &str) -> bool {
    const LIKE: [&str; 6] = ["HOLDFAST", "HOLDFQST", "HFC1", "HFC&", "HFC2", "HFC\u{c9}"];
    let start: String = text.trim_start().chars().take(8).collect::<String>().to_uppercase();
    let alike = LIKE.iter().any(|like| start.starts_with(like));
    const OURS: [&str; 4] = ["HOLDFAST 1 ", "HOLDFAST 2 ", "HFC1:", "HFC2:"];
    let as_ours = OURS.iter().any(|start| text.starts_with(start));
    alike && (!as_ours || !text.is_ascii() || !text.contains(':'))
}
