//! Not one byte of a signed paper may be another, and only one way of writing it is taken.

use domain::teaching::ReadFile;
use domain::teaching::paper::Paper;
use proptest::prelude::*;
use seal::Purpose;

use crate::made::{all, key, token};

fn is_sound(file: &[u8]) -> bool {
    matches!(signoff::read(file), ReadFile::Sound(_))
}

#[test]
fn what_was_signed_is_read_back_with_the_key_that_signed() {
    for (name, paper) in all() {
        let ReadFile::Sound(read) = signoff::read(&token(&paper)) else { panic!("{name} is refused") };
        assert_eq!(read.paper, paper, "{name}");
        assert_eq!(read.key, domain::teaching::hex(key().public().bytes()));
    }
}

/// Every byte of every kind of paper, each changed by every single bit.
#[test]
fn any_one_bit_changed_is_refused() {
    let mut tried = 0;
    for (name, paper) in all() {
        let whole = token(&paper);
        for bit in 0..whole.len() * 8 {
            let mut bad = whole.clone();
            bad[bit / 8] ^= 1 << (bit % 8);
            assert!(!is_sound(&bad), "{name}, bit {bit}");
            tried += 1;
        }
    }
    println!("{tried} tokens with one bit changed, all refused");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    /// Any byte becomes any other.
    #[test]
    fn any_one_byte_changed_is_refused(which in 0..4_usize, at: prop::sample::Index, other in 1..=255_u8) {
        let mut bad = token(&all()[which].1);
        let at = at.index(bad.len());
        bad[at] = bad[at].wrapping_add(other);
        prop_assert!(!is_sound(&bad));
    }

    #[test]
    fn any_bytes_are_answered(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        prop_assert!(!is_sound(&bytes));
    }
}

#[test]
fn cut_lengthened_and_foreign_files_are_refused() {
    let whole = token(&all()[0].1);
    for length in 0..whole.len() {
        assert_eq!(signoff::read(&whole[..length]), ReadFile::NotOurs, "{length} bytes");
    }
    assert_eq!(signoff::read(&[whole.clone(), vec![0]].concat()), ReadFile::NotOurs);
    assert_eq!(signoff::read(&vec![0; 100_000]), ReadFile::TooLong);
    assert_eq!(signoff::read(b""), ReadFile::NotOurs);
}

fn sealed(content: &[u8]) -> ReadFile {
    signoff::read(&seal::seal(&key(), Purpose::SignOff, content).unwrap())
}

/// Rightly signed, and still not as Holdfast writes it: spaces, another order, a field too many, an older format.
#[test]
fn only_the_one_way_of_writing_is_taken() {
    let paper = all()[0].1.clone();
    let text = String::from_utf8(paper.bytes().unwrap()).unwrap();
    assert!(matches!(sealed(text.as_bytes()), ReadFile::Sound(_)));
    for other in [
        text.replacen(':', ": ", 1),
        text.replacen("\"app\"", "\"extra\":1,\"app\"", 1),
        text.replacen("\"format\":1", "\"format\":0", 1),
        format!("{text} "),
        String::new(),
    ] {
        assert_eq!(sealed(other.as_bytes()), ReadFile::NotOurs, "{other}");
    }
    let newer = text.replacen("\"format\":1", "\"format\":2,\"more\":true", 1);
    assert_eq!(sealed(newer.as_bytes()), ReadFile::Newer);
    let handover = seal::seal(&key(), Purpose::Handover, text.as_bytes()).unwrap();
    assert_eq!(signoff::read(&handover), ReadFile::Altered, "signed for something else");
}

/// The longest paper that is let through to a signature fits into a token.
#[test]
fn the_longest_paper_fits() {
    let most = domain::teaching::paper::MOST_BYTES;
    let mut paper: Paper = all()[2].1.clone();
    let room = most - paper.bytes().unwrap().len();
    paper.app.push_str(&"x".repeat(room));
    assert_eq!(paper.bytes().unwrap().len(), most);
    assert!(is_sound(&token(&paper)));
}
