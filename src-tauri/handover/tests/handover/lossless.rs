//! From one struct to two codes and back.

use domain::check::facts::{Found, Own};
use domain::record::{Printed, Record};
use handover::lines::{MOST_TEXT_BYTES, read, shortened, sign};
use handover::{
    Capture, Check, Figure, Form, MOST_VERSION_COPY, MOST_VERSION_LINES, Origin, OwnBeats, Sensing, Summary,
    copy,
};
use proptest::prelude::*;
use uuid::Uuid;

use crate::made::{
    any_check, any_summary, beyond_limits, key, loaded, longest, read_later, signed, summary, table,
    table_for, text,
};
use crate::records::{at, record, wire};

#[test]
fn both_codes_of_one_handover_say_the_same() {
    for whole in
        [summary(), read_later(summary()), beyond_limits(summary()), beyond_limits(read_later(summary()))]
    {
        both_say_the_same(&whole);
    }
}

fn both_say_the_same(whole: &Summary) {
    let (lines, copied) = (signed(whole), copy::sign(whole, &key()).unwrap());
    let (lines, copied) = (loaded(lines.as_bytes(), whole.origin), loaded(copied.as_bytes(), whole.origin));
    assert_eq!((lines.form, copied.form), (Form::Lines, Form::Copy));
    assert_eq!(copied.summary, *whole);
    assert_eq!(lines.summary, copied.summary.for_lines());
    assert_eq!((lines.key, lines.identity()), (copied.key, copied.identity()));
}

#[test]
fn a_copy_leaves_out_the_oldest_checks_when_it_must() {
    let whole = longest();
    let copied = loaded(copy::sign(&whole, &key()).unwrap().as_bytes(), whole.origin).summary;
    assert_eq!(copied.newest, whole.newest, "the newest with all its flags");
    assert!(copied.earlier.len() < whole.earlier.len());
    assert_eq!(copied.earlier, whole.earlier[..copied.earlier.len()]);
}

#[test]
fn what_was_shortened_or_not_understood_is_not_copied_on_as_if_whole() {
    let mut short = shortened(&longest(), table()).unwrap();
    assert!(copy::sign(&short, &key()).is_err());
    (short.left_out, short.others) = (0, vec!["Lead: moved".to_owned()]);
    assert!(copy::sign(&short, &key()).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]
    #[test]
    fn sender_to_receiver_loses_nothing(whole in any_summary()) {
        let short = shortened(&whole, table_for(&whole)).unwrap();
        let (text, table) = (text(&whole), table_for(&short));
        prop_assert!(text.len() <= MOST_TEXT_BYTES);
        prop_assert_eq!(read(&text, table), Some(short.clone()));
        let code = sign(&text, &key());
        let lines = loaded(code.as_bytes(), whole.origin).summary;
        prop_assert_eq!(&lines, &short);

        let copied = loaded(copy::sign(&whole, &key()).unwrap().as_bytes(), whole.origin).summary;
        prop_assert_eq!(&copied.earlier[..], &whole.earlier[..copied.earlier.len()]);
        let all = handover::Summary { earlier: whole.earlier.clone(), ..copied };
        prop_assert_eq!(&all, &whole);
        if short.left_out == 0 {
            prop_assert_eq!(lines, whole.for_lines());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(30))]
    #[test]
    fn every_handover_fits_its_symbol(whole in any_summary()) {
        let lines = handover::draw(&signed(&whole), handover::Level::M, MOST_VERSION_LINES);
        prop_assert!(lines.is_some());
        let copied = copy::sign(&whole, &key()).unwrap();
        prop_assert!(handover::draw(&copied, handover::Level::Q, MOST_VERSION_COPY).is_some());
    }
}

/// The record of a check that says this, without flags; the way back from `Check::of`, written a second time.
fn record_of(check: &Check) -> Record {
    let text = |figure: &Figure| Some(figure.text().to_owned());
    let (capture, capture_text, capture_low_text) = match &check.capture {
        Capture::NotTested | Capture::Held { .. } => (Found::Nothing, None, None),
        Capture::Exact { at } => (Found::Exact, text(at), None),
        Capture::Bracket { low, high } => (Found::Bracket, text(high), text(low)),
        Capture::AtMost { at } => (Found::AtMost, text(at), None),
    };
    let held_down_text = match &check.capture {
        Capture::Held { at } => text(at),
        Capture::NotTested | Capture::Exact { .. } | Capture::Bracket { .. } | Capture::AtMost { .. } => None,
    };
    let (sensing, sensing_text) = match &check.sensing {
        Sensing::NotTested => (Found::Nothing, None),
        Sensing::NoneSaw => (Found::SeenAtNone, None),
        Sensing::Exact { at } => (Found::Exact, text(at)),
        Sensing::AtLeast { at } => (Found::AtLeast, text(at)),
        Sensing::AsFound { at } => (Found::SeenWhereItStood, text(at)),
    };
    let plain = record(0);
    let (own, seen, limit) = match &check.own {
        OwnBeats::NotLooked => (None, Own::NotLooked, plain.limit.clone()),
        OwnBeats::Unmeasured => (None, Own::NotLooked, plain.limit.clone()),
        OwnBeats::NoneSeen { limit } => (None, Own::NotSeen, limit.text().to_owned()),
        OwnBeats::Seen { slowest, fastest } => (Some((*slowest, *fastest)), Own::Shown, plain.limit.clone()),
        OwnBeats::ThenLost { slowest, fastest } => {
            (Some((*slowest, *fastest)), Own::Cleared, plain.limit.clone())
        }
    };
    let mut made = Record {
        id: Uuid::from_u128(u128::from(check.id) << 96),
        example_rules: check.example_rules,
        read: check.read,
        stays: check.dials.as_ref().map(|dials| Printed {
            output: dials.output.text().to_owned(),
            rate: dials.rate.text().to_owned(),
            mv: dials.mv.as_ref().and_then(text),
        }),
        unit: check.unit,
        capture,
        capture_text,
        capture_low_text,
        held_down_text,
        sensing,
        sensing_text,
        own,
        limit,
        multiple: check.margin.as_ref().and_then(text),
        flags: Vec::new(),
        ..plain
    };
    made.facts.own = seen;
    made.ended.wall_ms = i64::from(check.ended) * 60_000;
    made
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]
    /// From the tablet's records to the other tablet's history.
    #[test]
    fn what_a_record_says_comes_out_at_the_receiver(checks in proptest::collection::vec(any_check(), 1..7)) {
        let width = Figure::new("1.2");
        let plain = |check: &Check| Check { flags: Vec::new(), pulse_width: width.clone(), ..check.clone() };
        let checks: Vec<Check> = checks.iter().map(plain).collect();
        let records = checks.iter().rev().map(record_of).collect();
        let whole = Summary::of(&wire(records), at(0)).unwrap();
        let copied = loaded(copy::sign(&whole, &key()).unwrap().as_bytes(), Origin::Care).summary;
        prop_assert_eq!(&copied.newest, &checks[0]);
        prop_assert_eq!(&copied.earlier[..], &checks[1..=copied.earlier.len()]);
        prop_assert!(copied.earlier.len() + 1 == checks.len() || copied.earlier.len() >= 2);
    }
}
