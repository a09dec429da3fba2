//! What the page may do, word for word: whoever widens it changes this test too.
#![allow(clippy::unwrap_used)]

use std::path::Path;

use serde_json::{Value, json};

fn read(path: &Path) -> Value {
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

fn room() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn the_page_loads_from_the_program_alone_and_speaks_to_it_alone() {
    let expected = json!({
        "csp": {
            "default-src": "'none'",
            "script-src": "'self'",
            "style-src": "'self'",
            "font-src": "'self'",
            "connect-src": "ipc: http://ipc.localhost",
            "base-uri": "'none'",
            "form-action": "'none'",
            "frame-ancestors": "'none'",
        },
        "freezePrototype": true,
        "dangerousDisableAssetCspModification": false,
        "capabilities": ["bedside"],
    });
    assert_eq!(read(&room().join("tauri.conf.json"))["app"]["security"], expected);
}

#[test]
fn the_page_has_five_commands_and_nothing_of_the_host() {
    let files: Vec<_> = std::fs::read_dir(room().join("capabilities")).unwrap().collect();
    assert_eq!(files.len(), 1, "{files:?}");
    let mut capability = read(&files.into_iter().next().unwrap().unwrap().path());
    capability.as_object_mut().unwrap().remove("description");
    let expected = json!({
        "identifier": "bedside",
        "local": true,
        "windows": ["main"],
        "permissions": ["allow-send", "allow-watch", "allow-watch-strip", "allow-painted", "allow-hand-in"],
    });
    assert_eq!(capability, expected);
}
