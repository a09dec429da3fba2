//! Symbol sizes against ISO/IEC 18004 (the table of alphanumeric and byte capacities, computed from two other
//! libraries' tables that agree, read).

use handover::lines::MOST_TEXT_BYTES;
use handover::{Level, MOST_VERSION_COPY, MOST_VERSION_LINES, Summary, copy, draw};

use crate::made::{key, longest, signed, summary};

/// Version; alphanumeric and byte capacity at M and at Q.
const CAPACITY: [(i16, [usize; 2], [usize; 2]); 13] = [
    (1, [20, 14], [16, 11]),
    (5, [122, 84], [87, 60]),
    (10, [311, 213], [221, 151]),
    (11, [366, 251], [259, 177]),
    (12, [419, 287], [296, 203]),
    (13, [483, 331], [352, 241]),
    (14, [528, 362], [376, 258]),
    (15, [600, 412], [426, 292]),
    (16, [656, 450], [470, 322]),
    (17, [734, 504], [531, 364]),
    (19, [909, 624], [644, 442]),
    (20, [970, 666], [702, 482]),
    (25, [1451, 997], [1041, 715]),
];

/// `letter` is never worth a segment of its own.
fn version(letter: &str, count: usize, level: Level) -> i16 {
    draw(&letter.repeat(count), level, 40).unwrap().version
}

#[test]
fn symbols_hold_what_the_standard_says() {
    for (number, m, q) in CAPACITY {
        for (level, [letters, bytes]) in [(Level::M, m), (Level::Q, q)] {
            for (letter, most) in [("A", letters), ("a", bytes)] {
                assert_eq!(version(letter, most, level), number, "{most} x {letter} at {level:?}");
                assert_eq!(
                    version(letter, most + 1, level),
                    number + 1,
                    "{most} + 1 x {letter} at {level:?}"
                );
            }
        }
    }
}

/// 17 + 4 v modules (ISO/IEC 18004).
#[test]
fn a_symbol_is_as_wide_as_the_standard_says() {
    for number in [1, 18, 20] {
        let text = "A".repeat(if number == 1 { 20 } else { 900 });
        let drawing = draw(&text, Level::M, 40).unwrap();
        assert_eq!(drawing.width, 17 + 4 * usize::try_from(drawing.version).unwrap());
        assert_eq!(drawing.dark.len(), drawing.width * drawing.width);
        assert_eq!(drawing.rows().len(), drawing.width);
    }
}

/// The worst text of the most bytes, with a signature below: lower case only, so that nothing is saved by digits.
#[test]
fn as_many_bytes_as_allowed_fit_beside_a_signature() {
    for seed in 0..50 {
        let key = seal::TabletKey::from_seed(&[seed; 32]);
        let code = handover::lines::sign(&"a".repeat(MOST_TEXT_BYTES), &key);
        assert_eq!(draw(&code, Level::M, MOST_VERSION_LINES).unwrap().version, MOST_VERSION_LINES);
    }
    let one_more = handover::lines::sign(&"a".repeat(MOST_TEXT_BYTES + 1), &key());
    assert_eq!(draw(&one_more, Level::M, MOST_VERSION_LINES), None);
}

#[test]
fn as_many_letters_as_allowed_fit_a_copy() {
    assert_eq!(version("A", copy::MOST_LETTERS, Level::Q), MOST_VERSION_COPY);
    assert!(version("A", copy::MOST_LETTERS + 1, Level::Q) > MOST_VERSION_COPY);
}

#[test]
fn the_sizes_of_an_ordinary_and_of_the_longest_handover() {
    let lines = |summary: &Summary| draw(&signed(summary), Level::M, 40).unwrap().version;
    let copied =
        |summary: &Summary| draw(&copy::sign(summary, &key()).unwrap(), Level::Q, 40).unwrap().version;
    assert_eq!((lines(&summary()), copied(&summary())), (16, 16));
    assert_eq!((lines(&longest()), copied(&longest())), (18, 20));
}
