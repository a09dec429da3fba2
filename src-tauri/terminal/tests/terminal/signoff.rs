//! `signoff verify` on the kept files of format 1.

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use terminal::signoff::verify;

    fn kept(name: &str) -> PathBuf {
        PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../signoff/tests/released/1"))
            .join(format!("{name}.holdfast"))
    }

    #[test]
    fn a_whole_file_is_said_to_be_unchanged_and_its_educator_unknown() {
        let said = verify(&kept("supervised"), None).unwrap();
        for line in ["Unchanged since it was signed.", "L. E. (invented)", "is not known on this tablet"] {
            assert!(said.contains(line), "{line} in {said}");
        }
        assert!(!said.contains("PRACTICE") && !said.contains("Practice"), "{said}");
    }

    #[test]
    fn what_comes_from_practice_is_marked() {
        let said = verify(&kept("practice"), None).unwrap();
        let mark = words::say(&domain::say::Say::MarkPractice, words::Language::English).unwrap();
        assert!(said.contains(&mark), "{said}");
        for line in [": not passed\n", "The practice run was not passed."] {
            assert!(said.contains(line), "{line} in {said}");
        }
    }

    #[test]
    fn an_altered_file_and_one_that_is_not_there_are_refused_in_words() {
        let folder = tempfile::tempdir().unwrap();
        let mut bytes = std::fs::read(kept("supervised")).unwrap();
        let middle = bytes.len() / 2;
        bytes[middle] ^= 1;
        let altered = folder.path().join("altered.holdfast");
        std::fs::write(&altered, bytes).unwrap();
        assert!(verify(&altered, None).unwrap_err().starts_with("Changed after it was signed."));
        assert!(verify(&folder.path().join("none"), None).is_err());
    }
}
