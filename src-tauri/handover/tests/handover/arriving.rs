//! From what was scanned to what the receiver is shown.

use domain::handover::arrived::NotLoaded;
use handover::{Form, Here, Remark, copy, from_codes, from_text};

use crate::made::{ENDED, beyond_limits, key, longest, signed, summary};

fn told(text: &str) -> Result<(), NotLoaded> {
    from_text(text, &Here::default(), ENDED + 10).map(|_| ())
}

#[test]
fn a_scanner_may_press_enter_in_its_own_way() {
    let code = signed(&summary());
    for typed in [code.clone(), format!("{code}\n"), format!("{code}\r\n"), code.replace('\n', "\r\n")] {
        let arrived = from_text(&typed, &Here::default(), ENDED + 10).unwrap();
        assert_eq!(arrived[0].summary, summary().for_lines());
        assert_eq!(arrived[0].remarks, [Remark::UnknownTablet, Remark::ExampleRules]);
    }
}

/// What a scanner set to one country types on a tablet set to another (layouts from memory).
#[test]
fn letters_of_another_keyboard_are_told_apart_from_lost_ones() {
    let (lines, copied) = (signed(&summary()), copy::sign(&summary(), &key()).unwrap());
    let german = |text: &str| text.replace(':', "Ö").replace('/', "-").replace('y', "z").replace('+', "`");
    let french = |text: &str| text.replace('A', "Q").replace('1', "&").replace('3', "\"").replace(':', "M");
    let capitals_lock = |text: &str| text.to_lowercase();
    let letters = |text: &str, others: &str| {
        let keys = "ABCDEFGHIJKLMNOPQRSTUVWXYZ".chars().zip(others.chars()).collect::<Vec<_>>();
        let typed =
            |letter: char| keys.iter().find(|(key, _)| *key == letter).map_or(letter, |(_, other)| *other);
        text.chars().map(typed).collect::<String>()
    };
    let russian = |text: &str| letters(text, "ФИСВУАПРШОЛДЬТЩЗЙКЫЕГМЦЧНЯ");
    let greek = |text: &str| letters(text, "ΑΒΨΔΕΦΓΗΙΞΚΛΜΝΟΠ\u{37e}ΡΣΤΘΩ\u{3c2}ΧΥΖ");
    let of_limits = beyond_limits(summary());
    let of_3 = [signed(&of_limits), copy::sign(&of_limits, &key()).unwrap()];
    for text in [&lines, &copied, &of_3[0], &of_3[1]] {
        let mangles: [&dyn Fn(&str) -> String; 5] = [&german, &french, &capitals_lock, &russian, &greek];
        for mangle in mangles {
            assert_eq!(told(&mangle(text)), Err(NotLoaded::Mangled), "{}", mangle(text));
        }
    }
    assert_eq!(told("Shopping list: bread"), Err(NotLoaded::NotACode));
    for torn in [&lines, &of_3[0]] {
        assert_eq!(told(&torn[..torn.len() - 3]), Err(NotLoaded::Damaged));
    }
}

#[test]
fn a_scanner_that_drops_letters_gives_nothing() {
    for code in [signed(&summary()), copy::sign(&summary(), &key()).unwrap()] {
        for dropped in 0..code.len() {
            let mut short = code.clone();
            short.remove(dropped);
            assert!(told(&short).is_err(), "without letter {dropped}");
        }
    }
}

#[test]
fn three_kilobytes_and_text_with_nul_are_refused() {
    assert_eq!(told(&"A".repeat(3_000)), Err(NotLoaded::TooLong));
    assert_eq!(told("\0"), Err(NotLoaded::NotACode));
    assert!(told(&signed(&summary()).replacen(' ', "\0", 3)).is_err());
    assert!(told(&format!("{}\0", signed(&summary()))).is_err());
}

#[test]
fn clocks_a_day_apart_are_told_and_nothing_is_lost() {
    let code = signed(&summary());
    let remarks = |now| from_text(&code, &Here::default(), now).unwrap().remove(0).remarks;
    let ahead = remarks(ENDED - 1_440);
    assert!(ahead.contains(&Remark::AheadOfClock { by_min: 1_446 }), "{ahead:?}");
    let behind = remarks(ENDED + 1_441);
    assert!(behind.contains(&Remark::Expired { age_min: 1_441 }), "{behind:?}");
}

/// Both faces of one code in a picture are one handover: the one with the checks before.
#[test]
fn of_two_faces_the_fuller_one_is_taken() {
    let (lines, copied) = (signed(&summary()), copy::sign(&summary(), &key()).unwrap());
    let mut other = longest();
    other.origin = handover::Origin::Care;
    let other = signed(&other);
    let codes: Vec<Vec<u8>> = [lines, "a ticket".to_owned(), other, copied].map(String::into_bytes).to_vec();
    let arrived = from_codes(&codes, &Here::default(), ENDED + 10).unwrap();
    assert_eq!(arrived.iter().map(|one| one.form).collect::<Vec<_>>(), [Form::Copy, Form::Lines]);
    let none: [Vec<u8>; 1] = [b"a ticket".to_vec()];
    assert_eq!(from_codes(&none, &Here::default(), ENDED), Err(NotLoaded::NotACode));
}
