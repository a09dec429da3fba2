//! Tablets, by their public keys: this one, and those it has been paired with.

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::moment::Moment;

/// Tablets one tablet knows by name at most.
pub const KNOWN_MOST: usize = 256;
/// Bytes of an Ed25519 public key (RFC 8032).
const KEY_BYTES: usize = 32;

/// A tablet by its public key, as 64 hexadecimal digits.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Tablet(String);

impl Tablet {
    pub fn of_key(key: &[u8; KEY_BYTES]) -> Tablet {
        Tablet(key.iter().map(|byte| format!("{byte:02x}")).collect())
    }

    /// `None` when it is not 64 hexadecimal digits.
    pub fn key(&self) -> Option<[u8; KEY_BYTES]> {
        let pair = |at: usize| u8::from_str_radix(self.0.get(2 * at..2 * at + 2)?, 16).ok();
        let bytes: Option<Vec<u8>> = (0..KEY_BYTES).map(pair).collect();
        bytes.filter(|_| self.0.len() == 2 * KEY_BYTES)?.try_into().ok()
    }

    /// The first 8 bytes of the SHA-256 of the key, to be compared by eye: "3F9A 27C1 0B44 D2E8".
    pub fn short(&self) -> String {
        let hash = Sha256::digest(self.key().unwrap_or_default());
        let groups: Vec<String> = hash
            .chunks(2)
            .take(4)
            .map(|two| two.iter().map(|byte| format!("{byte:02X}")).collect())
            .collect();
        groups.join(" ")
    }
}

/// A tablet that somebody here gave a name.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KnownTablet {
    pub tablet: Tablet,
    pub name: String,
    pub since: Moment,
}

/// This tablet's own key: only what others may know of it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OwnKey {
    pub tablet: Option<Tablet>,
    /// Why nothing can be signed.
    pub lost: Option<KeyLost>,
    /// The session is to make one.
    pub wanted: bool,
}

impl OwnKey {
    /// Something can be signed.
    pub fn is_there(&self) -> bool {
        self.tablet.is_some() && self.lost.is_none()
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum KeyLost {
    /// The key's file is gone.
    Gone,
    /// It is there, and no key.
    Damaged,
    /// A new one could not be written.
    NotWritten,
}
