//! Papers to sign. All names are inventions.

use domain::teaching::item::{How, Item};
use domain::teaching::paper::{FORMAT, Finding, Marked, Paper, Says, SignOff, Work};
use seal::{Secret, TabletKey};
use uuid::Uuid;

pub fn key() -> TabletKey {
    TabletKey::from_seed(&[6; 32])
}

pub fn pin(digits: &str) -> Option<Secret> {
    Some(Secret::new(digits.as_bytes().to_vec()))
}

pub fn paper(says: Says) -> Paper {
    Paper {
        format: FORMAT,
        app: "0.1.0".to_owned(),
        educator: "E. Example (invented)".to_owned(),
        enrolled_ms: 1_795_000_000_000,
        at_ms: 1_795_552_800_000,
        offset_min: 60,
        says,
    }
}

pub fn supervised() -> Paper {
    let work = Work::Supervised {
        check: Uuid::from_bytes([7; 16]),
        record: "0123456789abcdef".repeat(4),
        ended_ms: 1_795_550_000_000,
    };
    let mark = |item, how, met| Marked { item, how, met, judge: None, reason: None };
    let marks = vec![
        mark(Item::Parts, How::Explained, true),
        mark(Item::Marks, How::Observed, true),
        mark(Item::SensingTest, How::Demonstrated, false),
    ];
    paper(Says::SignedOff(SignOff { learner: "L. E. (invented)".to_owned(), work, marks }))
}

pub fn practice() -> Paper {
    let work = Work::Practice {
        run: Uuid::from_bytes([8; 16]),
        exercise: "shock".to_owned(),
        exercise_hash: "ab".repeat(32),
        seed: u64::MAX,
        engine: "1".to_owned(),
        record: "cd".repeat(32),
        judgement: "ef".repeat(32),
        passed: false,
        ended_ms: 1_795_550_000_000,
    };
    let reason = Some("Saw it, said it late (invented)".to_owned());
    let mark = Marked {
        item: Item::Emergency,
        how: How::Demonstrated,
        met: true,
        judge: Some(Finding::Late),
        reason,
    };
    paper(Says::SignedOff(SignOff {
        learner: "Ö \u{2068}ॐ\"\\ (invented)".to_owned(),
        work,
        marks: vec![mark],
    }))
}

pub fn revoked() -> Paper {
    paper(Says::Revoked { entry: "12".repeat(32), reason: "Signed the wrong person (invented)".to_owned() })
}

pub fn vouched() -> Paper {
    paper(Says::Vouched { name: "F. Example (invented)".to_owned(), key: "34".repeat(32) })
}

pub fn all() -> [(&'static str, Paper); 4] {
    [("supervised", supervised()), ("practice", practice()), ("revoked", revoked()), ("vouched", vouched())]
}

pub fn token(paper: &Paper) -> Vec<u8> {
    signoff::sign(&key(), paper).unwrap()
}
