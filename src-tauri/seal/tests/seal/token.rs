//! COSE_Sign1 in one form only: every other way to write the same token is refused.

use seal::{MOST_TOKEN_BYTES, Opened, Purpose, TabletKey, TokenFault, open, seal};

const CONTENT: &[u8] = b"the content";

fn key() -> TabletKey {
    TabletKey::from_seed(&[3; 32])
}

fn token() -> Vec<u8> {
    seal(&key(), Purpose::Handover, CONTENT).unwrap()
}

#[test]
fn a_token_opens_to_what_was_sealed() {
    let opened = open(&token(), Purpose::Handover);
    assert_eq!(opened, Ok(Opened { key: key().public(), content: CONTENT.to_vec() }));
}

/// RFC 9052 §4.2 and §2: tag 18, four parts; the protected header as RFC 8949 writes it shortest (arithmetic).
#[test]
fn the_token_is_laid_out_as_the_standard_says() {
    let token = token();
    let header =
        [&[0xd2, 0x84, 0x4d, 0xa2, 0x01, 0x27, 0x04, 0x48][..], &key().public().id().0, &[0xa0]].concat();
    assert_eq!(token[..header.len()], header);
    let payload =
        [&[0x58, 32 + CONTENT.len() as u8][..], key().public().bytes(), CONTENT, &[0x58, 64]].concat();
    assert_eq!(token[header.len()..token.len() - 64], payload);
    assert_eq!(token.len() - CONTENT.len(), 117, "bytes that sealing adds");
}

#[test]
fn every_flipped_bit_is_refused() {
    let whole = token();
    for bit in 0..whole.len() * 8 {
        let mut bad = whole.clone();
        bad[bit / 8] ^= 1 << (bit % 8);
        assert!(open(&bad, Purpose::Handover).is_err(), "bit {bit}");
    }
}

#[test]
fn every_cut_and_every_added_byte_is_refused() {
    let whole = token();
    for length in 0..whole.len() {
        assert_eq!(open(&whole[..length], Purpose::Handover), Err(TokenFault::Form), "{length} bytes");
    }
    for byte in 0..=255 {
        assert!(open(&[&whole[..], &[byte]].concat(), Purpose::Handover).is_err());
        assert!(open(&[&[byte], &whole[..]].concat(), Purpose::Handover).is_err());
    }
}

#[test]
fn a_token_for_one_purpose_opens_for_no_other() {
    for purpose in [Purpose::SignOff, Purpose::Rules, Purpose::Backup] {
        assert_eq!(open(&token(), purpose), Err(TokenFault::Altered));
        assert!(open(&seal(&key(), purpose, CONTENT).unwrap(), purpose).is_ok());
    }
}

/// The same token written another way: RFC 8949 allows it and the COSE library takes it; this code does not.
#[test]
fn other_ways_to_write_the_same_token_are_refused() {
    use coset::{CoseSign1, TaggedCborSerializable};
    let whole = token();
    let with = |at: usize, cut: usize, put: &[u8]| [&whole[..at], put, &whole[at + cut..]].concat();
    let other_forms = [
        ("tag in two bytes", with(0, 1, &[0xd8, 0x12])),
        ("array of indefinite length", [&with(1, 1, &[0x9f])[..], &[0xff]].concat()),
        ("array length in two bytes", with(1, 1, &[0x98, 0x04])),
        ("header length in two bytes", with(2, 1, &[0x58, 0x0d])),
        ("algorithm in two bytes", with(2, 4, &[0x4e, 0xa2, 0x01, 0x38, 0x07])),
        ("key id first", with(3, 13, &[&[0xa2, 0x04, 0x48][..], &whole[8..16], &[0x01, 0x27]].concat())),
        ("something unprotected", with(16, 1, &[0xa1, 0x04, 0x41, 0x00])),
        ("unprotected of indefinite length", with(16, 1, &[0xbf, 0xff])),
        ("payload length in three bytes", with(17, 2, &[0x59, 0x00, whole[18]])),
    ];
    for (what, form) in other_forms {
        assert!(CoseSign1::from_tagged_slice(&form).is_ok(), "{what}: not another form, but none");
        assert_eq!(open(&form, Purpose::Handover), Err(TokenFault::Form), "{what}");
    }
    assert_eq!(open(&whole[1..], Purpose::Handover), Err(TokenFault::Form), "no tag");
}

/// Signed by the right key over what stands there, and still refused: the algorithm is not what the header says.
#[test]
fn another_algorithm_or_header_is_refused_though_it_is_signed() {
    use coset::{CoseSign1Builder, HeaderBuilder, TaggedCborSerializable, iana};
    let key = key();
    let payload = [key.public().bytes(), CONTENT].concat();
    let id = key.public().id().0.to_vec();
    let forged = |header| {
        let builder = CoseSign1Builder::new().protected(header).payload(payload.clone());
        let signed = builder.create_signature(b"holdfast handover", |tbs| key.sign(tbs).to_vec());
        signed.build().to_tagged_vec().unwrap()
    };
    let head = HeaderBuilder::new;
    let ours = forged(head().algorithm(iana::Algorithm::EdDSA).key_id(id.clone()).build());
    assert_eq!(ours, token(), "this test forges as the code seals");
    for (what, header) in [
        ("fully specified Ed25519, RFC 9864", head().algorithm(iana::Algorithm::Ed25519).key_id(id.clone())),
        ("ES256", head().algorithm(iana::Algorithm::ES256).key_id(id.clone())),
        ("no algorithm", head().key_id(id.clone())),
        ("no key id", head().algorithm(iana::Algorithm::EdDSA)),
        ("another key's id", head().algorithm(iana::Algorithm::EdDSA).key_id(vec![0; 8])),
        ("one header more", head().algorithm(iana::Algorithm::EdDSA).key_id(id.clone()).iv(vec![1])),
    ] {
        assert_eq!(open(&forged(header.build()), Purpose::Handover), Err(TokenFault::Form), "{what}");
    }
}

#[test]
fn what_is_too_long_is_refused_unread_and_never_made() {
    let long = vec![0xd2; MOST_TOKEN_BYTES + 1];
    assert_eq!(open(&long, Purpose::Handover), Err(TokenFault::TooLong));
    assert_eq!(seal(&key(), Purpose::Handover, &long), Err(TokenFault::TooLong));
    let most = vec![7; MOST_TOKEN_BYTES - 118];
    let token = seal(&key(), Purpose::Backup, &most).unwrap();
    assert_eq!(token.len(), MOST_TOKEN_BYTES);
    assert_eq!(open(&token, Purpose::Backup).unwrap().content, most);
}
