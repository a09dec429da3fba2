//! Each outcome, and each remark beside a code that was read.

use std::collections::BTreeSet;

use handover::lines::{VERSION, sign, written};
use handover::{
    Check, MOST_BYTES, Mention, Next, Origin, Outcome, Refused, Remark, Summary, Tablet, as_written, copy,
};
use seal::{KnownKeys, Purpose, base45};

use crate::made::{
    ENDED, beyond_limits, key, load, load_at, loaded, longest, read_later, signed, summary, table, text,
};

fn refused(code: &[u8]) -> Refused {
    match load(code) {
        Outcome::Refused(refused) => refused,
        Outcome::Read(loaded) => panic!("read: {loaded:?}"),
    }
}

fn remarks_at(summary: &Summary, now: u32) -> Vec<Remark> {
    let code = signed(summary);
    match load_at(code.as_bytes(), now) {
        Outcome::Read(loaded) => loaded.remarks,
        Outcome::Refused(refused) => panic!("{refused:?}"),
    }
}

#[test]
fn an_unknown_tablet_is_told_and_a_paired_one_is_named() {
    let code = signed(&summary());
    let fresh = loaded(code.as_bytes(), Origin::Care);
    assert_eq!(fresh.tablet, Tablet::Unknown);
    assert_eq!(fresh.remarks, [Remark::UnknownTablet, Remark::ExampleRules]);
    let mut known = KnownKeys::default();
    known.add(key().public(), "Ward tablet").unwrap();
    let outcome = handover::load(code.as_bytes(), Origin::Care, &known, &BTreeSet::new(), ENDED + 10);
    let Outcome::Read(paired) = outcome else { panic!("{outcome:?}") };
    assert_eq!(paired.tablet, Tablet::Known { name: "Ward tablet".to_owned() });
    assert_eq!(paired.remarks, [Remark::ExampleRules]);
}

/// Shown again later, the same check has another age and another signature: still the same check.
#[test]
fn a_check_that_is_here_already_is_a_duplicate_in_either_form() {
    let seen = BTreeSet::from([loaded(signed(&summary()).as_bytes(), Origin::Care).identity()]);
    let later = Summary { age_min: 60, ..summary() };
    for code in [signed(&later), copy::sign(&later, &key()).unwrap()] {
        let outcome = handover::load(code.as_bytes(), Origin::Care, &KnownKeys::default(), &seen, ENDED + 60);
        let Outcome::Read(again) = outcome else { panic!("{outcome:?}") };
        assert!(again.remarks.contains(&Remark::Duplicate));
    }
    let mut other = summary();
    other.newest.ended += 1;
    let outcome =
        handover::load(signed(&other).as_bytes(), Origin::Care, &KnownKeys::default(), &seen, ENDED + 60);
    let Outcome::Read(another) = outcome else { panic!("{outcome:?}") };
    assert!(!another.remarks.contains(&Remark::Duplicate));
}

/// NK: a check at least every 24 hours (read).
#[test]
fn a_code_is_expired_once_its_next_check_was_due_or_after_a_day() {
    let expired = |summary: &Summary, now| {
        remarks_at(summary, now).iter().any(|remark| matches!(remark, Remark::Expired { .. }))
    };
    assert!(!expired(&summary(), ENDED + 720));
    assert!(expired(&summary(), ENDED + 721));
    let due_now = Summary { next: Next::Now, ..summary() };
    assert!(!expired(&due_now, ENDED + 1440), "a check on arrival is no fault of the code");
    assert!(expired(&due_now, ENDED + 1441));
    assert!(remarks_at(&due_now, ENDED + 1441).contains(&Remark::Expired { age_min: 1441 }));
}

#[test]
fn a_code_from_the_future_says_that_the_clocks_differ() {
    let day_behind = remarks_at(&summary(), ENDED + 6 - 1440);
    assert!(day_behind.contains(&Remark::AheadOfClock { by_min: 1440 }));
    assert!(!remarks_at(&summary(), ENDED + 1).iter().any(|r| matches!(r, Remark::AheadOfClock { .. })));
}

#[test]
fn practice_is_never_read_as_care_nor_care_as_practice() {
    let practice = Summary { origin: Origin::Practice, ..summary() };
    for code in [signed(&practice), copy::sign(&practice, &key()).unwrap()] {
        assert_eq!(refused(code.as_bytes()), Refused::Practice);
        assert_eq!(loaded(code.as_bytes(), Origin::Practice).summary.origin, Origin::Practice);
    }
    let care = signed(&summary());
    let outcome =
        handover::load(care.as_bytes(), Origin::Practice, &KnownKeys::default(), &BTreeSet::new(), ENDED);
    assert_eq!(outcome, Outcome::Refused(Refused::Care));
}

/// The mark stands inside what is signed: taking the line out alters the code.
#[test]
fn a_practice_code_without_its_mark_is_altered() {
    let practice = Summary { origin: Origin::Practice, ..summary() };
    let code = signed(&practice).replace("PRACTICE: not a patient\n", "");
    assert_eq!(refused(code.as_bytes()), Refused::Altered);
}

#[test]
fn what_is_short_not_read_or_not_understood_is_told() {
    let mut whole = longest();
    whole.origin = Origin::Care;
    let remarks = remarks_at(&whole, ENDED + 10_079);
    assert!(remarks.iter().any(|remark| matches!(remark, Remark::Shortened { facts: 1.. })));
    assert!(remarks.contains(&Remark::DialsNotRead));
    let more = Summary { others: vec!["Lead: moved".to_owned()], ..summary() };
    assert!(remarks_at(&more, ENDED).contains(&Remark::UnknownLines));
}

#[test]
fn a_newer_version_is_called_that() {
    let newer_lines = text(&summary()).replace("HOLDFAST 1 en", &format!("HOLDFAST {} en", VERSION + 1));
    assert_eq!(refused(sign(&newer_lines, &key()).as_bytes()), Refused::NewerVersion);
    assert_eq!(refused(format!("{newer_lines}\nSEAL another form").as_bytes()), Refused::NewerVersion);
    let other_language = text(&summary()).replace("HOLDFAST 1 en", "HOLDFAST 1 xx");
    assert_eq!(refused(sign(&other_language, &key()).as_bytes()), Refused::NewerVersion);
    let copied = copy::sign(&summary(), &key()).unwrap().replace("HFC1:", &format!("HFC{}:", VERSION + 1));
    assert_eq!(refused(copied.as_bytes()), Refused::NewerVersion);
    assert_eq!(refused(format!("HFC{}:another form", VERSION + 1).as_bytes()), Refused::NewerVersion);
}

/// One text a summary: format 2 is there for what format 1 cannot say, and for nothing else.
#[test]
fn a_summary_under_the_other_version_is_damaged() {
    let as_2 = text(&summary()).replace("HOLDFAST 1 en", "HOLDFAST 2 en");
    assert_eq!(refused(sign(&as_2, &key()).as_bytes()), Refused::Damaged);
    let as_1 = text(&read_later(summary())).replace("HOLDFAST 2 en", "HOLDFAST 1 en");
    assert_eq!(refused(sign(&as_1, &key()).as_bytes()), Refused::Damaged);
    let copied = |summary: &Summary| copy::sign(summary, &key()).unwrap();
    assert_eq!(refused(copied(&summary()).replace("HFC1:", "HFC2:").as_bytes()), Refused::Damaged);
    let left = Check { flags: vec![Mention::LeftAsRead], ..summary().newest };
    let as_1 = text(&Summary { newest: left, ..summary() }).replace("HOLDFAST 2 en", "HOLDFAST 1 en");
    assert_eq!(refused(sign(&as_1, &key()).as_bytes()), Refused::Damaged);
    let later = copied(&read_later(summary()));
    assert_eq!(refused(later.replace("HFC2:", "HFC1:").as_bytes()), Refused::Damaged);
    let beyond = beyond_limits(read_later(summary()));
    for older in ["HOLDFAST 1 en", "HOLDFAST 2 en"] {
        let said = text(&beyond).replace("HOLDFAST 3 en", older);
        assert_eq!(refused(sign(&said, &key()).as_bytes()), Refused::Damaged, "{older}");
    }
    for older in ["HFC1:", "HFC2:"] {
        assert_eq!(refused(copied(&beyond).replace("HFC3:", older).as_bytes()), Refused::Damaged, "{older}");
    }
    for whole in [summary(), read_later(summary())] {
        let said = text(&whole);
        let as_3 = format!("HOLDFAST 3 en:{}", said.split_once(':').unwrap().1);
        assert_eq!(refused(sign(&as_3, &key()).as_bytes()), Refused::Damaged);
    }
}

#[test]
fn dials_read_after_the_check_are_no_reproach() {
    let not_read = Summary { newest: Check { read: false, ..summary().newest }, ..summary() };
    assert!(remarks_at(&not_read, ENDED + 60).contains(&Remark::DialsNotRead));
    assert!(!remarks_at(&read_later(summary()), ENDED + 60).contains(&Remark::DialsNotRead));
}

#[test]
fn other_texts_are_no_codes() {
    for text in ["", "hello", "HOLDFAST", "HOLDFAST 1", "https://example.org/", "WIFI:S:ward;;", "HFC", "\0"]
    {
        assert_eq!(refused(text.as_bytes()), Refused::NotACode, "{text}");
    }
    assert_eq!(refused(&[0xff, 0xfe, 0x00]), Refused::NotACode);
    assert_eq!(refused("HOLDFAST 1 en: ä".as_bytes()), Refused::NotACode);
    assert_eq!(refused(&vec![b'A'; 3_000]), Refused::TooLong);
    assert_eq!(refused(&vec![b'A'; MOST_BYTES]), Refused::NotACode);
}

/// Signed by a tablet, yet not what `sign` writes: a second form of the same facts is no code.
#[test]
fn a_sound_signature_over_another_form_is_damaged() {
    let twice = written(&summary(), table()).replace("\nRATE: 80 /min", "\nRATE: 80 /min\nRATE: 80 /min");
    assert_eq!(refused(sign(&twice, &key()).as_bytes()), Refused::Damaged);
    let copied = copy::sign(&summary(), &key()).unwrap();
    let content = copy::opened(copied.strip_prefix("HFC1:").unwrap()).unwrap().content;
    assert_eq!(copy::read(&content), Some(summary()));
    // CBOR that any library reads as the same values: the version 1 in two bytes, a byte more at the end.
    assert_eq!(content[1], 1);
    let longer = [&content[..1], &[0x18, 0x01], &content[2..]].concat();
    let trailing = [&content[..], &[0]].concat();
    for form in [longer, trailing] {
        let token = seal::seal(&key(), Purpose::Handover, &form).unwrap();
        assert_eq!(refused(format!("HFC1:{}", base45::encode(&token)).as_bytes()), Refused::Damaged);
    }
}

#[test]
fn a_token_sealed_for_another_purpose_is_altered() {
    let copied = copy::sign(&summary(), &key()).unwrap();
    let content = copy::opened(copied.strip_prefix("HFC1:").unwrap()).unwrap().content;
    let token = seal::seal(&key(), Purpose::SignOff, &content).unwrap();
    assert_eq!(refused(format!("HFC1:{}", base45::encode(&token)).as_bytes()), Refused::Altered);
}

/// Scanners end with Enter, and type it as one byte or as another.
#[test]
fn what_a_scanner_types_is_read() {
    let code = signed(&summary());
    for typed in
        [code.clone(), format!("{code}\n"), code.replace('\n', "\r\n"), code.replace('\n', "\r") + "\r"]
    {
        assert!(matches!(load(as_written(&typed).as_bytes()), Outcome::Read(_)));
    }
    let german = as_written(&code.replace(':', "\u{d6}"));
    assert_eq!(refused(german.as_bytes()), Refused::NotACode, "a keyboard layout that changes letters");
}
