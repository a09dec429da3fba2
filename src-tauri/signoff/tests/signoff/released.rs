//! A signed file, once released, opens for ever, and the same paper is still signed as the same bytes.
//!
//! `HOLDFAST_WRITE_RELEASED=1` writes files of a new format once; a kept file is never written again.

use std::path::PathBuf;

use domain::teaching::ReadFile;

use crate::made::{all, token};

fn kept(name: &str) -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/released/1")).join(format!("{name}.holdfast"))
}

#[test]
fn files_of_format_1_open_and_are_still_written_so() {
    for (name, paper) in all() {
        let file = kept(name);
        if std::env::var_os("HOLDFAST_WRITE_RELEASED").is_some() && !file.exists() {
            std::fs::write(&file, token(&paper)).unwrap();
        }
        let bytes = std::fs::read(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let ReadFile::Sound(read) = signoff::read(&bytes) else { panic!("{name} is refused") };
        assert_eq!(read.paper, paper, "{name}");
        assert_eq!(bytes, token(&paper), "{name} is written otherwise by now");
    }
}
