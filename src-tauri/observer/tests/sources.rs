//! Whoever answers must not know more than a person at the bedside: the sources name nothing of the check's
//! state, and nothing of what is behind the strip.

#![allow(clippy::unwrap_used, reason = "a failing test stops")]

use std::fs;
use std::path::{Path, PathBuf};

const ALLOWED: &[&str] = &["contract", "say", "profile"];
const FORBIDDEN: &[&str] = &["State", "Facts", "facts", "truth", "SpikeOutcome", "outcome", ".heart()"];

#[test]
fn the_observer_sees_cards_and_the_strip_alone() {
    let sources = sources(Path::new(env!("CARGO_MANIFEST_DIR")).join("src").as_path());
    assert!(sources.len() >= 10, "only {} sources found", sources.len());
    for path in sources {
        let text = fs::read_to_string(&path).unwrap();
        for word in FORBIDDEN {
            assert!(!text.contains(word), "{}: {word}", path.display());
        }
        for used in text.split("domain::").skip(1) {
            let room: String = used.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
            assert!(ALLOWED.contains(&room.as_str()), "{}: domain::{room}", path.display());
        }
    }
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries.flat_map(|path| if path.is_dir() { sources(&path) } else { vec![path] }).collect()
}
