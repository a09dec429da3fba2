//! Sealed tokens: COSE_Sign1 (RFC 9052) in the one form that this code writes, and no other.
//!
//! Tag 18; protected header exactly {1: -8 (EdDSA), 4: key id}; empty unprotected header; payload = the public
//! key (32 bytes) and then the content; the purpose as external data. Every token is built again from its parts
//! and compared byte for byte, so that long lengths, reordered or doubled keys and trailing bytes are refused.

use coset::{CoseSign1, CoseSign1Builder, HeaderBuilder, TaggedCborSerializable, iana};

use crate::key::{KeyId, PublicKey, Signature, TabletKey};

/// Larger input is refused unread. A QR code holds at most 2,953 bytes; a backup's head is smaller.
pub const MOST_TOKEN_BYTES: usize = 4_096;
const KEY_BYTES: usize = 32;

/// What a token was signed for; one made for another purpose does not verify.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    Handover,
    SignOff,
    Rules,
    Backup,
}

impl Purpose {
    /// Frozen: signed as external data.
    fn label(self) -> &'static [u8] {
        match self {
            Purpose::Handover => b"holdfast handover",
            Purpose::SignOff => b"holdfast sign-off",
            Purpose::Rules => b"holdfast rules",
            Purpose::Backup => b"holdfast backup",
        }
    }
}

/// Why a token is refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TokenFault {
    TooLong,
    /// No COSE_Sign1 of the one form: cut, damaged, or written by something else.
    Form,
    /// Whole in form, but the signature does not fit: changed, or sealed for another purpose.
    Altered,
}

/// What a token held, unchanged since the tablet with this key wrote it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opened {
    pub key: PublicKey,
    pub content: Vec<u8>,
}

/// Signs `content` for one purpose.
///
/// # Errors
/// `TooLong` when the token would be refused on the way back; `Form` when it cannot be encoded.
pub fn seal(key: &TabletKey, purpose: Purpose, content: &[u8]) -> Result<Vec<u8>, TokenFault> {
    let public = key.public();
    let payload = [public.bytes(), content].concat();
    let unsigned = shell(public.id(), payload);
    let signature = key.sign(&unsigned.tbs_data(purpose.label()));
    let token = bytes_of(unsigned, &signature)?;
    if token.len() > MOST_TOKEN_BYTES { Err(TokenFault::TooLong) } else { Ok(token) }
}

/// The content of a token that is exactly as `seal` wrote it for this purpose.
///
/// # Errors
/// See `TokenFault`; nothing of a refused token is given out.
pub fn open(token: &[u8], purpose: Purpose) -> Result<Opened, TokenFault> {
    if token.len() > MOST_TOKEN_BYTES {
        return Err(TokenFault::TooLong);
    }
    let read = CoseSign1::from_tagged_slice(token).map_err(|_| TokenFault::Form)?;
    let signature = Signature::try_from(read.signature.as_slice()).map_err(|_| TokenFault::Form)?;
    let payload = read.payload.ok_or(TokenFault::Form)?;
    let (key, content) = payload.split_at_checked(KEY_BYTES).ok_or(TokenFault::Form)?;
    let content = content.to_vec();
    // A key that is no point of the curve can only come from a change: the writer's was sound.
    let key = PublicKey::from_bytes(key).ok_or(TokenFault::Altered)?;
    let again = shell(key.id(), payload);
    let signed = again.tbs_data(purpose.label());
    if bytes_of(again, &signature)? != token {
        return Err(TokenFault::Form);
    }
    if key.verifies(&signed, &signature) { Ok(Opened { key, content }) } else { Err(TokenFault::Altered) }
}

/// Everything but the signature.
fn shell(id: KeyId, payload: Vec<u8>) -> CoseSign1 {
    let protected = HeaderBuilder::new().algorithm(iana::Algorithm::EdDSA).key_id(id.0.to_vec()).build();
    CoseSign1Builder::new().protected(protected).payload(payload).build()
}

fn bytes_of(mut token: CoseSign1, signature: &Signature) -> Result<Vec<u8>, TokenFault> {
    token.signature = signature.to_vec();
    token.to_tagged_vec().map_err(|_| TokenFault::Form)
}
