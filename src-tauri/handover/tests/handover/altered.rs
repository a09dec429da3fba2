//! Exhaustive on one code of each form: every flipped bit, every cut.

use handover::{Outcome, Refused, copy};

use crate::made::{key, load, signed, summary};

fn codes() -> [Vec<u8>; 2] {
    [signed(&summary()).into_bytes(), copy::sign(&summary(), &key()).unwrap().into_bytes()]
}

#[test]
fn whole_codes_are_read() {
    for code in codes() {
        assert!(matches!(load(&code), Outcome::Read(_)));
    }
}

#[test]
fn every_flipped_bit_is_refused() {
    for code in codes() {
        for bit in 0..code.len() * 8 {
            let mut bad = code.clone();
            bad[bit / 8] ^= 1 << (bit % 8);
            assert!(matches!(load(&bad), Outcome::Refused(_)), "bit {bit}");
        }
    }
}

#[test]
fn every_cut_and_every_missing_start_is_refused() {
    for code in codes() {
        for at in 0..code.len() {
            assert!(matches!(load(&code[..at]), Outcome::Refused(_)), "the first {at} bytes");
            assert!(at == 0 || matches!(load(&code[at..]), Outcome::Refused(_)), "from byte {at}");
        }
    }
}

/// A scanner that drops or doubles a letter.
#[test]
fn every_dropped_and_every_doubled_letter_is_refused() {
    for code in codes() {
        for at in 0..code.len() {
            let mut dropped = code.clone();
            let letter = dropped.remove(at);
            let mut doubled = code.clone();
            doubled.insert(at, letter);
            // Of two equal neighbours it does not matter which is dropped: the text is another one either way.
            assert!(matches!(load(&dropped), Outcome::Refused(_)), "without byte {at}");
            assert!(matches!(load(&doubled), Outcome::Refused(_)), "byte {at} twice");
        }
    }
}

#[test]
fn what_was_changed_is_called_altered_and_what_is_torn_damaged() {
    let code = signed(&summary());
    let changed = code.replace("OUTPUT: 3.6 mA", "OUTPUT: 9.6 mA");
    assert_eq!(load(changed.as_bytes()), Outcome::Refused(Refused::Altered));
    let torn = &code[..code.len() - 1];
    assert_eq!(load(torn.as_bytes()), Outcome::Refused(Refused::Damaged));
    let unsigned = code.rsplit_once('\n').unwrap().0;
    assert_eq!(load(unsigned.as_bytes()), Outcome::Refused(Refused::Damaged));
}
