//! A key locked by a PIN: Argon2id (RFC 9106) makes a key from the PIN, XChaCha20-Poly1305 locks with it.
//!
//! A PIN of six digits has a million values: at the shipped effort (a fraction of a second a guess) somebody who
//! holds the file tries them all in days. The lock keeps a colleague from signing as another; it does not keep a
//! thief with the file and time from it.

use argon2::{Algorithm, Argon2, Params, Version};
use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{Key, XChaCha20Poly1305, XNonce};
use zeroize::Zeroizing;

use crate::key::TabletKey;
use crate::secret::Secret;

const FORMAT: u8 = 1;
const SALT_BYTES: usize = 16;
const NONCE_BYTES: usize = 24;
/// The seed of 32 bytes and a tag of 16.
const BOX_BYTES: usize = 48;
/// Format, memory (4), passes, lanes.
const HEAD_BYTES: usize = 7;
/// A locked key as a file.
pub const LOCKED_BYTES: usize = HEAD_BYTES + SALT_BYTES + NONCE_BYTES + BOX_BYTES;

/// How hard a guess is made. Stored with the key, so that it can be raised later.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// KiB, 8,192 to 262,144: a file cannot ask for more memory than a tablet has.
    pub memory_kib: u32,
    /// 1 to 10.
    pub passes: u8,
    /// 1 to 4.
    pub lanes: u8,
}

impl Effort {
    /// 64 MiB as RFC 9106 §4 recommends where memory is short, which also names three passes (read from memory);
    /// eight, since five took less than the 300 ms asked for on a fast machine. One lane: a worker is one thread.
    pub const SHIPPED: Effort = Effort { memory_kib: 65_536, passes: 8, lanes: 1 };
    /// The least that is accepted.
    pub const LEAST: Effort = Effort { memory_kib: 8_192, passes: 1, lanes: 1 };

    fn allowed(self) -> bool {
        (8_192..=262_144).contains(&self.memory_kib)
            && (1..=10).contains(&self.passes)
            && (1..=4).contains(&self.lanes)
    }
}

/// Why a key was not locked or unlocked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LockFault {
    /// The PIN is wrong, or the file was changed: the two cannot be told apart.
    WrongPin,
    /// No locked key of this format.
    Form,
    /// An effort outside the limits.
    Effort,
    /// Not enough memory, or the device failed.
    Device,
}

/// A key that only its PIN opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LockedKey {
    effort: Effort,
    salt: [u8; SALT_BYTES],
    nonce: [u8; NONCE_BYTES],
    sealed: [u8; BOX_BYTES],
}

impl LockedKey {
    /// Slow on purpose: a worker's job. `fresh` are 40 random bytes never used before.
    ///
    /// # Errors
    /// `Effort` outside the limits; `Device` without memory.
    pub fn lock(
        key: &TabletKey,
        pin: &Secret,
        effort: Effort,
        fresh: &[u8; 40],
    ) -> Result<LockedKey, LockFault> {
        let salt = std::array::from_fn(|at| fresh[at]);
        let nonce = std::array::from_fn(|at| fresh[SALT_BYTES + at]);
        let seed = key.seed();
        let message = Payload { msg: seed.expose(), aad: &head(effort) };
        let sealed = lock_of(pin, effort, &salt)?.encrypt(&XNonce::from(nonce), message);
        let sealed = sealed.map_err(|_| LockFault::Device)?.try_into().map_err(|_| LockFault::Device)?;
        Ok(LockedKey { effort, salt, nonce, sealed })
    }

    /// Slow on purpose: a worker's job.
    ///
    /// # Errors
    /// `WrongPin` also when the file was changed.
    pub fn unlock(&self, pin: &Secret) -> Result<TabletKey, LockFault> {
        let message = Payload { msg: &self.sealed, aad: &head(self.effort) };
        let lock = lock_of(pin, self.effort, &self.salt)?;
        let seed = lock.decrypt(&XNonce::from(self.nonce), message).map_err(|_| LockFault::WrongPin)?;
        TabletKey::from_secret(&Secret::new(seed)).ok_or(LockFault::Form)
    }

    pub fn to_bytes(&self) -> Vec<u8> {
        [&head(self.effort)[..], &self.salt, &self.nonce, &self.sealed].concat()
    }

    /// # Errors
    /// `Form` when the length or the format is another; `Effort` outside the limits.
    pub fn from_bytes(bytes: &[u8]) -> Result<LockedKey, LockFault> {
        let bytes = <&[u8; LOCKED_BYTES]>::try_from(bytes).map_err(|_| LockFault::Form)?;
        if bytes[0] != FORMAT {
            return Err(LockFault::Form);
        }
        let memory_kib = u32::from_be_bytes(part(bytes, 1));
        let effort = Effort { memory_kib, passes: bytes[5], lanes: bytes[6] };
        let (nonce_at, sealed_at) = (HEAD_BYTES + SALT_BYTES, HEAD_BYTES + SALT_BYTES + NONCE_BYTES);
        let (salt, nonce, sealed) = (part(bytes, HEAD_BYTES), part(bytes, nonce_at), part(bytes, sealed_at));
        if effort.allowed() { Ok(LockedKey { effort, salt, nonce, sealed }) } else { Err(LockFault::Effort) }
    }
}

fn part<const N: usize>(bytes: &[u8; LOCKED_BYTES], from: usize) -> [u8; N] {
    std::array::from_fn(|at| bytes[from + at])
}

fn head(effort: Effort) -> [u8; HEAD_BYTES] {
    let [a, b, c, d] = effort.memory_kib.to_be_bytes();
    [FORMAT, a, b, c, d, effort.passes, effort.lanes]
}

fn lock_of(pin: &Secret, effort: Effort, salt: &[u8]) -> Result<XChaCha20Poly1305, LockFault> {
    if !effort.allowed() {
        return Err(LockFault::Effort);
    }
    let params = Params::new(effort.memory_kib, effort.passes.into(), effort.lanes.into(), Some(32));
    let argon = Argon2::new(Algorithm::Argon2id, Version::V0x13, params.map_err(|_| LockFault::Effort)?);
    let mut key = Zeroizing::new([0_u8; 32]);
    argon.hash_password_into(pin.expose(), salt, &mut *key).map_err(|_| LockFault::Device)?;
    Ok(XChaCha20Poly1305::new(&Key::from(*key)))
}
