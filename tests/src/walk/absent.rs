//! What lets the walk switch guards off is not in what ships.

use std::process::Command;

/// The features of `domain` in the tree of what this package is built from.
fn features_of_domain_in(package: &str) -> String {
    let tree = ["tree", "--offline", "-p", package, "-e", "normal,build", "-f", "{p} [{f}]"];
    let said = Command::new(env!("CARGO")).args(tree).output().unwrap();
    assert!(said.status.success(), "{}", String::from_utf8_lossy(&said.stderr));
    let text = String::from_utf8(said.stdout).unwrap();
    let line = text.lines().find(|line| line.contains(" domain v"));
    let line = line.unwrap_or_else(|| panic!("{package} without domain:\n{text}"));
    line.rsplit('[').next().unwrap_or_default().to_owned()
}

#[test]
fn guards_cannot_be_switched_off_in_what_ships() {
    for package in ["holdfast", "terminal"] {
        let features = features_of_domain_in(package);
        assert!(!features.contains("walk"), "{package}: {features}");
    }
    assert!(features_of_domain_in("holdfast-tests").contains("walk"), "the features are not shown");
}
