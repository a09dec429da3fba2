//! The program itself, where it can open no window.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used)]

use std::process::Command;

#[test]
fn without_a_display_it_says_so_and_leaves_no_data_behind() {
    let data = std::env::temp_dir().join(format!("holdfast-no-display-{}", std::process::id()));
    let out = Command::new(env!("CARGO_BIN_EXE_holdfast"))
        .env("HOLDFAST_DATA", &data)
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(i32::from(holdfast::NO_DISPLAY)), "{said}");
    assert!(said.contains("display"), "{said}");
    assert!(!data.exists(), "a data folder was made: {}", data.display());
}
