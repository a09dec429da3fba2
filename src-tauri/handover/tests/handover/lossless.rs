//! From one struct to two codes and back.

use handover::lines::{MOST_TEXT_BYTES, read, shortened, sign};
use handover::{Form, MOST_VERSION_COPY, MOST_VERSION_LINES, Summary, copy};
use proptest::prelude::*;

use crate::made::{any_summary, key, loaded, longest, read_later, signed, summary, table, table_for, text};

#[test]
fn both_codes_of_one_handover_say_the_same() {
    for whole in [summary(), read_later(summary())] {
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
