//! The signature's line: the last one, over the exact bytes before it.

use seal::{PublicKey, SIGNATURE_BYTES, Signature, TabletKey, base45};

const MARK: &str = "SIG ";
const KEY_BYTES: usize = 32;

/// The text with a last line: `SIG `, then public key and signature in Base45.
pub fn sign(text: &str, key: &TabletKey) -> String {
    let body = format!("{text}\n");
    let signature = key.sign(body.as_bytes());
    let packed = [&key.public().bytes()[..], &signature].concat();
    format!("{body}{MARK}{}", base45::encode(&packed))
}

/// Lines with a signature's line below them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Envelope<'a> {
    pub text: &'a str,
    pub key: PublicKey,
    /// The signature is this key's over these lines.
    pub holds: bool,
}

/// Why there is no envelope.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TornEnvelope {
    /// The signature's line is missing, cut, or no Base45.
    Form,
    /// It is whole, but names no key: changed.
    Key,
}

/// # Errors
/// See `TornEnvelope`.
pub fn opened(whole: &str) -> Result<Envelope<'_>, TornEnvelope> {
    let (text, last) = whole.rsplit_once('\n').ok_or(TornEnvelope::Form)?;
    let letters = last.strip_prefix(MARK).ok_or(TornEnvelope::Form)?;
    let packed = base45::decode(letters.as_bytes()).map_err(|_| TornEnvelope::Form)?;
    let packed = <[u8; KEY_BYTES + SIGNATURE_BYTES]>::try_from(packed).map_err(|_| TornEnvelope::Form)?;
    let (key, signature) = packed.split_at(KEY_BYTES);
    let signature = Signature::try_from(signature).map_err(|_| TornEnvelope::Form)?;
    let key = PublicKey::from_bytes(key).ok_or(TornEnvelope::Key)?;
    let signed = &whole[..=text.len()];
    Ok(Envelope { text, key, holds: key.verifies(signed.as_bytes(), &signature) })
}
