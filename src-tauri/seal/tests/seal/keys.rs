//! Keys, signatures, known tablets.

use proptest::prelude::*;
use seal::{KnownKeys, NotAdded, PublicKey, Secret, Signature, TabletKey, Writer};

use crate::hex::hex;

/// RFC 8032 §7.1, tests 1 to 3 (from memory; the figures agree with the library, which was not their source).
const RFC_8032: [(&str, &str, &str, &str); 3] = [
    (
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
    ),
    (
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
    ),
    (
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
    ),
];

#[test]
fn keys_and_signatures_of_rfc_8032() {
    for (seed, public, message, signature) in RFC_8032 {
        let key = TabletKey::from_seed(&hex(seed).try_into().unwrap());
        assert_eq!(key.public().bytes().to_vec(), hex(public));
        assert_eq!(key.sign(&hex(message)).to_vec(), hex(signature));
        assert!(key.public().verifies(&hex(message), &hex(signature).try_into().unwrap()));
    }
}

#[test]
fn a_signature_fits_no_other_bytes_and_no_other_key() {
    let (one, other) = (TabletKey::from_seed(&[1; 32]), TabletKey::from_seed(&[2; 32]));
    let signature = one.sign(b"OUTPUT: 3.6 mA");
    assert!(!one.public().verifies(b"OUTPUT: 3.8 mA", &signature));
    assert!(!other.public().verifies(b"OUTPUT: 3.6 mA", &signature));
}

/// RFC 8032 §5.1.7: S below the group order, else the same words would have two signatures.
#[test]
fn a_second_signature_made_from_the_first_is_refused() {
    const ORDER: &str = "edd3f55c1a631258d69cf7a2def9de1400000000000000000000000000000010";
    let key = TabletKey::from_seed(&[1; 32]);
    let mut signature: Signature = key.sign(b"words");
    let mut carry = 0_u16;
    for (byte, order) in signature[32..].iter_mut().zip(hex(ORDER)) {
        let sum = u16::from(*byte) + u16::from(order) + carry;
        *byte = (sum & 255) as u8;
        carry = sum >> 8;
    }
    assert_eq!(carry, 0, "S plus the order still fits in 32 bytes");
    assert!(!key.public().verifies(b"words", &signature));
}

/// Points of small order, and a second way to write one: y = p + 1 for y = 1 (RFC 8032 §5.1.3).
#[test]
fn weak_and_doubly_written_keys_are_no_keys() {
    let mut identity = [0_u8; 32];
    identity[0] = 1;
    let mut again = [255_u8; 32];
    (again[0], again[31]) = (0xee, 0x7f);
    for bad in [[0; 32], identity, again] {
        assert_eq!(PublicKey::from_bytes(&bad), None);
    }
    assert_eq!(PublicKey::from_bytes(&[1; 31]), None);
}

#[test]
fn a_key_comes_back_from_its_secret() {
    let key = TabletKey::from_seed(&[5; 32]);
    assert!(TabletKey::from_secret(&key.seed()).is_some_and(|again| again.public() == key.public()));
    assert!(TabletKey::from_secret(&Secret::new(vec![5; 31])).is_none());
}

#[test]
fn a_key_is_shown_by_the_start_of_its_hash() {
    let shown = TabletKey::from_seed(&[5; 32]).public().id().to_string();
    assert_eq!(shown.len(), 19);
    assert!(shown.chars().all(|c| c == ' ' || c.is_ascii_digit() || ('A'..='F').contains(&c)));
}

#[test]
fn a_name_stands_for_one_tablet_and_a_tablet_has_one_name() {
    let key = |seed| TabletKey::from_seed(&[seed; 32]).public();
    let mut known = KnownKeys::default();
    assert_eq!(known.writer(&key(1)), Writer::Unknown);
    assert_eq!(known.add(key(1), "Bay tablet"), Ok(()));
    assert_eq!(known.add(key(1), "Bay tablet"), Ok(()));
    assert_eq!(known.add(key(2), "Bay tablet"), Err(NotAdded::NameTaken));
    assert_eq!(known.add(key(1), "Ward tablet"), Err(NotAdded::KnownAs));
    assert_eq!(known.writer(&key(1)), Writer::Known("Bay tablet"));
    assert!(known.forget(&key(1)));
    assert_eq!(known.writer(&key(1)), Writer::Unknown);
}

#[test]
fn a_tablet_knows_256_others_at_most() {
    let mut known = KnownKeys::default();
    let key = |n: usize| {
        let mut seed = [0; 32];
        seed[..8].copy_from_slice(&n.to_be_bytes());
        TabletKey::from_seed(&seed).public()
    };
    for n in 0..seal::MOST_KNOWN {
        assert_eq!(known.add(key(n), &n.to_string()), Ok(()));
    }
    assert_eq!(known.add(key(999), "one more"), Err(NotAdded::Full));
    assert_eq!(known.iter().count(), seal::MOST_KNOWN);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn what_a_tablet_signs_verifies(seed: [u8; 32], words in prop::collection::vec(any::<u8>(), 0..200)) {
        let key = TabletKey::from_seed(&seed);
        prop_assert_eq!(PublicKey::from_bytes(key.public().bytes()), Some(key.public()));
        prop_assert!(key.public().verifies(&words, &key.sign(&words)));
    }
}
