//! RFC 9285: the examples of its sections 4.3 and 4.4 (read), and every text of two and three letters.

use proptest::prelude::*;
use seal::base45::{Base45Fault, decode, encode};

#[test]
fn the_examples_of_rfc_9285() {
    for (bytes, text) in [
        ("AB", "BB8"),
        ("Hello!!", "%69 VD92EX0"),
        ("base-45", "UJCLQE7W581"),
        ("ietf!", "QED8WEX0"),
        ("", ""),
    ] {
        assert_eq!(encode(bytes.as_bytes()), text);
        assert_eq!(decode(text.as_bytes()), Ok(bytes.as_bytes().to_vec()), "{text}");
    }
}

/// RFC 9285 §6: a group above 65535 must be refused; "::" and "0E" are what a lax decoder lets through.
#[test]
fn groups_that_stand_for_no_bytes_are_refused() {
    assert_eq!(decode(b"GGW"), Err(Base45Fault::Group { at: 0 }));
    assert_eq!(decode(b"BB8:::"), Err(Base45Fault::Group { at: 3 }));
    assert_eq!(decode(b"::"), Err(Base45Fault::Group { at: 0 }));
    assert_eq!(decode(b"0E"), Err(Base45Fault::Group { at: 0 }));
    assert_eq!(decode(b"U5"), Ok(vec![255]), "30 + 5 x 45");
    assert_eq!(decode(b"V5"), Err(Base45Fault::Group { at: 0 }), "31 + 5 x 45 = 256");
}

#[test]
fn other_letters_and_other_lengths_are_refused() {
    assert_eq!(decode(b"BB8a"), Err(Base45Fault::Letter { at: 3 }));
    assert_eq!(decode(b"BB8B"), Err(Base45Fault::Length));
    assert_eq!(decode("BÄ8".as_bytes()), Err(Base45Fault::Letter { at: 1 }));
    assert_eq!(decode(b"BB8\n00"), Err(Base45Fault::Letter { at: 3 }));
}

/// Every text of two and three letters: refused, or the only text of its bytes.
#[test]
fn no_bytes_have_two_texts() {
    let alphabet = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
    let mut accepted = 0;
    for a in alphabet {
        for b in alphabet {
            for text in [vec![*a, *b]].into_iter().chain(alphabet.iter().map(|c| vec![*a, *b, *c])) {
                if let Ok(bytes) = decode(&text) {
                    assert_eq!(encode(&bytes).as_bytes(), text);
                    accepted += 1;
                }
            }
        }
    }
    assert_eq!(accepted, 256 + 65_536);
}

proptest! {
    #[test]
    fn what_is_decoded_is_what_was_encoded(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        prop_assert_eq!(decode(encode(&bytes).as_bytes()), Ok(bytes));
    }
}
