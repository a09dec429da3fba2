//! A short, deterministic run of mutations. The long run is the fuzzer's (DEVELOPERS.md).

use handover::lines::{read, sign, written};
use handover::{Origin, Outcome, Summary, copy};

use crate::made::{beyond_limits, key, load, longest, read_later, signed, summary, table, table_for, text};

/// xorshift64: the same mutations on every machine.
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % most as u64) as usize
    }
}

fn mutated(whole: &[u8], chance: &mut Chance) -> Vec<u8> {
    let mut bytes = whole.to_vec();
    for _ in 0..=chance.below(3) {
        let (at, other) = (chance.below(bytes.len()), chance.below(bytes.len()));
        match chance.below(5) {
            0 => bytes[at] = chance.below(256) as u8,
            1 => bytes.insert(at, b" 0A:.\n%"[chance.below(7)]),
            2 => drop(bytes.remove(at)),
            3 => bytes.swap(at, other),
            _ => bytes.extend_from_within(at.min(other)..at.max(other)),
        }
    }
    bytes
}

/// A mutated code is refused, unless the mutations undid each other.
#[test]
fn a_mutated_code_is_refused() {
    let mut chance = Chance(0x5EED);
    let both = |summary: Summary| [signed(&summary), copy::sign(&summary, &key()).unwrap()];
    for whole in [both(summary()), both(read_later(summary())), both(beyond_limits(summary()))].concat() {
        let whole = whole.into_bytes();
        for round in 0..2_000 {
            let bad = mutated(&whole, &mut chance);
            assert!(bad == whole || matches!(load(&bad), Outcome::Refused(_)), "round {round}");
        }
    }
}

/// Mutated before it is signed, so that the parser is reached: what it accepts, it writes the same.
#[test]
fn whatever_the_parser_accepts_it_writes_the_same() {
    let mut chance = Chance(0xC0DE);
    let mut accepted = 0;
    for whole in [summary(), longest(), read_later(summary()), beyond_limits(summary())] {
        let (text, table) = (text(&whole), table_for(&whole));
        for _ in 0..6_000 {
            let bad = String::from_utf8_lossy(&mutated(text.as_bytes(), &mut chance)).into_owned();
            if let Some(summary) = read(&bad, table) {
                assert_eq!(written(&summary, table), bad);
                accepted += 1;
            }
        }
    }
    assert!(accepted > 100, "the mutations reach the parser's inside: {accepted}");
}

#[test]
fn whatever_the_copy_accepts_it_packs_the_same() {
    let mut chance = Chance(0xCAFE);
    let content = |summary: &Summary| {
        let copied = copy::sign(summary, &key()).unwrap();
        copy::opened(copied.split_once(':').unwrap().1).unwrap().content
    };
    for whole in [summary(), read_later(summary()), beyond_limits(summary())] {
        let mut accepted = 0;
        for _ in 0..6_000 {
            let bad = mutated(&content(&whole), &mut chance);
            if let Some(summary) = copy::read(&bad) {
                assert_eq!(content(&summary), bad);
                assert_eq!(copy::content(&summary), Some(bad), "what is signed");
                accepted += 1;
            }
        }
        assert!(accepted > 100, "{accepted}");
    }
}

/// Signed garbage, as another program with a key of its own could make it.
#[test]
fn signed_garbage_is_refused_or_says_what_it_says() {
    let mut chance = Chance(0xBAD);
    for _ in 0..500 {
        let bad = String::from_utf8_lossy(&mutated(text(&summary()).as_bytes(), &mut chance)).into_owned();
        if let Outcome::Read(loaded) = load(sign(&bad, &key()).as_bytes()) {
            assert_eq!(written(&loaded.summary, table()), bad);
            assert_eq!(loaded.summary.origin, Origin::Care);
        }
    }
}
