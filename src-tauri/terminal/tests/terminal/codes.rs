//! `terminal code`: what is printed of a record.

use terminal::code::codes;

#[test]
fn a_folder_without_a_record_is_said_in_a_sentence() {
    let folder = tempfile::tempdir().unwrap();
    let said = codes(folder.path()).unwrap_err();
    assert!(said.ends_with('.') && said.len() > 20, "{said}");
}
