//! What makes a handover, a sign-off, a rule file or a backup trustworthy: Ed25519 signatures (RFC 8032),
//! sealed tokens (COSE_Sign1, RFC 9052), keys locked by a PIN (Argon2id, RFC 9106) and Base45 (RFC 9285).
//!
//! Pure: random bytes are arguments. A signature names the tablet that wrote something and shows that it is
//! unchanged. It does not say who looked at the patient, nor that what was written is true.

pub mod base45;
mod key;
mod known;
mod locked;
mod secret;
mod token;

pub use key::{KeyId, PublicKey, SIGNATURE_BYTES, Signature, TabletKey};
pub use known::{KnownKeys, MOST_KNOWN, NotAdded, Writer};
pub use locked::{Effort, LOCKED_BYTES, LockFault, LockedKey};
pub use secret::Secret;
pub use token::{MOST_TOKEN_BYTES, Opened, Purpose, TokenFault, open, seal};
