//! Any bytes as a code, as unsigned lines, and as the content of a copy: no panic, and whatever is accepted is
//! written again as exactly the same bytes.
#![no_main]

use std::collections::BTreeSet;
use std::sync::LazyLock;

use handover::{Form, Origin, Outcome, Summary, copy, lines};
use libfuzzer_sys::fuzz_target;
use seal::{KnownKeys, TabletKey};

const NOW: u32 = 29_925_890;

static KNOWN: LazyLock<KnownKeys> = LazyLock::new(KnownKeys::default);
static KEY: LazyLock<TabletKey> = LazyLock::new(|| TabletKey::from_seed(&[11; 32]));

fuzz_target!(|bytes: &[u8]| {
    for origin in [Origin::Care, Origin::Practice] {
        if let Outcome::Read(loaded) = handover::load(bytes, origin, &KNOWN, &BTreeSet::new(), NOW) {
            let text = std::str::from_utf8(bytes).expect("a code is ASCII");
            match loaded.form {
                Form::Lines => same_lines(text.rsplit_once('\n').expect("a signature's line").0),
                Form::Copy => {
                    let letters = text.split_once(':').expect("a mark").1;
                    same_content(&copy::opened(letters).expect("it was opened before").content);
                }
            }
        }
    }
    if let Ok(text) = std::str::from_utf8(bytes) {
        same_lines(text);
    }
    same_content(bytes);
});

fn same_lines(text: &str) {
    for (.., table) in lines::TABLES {
        if let Some(summary) = lines::read(text, table) {
            assert_eq!(lines::written(&summary, table), text);
        }
    }
}

fn same_content(bytes: &[u8]) {
    let Some(summary) = copy::read(bytes) else { return };
    assert_eq!(copy::content(&summary).as_deref(), Some(bytes), "another form of the same facts");
    // Too much for a symbol is refused when it is signed; else at most the oldest checks are left out.
    if let Ok(code) = copy::sign(&summary, &KEY) {
        let signed = copy::opened(code.split_once(':').expect("a mark").1).expect("just signed").content;
        let signed = copy::read(&signed).expect("just signed");
        assert!(summary.earlier.starts_with(&signed.earlier), "other checks than were there");
        let rest = |of: Summary| Summary { earlier: Vec::new(), ..of };
        assert_eq!(rest(signed), rest(summary));
    }
}
