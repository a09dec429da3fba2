//! A state as one 64-bit number: its fields are laid out as bytes and folded in, eight at a time. Among 10
//! million states of one walk two share a number with a chance of about 3 in a million; the second of
//! the two would not be walked.

use std::hash::{Hash, Hasher};

/// Odd, and without pattern: digits of the golden ratio and of pi.
const SPREAD: u64 = 0x9E37_79B9_7F4A_7C15;
const START: u64 = 0x243F_6A88_85A3_08D3;

/// Gathers the bytes that `Hash` hands over. Discriminants are below 256 here: one byte each.
struct Folded {
    state: u64,
    word: u64,
    filled: u32,
}

fn fold(state: u64, word: u64) -> u64 {
    let product = u128::from(state ^ word) * u128::from(SPREAD);
    let [low, high] = [product & u128::from(u64::MAX), product >> 64];
    u64::try_from(low ^ high).unwrap_or(0)
}

impl Folded {
    #[inline]
    fn push(&mut self, byte: u8) {
        self.word = (self.word << 8) | u64::from(byte);
        self.filled += 1;
        if self.filled == 8 {
            self.state = fold(self.state.rotate_left(23), self.word);
            self.word = 0;
            self.filled = 0;
        }
    }
}

impl Hasher for Folded {
    #[inline]
    fn write(&mut self, bytes: &[u8]) {
        bytes.iter().for_each(|byte| self.push(*byte));
    }

    #[inline]
    fn write_u8(&mut self, byte: u8) {
        self.push(byte);
    }

    #[inline]
    fn write_isize(&mut self, discriminant: isize) {
        self.push(u8::try_from(discriminant).unwrap());
    }

    #[inline]
    fn write_usize(&mut self, length: usize) {
        self.push(u8::try_from(length).unwrap());
    }

    #[inline]
    fn write_u64(&mut self, part: u64) {
        self.state = fold(self.state.rotate_left(29), part);
    }

    #[inline]
    fn finish(&self) -> u64 {
        let rest = self.word | (u64::from(self.filled) << 60);
        fold(fold(self.state.rotate_left(23), rest), START)
    }
}

pub fn of(state: &impl Hash) -> u64 {
    let mut folded = Folded { state: START, word: 0, filled: 0 };
    state.hash(&mut folded);
    folded.finish()
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
