//! The files as they leave, kept for a person to read and for validators of other origin.

use std::path::Path;

use export::{Between, Care, between_csv, bundle, csv};

use crate::made::{atrium, moved, ventricle};

fn made_now() -> [(&'static str, Vec<u8>); 3] {
    let (ventricle, atrium, moved) = (ventricle(), atrium(), moved());
    let checks = [Care::of_wire(&ventricle), Care::of_wire(&atrium)].concat();
    let between = Between::of_bed(&moved, &moved.beds[0]);
    let bundle = format!("{:#}\n", bundle(&checks, &between).unwrap());
    [
        ("checks.csv", csv(&checks).unwrap()),
        ("between.csv", between_csv(&between).unwrap()),
        ("bundle.json", bundle.into_bytes()),
    ]
}

/// `UPDATE=1` writes them; whoever does reads what changed.
#[test]
fn the_files_are_as_kept() {
    for (name, bytes) in made_now() {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kept").join(name);
        if std::env::var_os("UPDATE").is_some() {
            std::fs::write(&file, &bytes).unwrap();
        }
        let kept = std::fs::read(&file).unwrap_or_else(|error| panic!("{name}: {error}"));
        assert!(kept == bytes, "{name} differs; UPDATE=1 writes it");
    }
}
