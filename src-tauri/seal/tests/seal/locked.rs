//! Keys locked by a PIN.

use argon2::{Algorithm, Argon2, AssociatedData, ParamsBuilder, Version};
use seal::{Effort, LOCKED_BYTES, LockFault, LockedKey, Secret, TabletKey};

use crate::hex::hex;

fn pin(digits: &str) -> Secret {
    Secret::new(digits.as_bytes().to_vec())
}

fn locked() -> LockedKey {
    LockedKey::lock(&TabletKey::from_seed(&[4; 32]), &pin("406182"), Effort::LEAST, &[8; 40]).unwrap()
}

/// RFC 9106 §5.3 (from memory): the library in the version pinned here gives the standard's tag.
#[test]
fn argon2id_of_rfc_9106() {
    let data = AssociatedData::new(&[4; 12]).unwrap();
    let params =
        ParamsBuilder::new().m_cost(32).t_cost(3).p_cost(4).data(data).output_len(32).build().unwrap();
    let argon = Argon2::new_with_secret(&[3; 8], Algorithm::Argon2id, Version::V0x13, params).unwrap();
    let mut tag = [0; 32];
    argon.hash_password_into(&[1; 32], &[2; 16], &mut tag).unwrap();
    assert_eq!(tag.to_vec(), hex("0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659"));
}

#[test]
fn the_pin_opens_the_lock_and_another_does_not() {
    let locked = locked();
    let opened = locked.unlock(&pin("406182"));
    assert!(opened.is_ok_and(|key| key.public() == TabletKey::from_seed(&[4; 32]).public()));
    for wrong in ["406183", "40618", "4061820", ""] {
        assert!(matches!(locked.unlock(&pin(wrong)), Err(LockFault::WrongPin)), "{wrong}");
    }
}

#[test]
fn the_key_does_not_stand_in_the_file() {
    let bytes = locked().to_bytes();
    assert_eq!(bytes.len(), LOCKED_BYTES);
    assert!(!bytes.windows(8).any(|window| window == [4; 8]));
}

#[test]
fn a_file_reads_back_or_is_refused() {
    let bytes = locked().to_bytes();
    assert_eq!(LockedKey::from_bytes(&bytes), Ok(locked()));
    assert_eq!(LockedKey::from_bytes(&bytes[..LOCKED_BYTES - 1]), Err(LockFault::Form));
    assert_eq!(LockedKey::from_bytes(&[&bytes[..], &[0]].concat()), Err(LockFault::Form));
    let mut newer = bytes;
    newer[0] = 2;
    assert_eq!(LockedKey::from_bytes(&newer), Err(LockFault::Form));
}

/// One flipped bit in each byte: refused at once, or the PIN does not fit any more. Never another key.
#[test]
fn a_changed_file_gives_no_key() {
    let bytes = locked().to_bytes();
    for at in 0..bytes.len() {
        let mut bad = bytes.clone();
        bad[at] ^= 1;
        match LockedKey::from_bytes(&bad) {
            Err(fault) => assert!(matches!(fault, LockFault::Form | LockFault::Effort), "byte {at}"),
            Ok(locked) => {
                assert!(matches!(locked.unlock(&pin("406182")), Err(LockFault::WrongPin)), "byte {at}")
            }
        }
    }
}

#[test]
fn a_file_cannot_ask_for_more_effort_than_allowed_nor_for_less() {
    for (at, value) in [(1, 0xff), (3, 0), (5, 0), (5, 11), (6, 0), (6, 5)] {
        let mut bytes = locked().to_bytes();
        bytes[at] = value;
        assert_eq!(LockedKey::from_bytes(&bytes), Err(LockFault::Effort), "byte {at} = {value}");
    }
    let idle = Effort { memory_kib: 8, ..Effort::LEAST };
    let key = TabletKey::from_seed(&[4; 32]);
    assert!(matches!(LockedKey::lock(&key, &pin("1"), idle, &[8; 40]), Err(LockFault::Effort)));
}

/// Slow in a debug build, so once only.
#[test]
fn the_shipped_effort_is_allowed_and_works() {
    let key = TabletKey::from_seed(&[4; 32]);
    let locked = LockedKey::lock(&key, &pin("406182"), Effort::SHIPPED, &[8; 40]).unwrap();
    assert!(locked.unlock(&pin("406182")).is_ok_and(|opened| opened.public() == key.public()));
}
