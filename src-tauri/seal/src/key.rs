//! The key of one tablet, and what others know of it.

use std::fmt;

use ed25519_dalek::{Signer, SigningKey, VerifyingKey};
use sha2::{Digest, Sha256};
use zeroize::Zeroizing;

use crate::secret::Secret;

/// Bytes of an Ed25519 signature (RFC 8032).
pub const SIGNATURE_BYTES: usize = 64;

/// An Ed25519 signature as RFC 8032 writes it.
pub type Signature = [u8; SIGNATURE_BYTES];

/// What signs. Like `Secret` it is wiped when dropped and cannot be printed, copied or written.
///
/// ```compile_fail
/// let key = seal::TabletKey::from_seed(&[7; 32]);
/// println!("{key:?}");
/// ```
/// ```
/// let key = seal::TabletKey::from_seed(&[7; 32]);
/// assert!(key.public().verifies(b"words", &key.sign(b"words")));
/// ```
pub struct TabletKey(SigningKey);

impl TabletKey {
    /// From 32 random bytes.
    pub fn from_seed(seed: &[u8; 32]) -> TabletKey {
        TabletKey(SigningKey::from_bytes(seed))
    }

    /// From what `seed` gave; `None` when it is not 32 bytes.
    pub fn from_secret(seed: &Secret) -> Option<TabletKey> {
        let seed = Zeroizing::new(<[u8; 32]>::try_from(seed.expose()).ok()?);
        Some(TabletKey::from_seed(&seed))
    }

    /// The 32 bytes it was made from.
    pub fn seed(&self) -> Secret {
        Secret::new(self.0.to_bytes().to_vec())
    }

    pub fn public(&self) -> PublicKey {
        PublicKey(self.0.verifying_key().to_bytes())
    }

    pub fn sign(&self, bytes: &[u8]) -> Signature {
        self.0.sign(bytes).to_bytes()
    }
}

/// A public key that names a tablet. Only sound ones exist: on the curve and of full order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PublicKey([u8; 32]);

impl PublicKey {
    /// `None` when the bytes are no key, or one under which a signature proves nothing.
    pub fn from_bytes(bytes: &[u8]) -> Option<PublicKey> {
        let bytes = <[u8; 32]>::try_from(bytes).ok()?;
        let key = VerifyingKey::from_bytes(&bytes).ok()?;
        // A point has one canonical form; others decode too and would give one tablet two names.
        let canonical = key.to_edwards().compress().to_bytes() == bytes;
        (canonical && !key.is_weak()).then_some(PublicKey(bytes))
    }

    pub fn bytes(&self) -> &[u8; 32] {
        &self.0
    }

    /// Strict: no malleable signature, no weak point.
    pub fn verifies(&self, bytes: &[u8], signature: &Signature) -> bool {
        let signature = ed25519_dalek::Signature::from_bytes(signature);
        VerifyingKey::from_bytes(&self.0).is_ok_and(|key| key.verify_strict(bytes, &signature).is_ok())
    }

    pub fn id(&self) -> KeyId {
        let hash = Sha256::digest(self.0);
        KeyId(std::array::from_fn(|at| hash[at]))
    }
}

/// The first 8 bytes of the SHA-256 of a public key: short enough to be compared by eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KeyId(pub [u8; 8]);

/// "3F9A 27C1 0B44 D2E8"
impl fmt::Display for KeyId {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let groups: Vec<String> =
            self.0.chunks(2).map(|two| format!("{:02X}{:02X}", two[0], two[1])).collect();
        out.write_str(&groups.join(" "))
    }
}
