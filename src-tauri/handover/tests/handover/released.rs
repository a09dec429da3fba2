//! Codes of every released format, as files: they are read for ever. A file once released is never written again.

use std::path::{Path, PathBuf};

use handover::{Form, Summary, copy};

use crate::made::{ENDED, key, loaded, longest, signed, summary, text};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/released/1")
}

fn content(summary: &Summary) -> Vec<u8> {
    let code = copy::sign(summary, &key()).unwrap();
    copy::opened(code.strip_prefix("HFC1:").unwrap()).unwrap().content
}

/// Name and bytes of every file of format 1, as the code writes it now.
fn written_now() -> Vec<(String, Vec<u8>)> {
    let of = |name: &str, made: &Summary| {
        let code = copy::sign(made, &key()).unwrap();
        vec![
            (format!("{name}.lines"), signed(made).into_bytes()),
            (format!("{name}.unsigned"), text(made).into_bytes()),
            (format!("{name}.copy"), code.into_bytes()),
            (format!("{name}.content"), content(made)),
        ]
    };
    [of("ordinary", &summary()), of("longest", &longest())].concat()
}

/// Ed25519 has no chance in it: the same summary and key give the same bytes in every version. For the first
/// release of a format `HOLDFAST_WRITE_CODES=1` writes the files that are missing, and no other.
#[test]
fn what_is_written_now_is_what_format_1_is() {
    for (name, bytes) in written_now() {
        let file = folder().join(&name);
        if !file.exists() && std::env::var_os("HOLDFAST_WRITE_CODES").is_some() {
            std::fs::write(&file, &bytes).unwrap();
        }
        let kept = std::fs::read(&file).unwrap_or_else(|error| panic!("{name}: {error}"));
        assert!(kept == bytes, "{name} differs: another format needs another version");
    }
}

#[test]
fn codes_of_format_1_open() {
    for (name, whole) in [("ordinary", summary()), ("longest", longest())] {
        for (ending, form) in [("lines", Form::Lines), ("copy", Form::Copy)] {
            let code = std::fs::read(folder().join(format!("{name}.{ending}"))).unwrap();
            let read = loaded(&code, whole.origin);
            assert_eq!((read.form, read.summary.newest.ended), (form, ENDED), "{name}.{ending}");
            assert_eq!(read.key, key().public());
        }
    }
}
