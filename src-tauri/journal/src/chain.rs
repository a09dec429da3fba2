//! The chain as arithmetic: what is hashed, how records link, how a walk over them can break.

use std::collections::BTreeSet;
use std::fmt;

use sha2::{Digest, Sha256};

pub(crate) const SALT_BYTES: usize = 16;

/// SHA-256, 32 bytes.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Hash(pub [u8; 32]);

impl fmt::Display for Hash {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(out, "{byte:02x}"))
    }
}

impl fmt::Debug for Hash {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, out)
    }
}

/// The last record of a chain: its number (from 1; 0 = no record yet) and its hash.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    pub seq: u32,
    pub hash: Hash,
}

impl Head {
    /// Before the first record.
    pub const GENESIS: Head = Head { seq: 0, hash: Hash([0; 32]) };

    /// The head after one more record with this commitment.
    pub(crate) fn next(self, commitment: Hash) -> Head {
        let seq = self.seq.saturating_add(1);
        Head { seq, hash: link(self.hash, seq, commitment) }
    }
}

/// Hides the body: without the salt nobody can test a guess against it.
pub(crate) fn commitment(salt: &[u8], body: &[u8]) -> Hash {
    digest(&[salt, body])
}

fn link(previous: Hash, seq: u32, commitment: Hash) -> Hash {
    digest(&[&previous.0, &u64::from(seq).to_be_bytes(), &commitment.0])
}

pub(crate) fn digest(parts: &[&[u8]]) -> Hash {
    let mut hasher = Sha256::new();
    parts.iter().for_each(|part| hasher.update(part));
    Hash(hasher.finalize().into())
}

/// What a record is to the journal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    Event,
    /// Names the records whose bodies went in the same transaction.
    Erasure,
}

/// One record whose body is still there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Record<'a> {
    pub seq: u32,
    pub kind: Kind,
    /// The bytes the caller gave.
    pub body: &'a [u8],
}

/// The caller of a replay could not read a body it once wrote.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unreadable;

/// Where and how a chain does not hold. `seq` is the first record concerned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Break {
    /// A record is missing from the middle.
    Gap { seq: u32 },
    /// The record's hash is not that of its predecessor, number and commitment.
    Link { seq: u32 },
    /// The body or its salt is not what was committed to.
    Body { seq: u32 },
    /// A body is missing and no later record says it was erased.
    BodyMissing { seq: u32 },
    /// A body stands although a later record says it was erased.
    BodyReturned { seq: u32 },
    /// The body holds, but is in no form this version knows.
    Unreadable { seq: u32 },
    /// The chain ends before a record it is known to have held.
    Shortened { had: u32, has: u32 },
    /// The chain is another one than the tablet last stood on.
    Replaced { seq: u32 },
}

const EVENT: u8 = b'e';
const ERASURE: u8 = b'x';

pub(crate) fn event_body(event: &[u8]) -> Vec<u8> {
    [&[EVENT], event].concat()
}

/// Tag, count of erased records, their numbers, then the caller's bytes.
pub(crate) fn erasure_body(erased: &BTreeSet<u32>, event: &[u8]) -> Vec<u8> {
    let count = (erased.len() as u32).to_be_bytes();
    let numbers = erased.iter().flat_map(|seq| seq.to_be_bytes());
    [ERASURE].into_iter().chain(count).chain(numbers).chain(event.iter().copied()).collect()
}

/// A stored body taken apart.
pub(crate) struct Opened<'a> {
    pub(crate) kind: Kind,
    pub(crate) erased: Vec<u32>,
    pub(crate) body: &'a [u8],
}

pub(crate) fn open_body(stored: &[u8]) -> Option<Opened<'_>> {
    let (tag, rest) = stored.split_first()?;
    match *tag {
        EVENT => Some(Opened { kind: Kind::Event, erased: Vec::new(), body: rest }),
        ERASURE => open_erasure(rest),
        _ => None,
    }
}

fn open_erasure(rest: &[u8]) -> Option<Opened<'_>> {
    let (count, rest) = rest.split_first_chunk()?;
    let bytes = usize::try_from(u32::from_be_bytes(*count)).ok()?.checked_mul(4)?;
    let (numbers, body) = rest.split_at_checked(bytes)?;
    let erased = numbers.as_chunks().0.iter().map(|number| u32::from_be_bytes(*number)).collect();
    Some(Opened { kind: Kind::Erasure, erased, body })
}

/// A record as the tables hold it.
pub(crate) struct Row {
    pub(crate) seq: u32,
    pub(crate) commitment: Hash,
    pub(crate) hash: Hash,
    /// Salt and stored body; `None` once erased.
    pub(crate) content: Option<(Vec<u8>, Vec<u8>)>,
}

/// Follows a chain record by record from a head that is taken as proven.
pub(crate) struct Walk {
    from: u32,
    head: Head,
    /// Bodies that were not there and still wait for the record that erased them.
    gone: BTreeSet<u32>,
    pub(crate) erased: u32,
}

impl Walk {
    pub(crate) fn from(head: Head) -> Walk {
        Walk { from: head.seq, head, gone: BTreeSet::new(), erased: 0 }
    }

    /// The next record; `None` when its body was erased.
    pub(crate) fn step<'a>(&mut self, row: &'a Row) -> Result<Option<Record<'a>>, Break> {
        let seq = self.head.seq.saturating_add(1);
        if row.seq != seq {
            return Err(Break::Gap { seq });
        }
        let next = self.head.next(row.commitment);
        if next.hash != row.hash {
            return Err(Break::Link { seq });
        }
        self.head = next;
        let Some((salt, body)) = &row.content else {
            self.gone.insert(seq);
            return Ok(None);
        };
        self.body(seq, row.commitment, salt, body).map(Some)
    }

    fn body<'a>(
        &mut self,
        seq: u32,
        committed: Hash,
        salt: &[u8],
        stored: &'a [u8],
    ) -> Result<Record<'a>, Break> {
        if salt.len() != SALT_BYTES || commitment(salt, stored) != committed {
            return Err(Break::Body { seq });
        }
        let opened = open_body(stored).ok_or(Break::Unreadable { seq })?;
        opened.erased.iter().try_for_each(|erased| self.erasure(*erased))?;
        Ok(Record { seq, kind: opened.kind, body: opened.body })
    }

    /// A walk that starts later cannot have met the body; the whole walk can.
    fn erasure(&mut self, seq: u32) -> Result<(), Break> {
        self.erased += 1;
        match self.gone.remove(&seq) || seq <= self.from {
            true => Ok(()),
            false => Err(Break::BodyReturned { seq }),
        }
    }

    pub(crate) fn finish(self) -> Result<Head, Break> {
        match self.gone.first() {
            Some(seq) => Err(Break::BodyMissing { seq: *seq }),
            None => Ok(self.head),
        }
    }
}
