//! What a hand scanner or a paste does to a text before it arrives.

/// Line breaks as they were written, and none at the end: scanners type Enter, and Enter is not one byte
/// everywhere. Nothing else is mended; a keyboard layout that changes letters shows as a damaged code.
pub fn as_written(typed: &str) -> String {
    let lines = typed.replace("\r\n", "\n").replace('\r', "\n");
    lines.trim_end_matches('\n').to_owned()
}
