//! A state as one 64-bit number: its fields are laid out as bytes, then hashed once. Among 10 million states
//! two share a number with a chance of about 3 in a million; a shared one is walked once instead of twice.

use std::hash::{BuildHasher, Hash, Hasher};

const ROOM: usize = 512;

/// Gathers the bytes that `Hash` hands over. Discriminants are below 256 here: one byte each.
struct Layout {
    bytes: [u8; ROOM],
    filled: usize,
}

impl Layout {
    fn push(&mut self, byte: u8) {
        self.bytes[self.filled] = byte;
        self.filled += 1;
    }
}

impl Hasher for Layout {
    fn write(&mut self, bytes: &[u8]) {
        bytes.iter().for_each(|byte| self.push(*byte));
    }

    fn write_u8(&mut self, byte: u8) {
        self.push(byte);
    }

    fn write_isize(&mut self, discriminant: isize) {
        self.push(u8::try_from(discriminant).unwrap());
    }

    fn write_usize(&mut self, length: usize) {
        self.push(u8::try_from(length).unwrap());
    }

    fn finish(&self) -> u64 {
        foldhash::quality::FixedState::with_seed(7).hash_one(&self.bytes[..self.filled])
    }
}

pub fn of(state: &impl Hash) -> u64 {
    let mut layout = Layout { bytes: [0; ROOM], filled: 0 };
    state.hash(&mut layout);
    layout.finish()
}

/// For sets of fingerprints, which are spread already.
#[derive(Clone, Copy, Default)]
pub struct AsIs(u64);

impl Hasher for AsIs {
    fn write(&mut self, _: &[u8]) {}

    fn write_u64(&mut self, fingerprint: u64) {
        self.0 = fingerprint;
    }

    fn finish(&self) -> u64 {
        self.0
    }
}

pub type Seen = std::collections::HashSet<u64, std::hash::BuildHasherDefault<AsIs>>;
pub type Trail<T> = std::collections::HashMap<u64, T, std::hash::BuildHasherDefault<AsIs>>;
