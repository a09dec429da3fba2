//! What an educator signs, as a token, and the key that signs, behind its PIN.
//!
//! A signature shows whose key signed and that nothing was changed since. Behind a PIN of six digits a key keeps
//! a careless hand from signing as another; it does not keep out somebody who holds the file.

mod work;

pub use work::{Pins, carry_out};

use domain::teaching::paper::{FORMAT, Paper};
use domain::teaching::{Read, ReadFile, hex};
use seal::{Purpose, TabletKey, TokenFault};

/// Signs exactly the bytes that `Paper::bytes` writes. `None` where they do not fit into a token.
pub fn sign(key: &TabletKey, paper: &Paper) -> Option<Vec<u8>> {
    seal::seal(key, Purpose::SignOff, &paper.bytes().ok()?).ok()
}

/// A file handed in: what it says, if not one byte is other than it was signed.
pub fn read(file: &[u8]) -> ReadFile {
    let opened = match seal::open(file, Purpose::SignOff) {
        Ok(opened) => opened,
        Err(TokenFault::TooLong) => return ReadFile::TooLong,
        Err(TokenFault::Form) => return ReadFile::NotOurs,
        Err(TokenFault::Altered) => return ReadFile::Altered,
    };
    if is_newer(&opened.content) {
        return ReadFile::Newer;
    }
    let Some(paper) = paper(&opened.content) else { return ReadFile::NotOurs };
    let token = hex(file);
    match domain::teaching::token_hash(&token) {
        Some(hash) => ReadFile::Sound(Box::new(Read { paper, key: hex(opened.key.bytes()), token, hash })),
        None => ReadFile::NotOurs,
    }
}

fn is_newer(content: &[u8]) -> bool {
    let value: Option<serde_json::Value> = serde_json::from_slice(content).ok();
    let format = value.as_ref().and_then(|value| value.get("format")).and_then(serde_json::Value::as_u64);
    format.is_some_and(|format| format > u64::from(FORMAT))
}

/// Only the one way of writing it is taken.
fn paper(content: &[u8]) -> Option<Paper> {
    let paper: Paper = serde_json::from_slice(content).ok()?;
    let again = paper.bytes().ok()?;
    (paper.format == FORMAT && again == content).then_some(paper)
}
