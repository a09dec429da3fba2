//! The tablets this one has been paired with.

use std::collections::BTreeMap;

use crate::key::PublicKey;

/// Most tablets one tablet knows.
pub const MOST_KNOWN: usize = 256;

/// Who wrote something, as far as this tablet can tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Writer<'a> {
    /// Paired before, under this name.
    Known(&'a str),
    /// The normal case between two units: unchanged, but by a tablet this one does not know.
    Unknown,
}

/// Why a key was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotAdded {
    /// Another tablet has this name.
    NameTaken,
    /// This tablet is known under another name.
    KnownAs,
    Full,
}

/// Public keys by the names people gave them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct KnownKeys(BTreeMap<PublicKey, String>);

impl KnownKeys {
    pub fn writer(&self, key: &PublicKey) -> Writer<'_> {
        self.0.get(key).map_or(Writer::Unknown, |name| Writer::Known(name))
    }

    /// Adding the same key under the same name again changes nothing.
    ///
    /// # Errors
    /// A name stands for one tablet, and a tablet has one name.
    pub fn add(&mut self, key: PublicKey, name: &str) -> Result<(), NotAdded> {
        match self.0.get(&key) {
            Some(known) if known == name => return Ok(()),
            Some(_) => return Err(NotAdded::KnownAs),
            None => {}
        }
        if self.0.values().any(|taken| taken == name) {
            return Err(NotAdded::NameTaken);
        }
        if self.0.len() >= MOST_KNOWN {
            return Err(NotAdded::Full);
        }
        self.0.insert(key, name.to_owned());
        Ok(())
    }

    /// `false` when it was not known.
    pub fn forget(&mut self, key: &PublicKey) -> bool {
        self.0.remove(key).is_some()
    }

    pub fn iter(&self) -> impl Iterator<Item = (&PublicKey, &str)> {
        self.0.iter().map(|(key, name)| (key, name.as_str()))
    }
}
