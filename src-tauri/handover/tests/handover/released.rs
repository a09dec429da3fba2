//! Codes of every released format, as files: they are read for ever. A file once released is never written again.

use std::path::{Path, PathBuf};

use handover::{Form, Summary, copy};

use crate::made::{
    ENDED, beyond_limits, held, in_danger, key, later, loaded, longest, longest_of_a_patient, signed,
    summary, text,
};

fn folder(version: u32) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/released").join(version.to_string())
}

/// What each format was released with.
fn formats() -> [(u32, [(&'static str, Summary); 2]); 5] {
    let beyond = [("ordinary", beyond_limits(summary())), ("longest", beyond_limits(longest_of_a_patient()))];
    let later = [("ordinary", later(summary())), ("longest", later(longest()))];
    let in_danger = [("ordinary", in_danger(summary())), ("longest", in_danger(longest_of_a_patient()))];
    let held = [("ordinary", held(summary())), ("longest", held(longest()))];
    let first = [("ordinary", summary()), ("longest", longest())];
    [(1, first), (2, later), (3, beyond), (4, in_danger), (5, held)]
}

fn content(summary: &Summary) -> Vec<u8> {
    let code = copy::sign(summary, &key()).unwrap();
    copy::opened(code.split_once(':').unwrap().1).unwrap().content
}

/// Version, name and bytes of every file, as the code writes it now.
fn written_now() -> Vec<(u32, String, Vec<u8>)> {
    let of = |version: u32, name: &str, made: &Summary| {
        let code = copy::sign(made, &key()).unwrap();
        vec![
            (version, format!("{name}.lines"), signed(made).into_bytes()),
            (version, format!("{name}.unsigned"), text(made).into_bytes()),
            (version, format!("{name}.copy"), code.into_bytes()),
            (version, format!("{name}.content"), content(made)),
        ]
    };
    let all = formats().into_iter().flat_map(|(version, kept)| kept.map(|one| (version, one)));
    all.flat_map(|(version, (name, made))| of(version, name, &made)).collect()
}

/// Each is kept in the format it is kept for: the longest one is not shortened out of it.
#[test]
fn each_kept_code_is_of_its_format() {
    for (version, name, bytes) in written_now() {
        let marks = [format!("HOLDFAST {version} en: "), format!("HFC{version}:")];
        let is_code = name.ends_with("lines") || name.ends_with("copy");
        let marked = marks.iter().any(|mark| bytes.starts_with(mark.as_bytes()));
        assert!(!is_code || marked, "{version}/{name}");
    }
}

/// Ed25519 has no chance in it: the same summary and key give the same bytes in every version. For the first
/// release of a format `HOLDFAST_WRITE_CODES=1` writes the files that are missing, and no other.
#[test]
fn what_is_written_now_is_what_was_released() {
    for (version, name, bytes) in written_now() {
        let file = folder(version).join(&name);
        if !file.exists() && std::env::var_os("HOLDFAST_WRITE_CODES").is_some() {
            std::fs::write(&file, &bytes).unwrap();
        }
        let kept = std::fs::read(&file).unwrap_or_else(|error| panic!("{version}/{name}: {error}"));
        assert!(kept == bytes, "{version}/{name} differs: another format needs another version");
    }
}

#[test]
fn codes_of_every_format_open() {
    for (version, name, whole) in
        formats().into_iter().flat_map(|(v, kept)| kept.map(|(name, whole)| (v, name, whole)))
    {
        for (ending, form) in [("lines", Form::Lines), ("copy", Form::Copy)] {
            let code = std::fs::read(folder(version).join(format!("{name}.{ending}"))).unwrap();
            let read = loaded(&code, whole.origin);
            assert_eq!((read.form, read.summary.newest.ended), (form, ENDED), "{name}.{ending}");
            if read.summary.left_out == 0 {
                assert_eq!(read.summary.newest, whole.newest, "{version}/{name}.{ending}");
            }
            assert_eq!(read.summary.newest.read_later, whole.newest.read_later, "{version}/{name}.{ending}");
            assert_eq!(read.key, key().public());
        }
    }
}
