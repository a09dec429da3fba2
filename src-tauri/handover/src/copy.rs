//! The compact form: one summary with the checks before it, for another tablet.
//!
//! `HFC1:` to `HFC4:` and then Base45 of a COSE_Sign1 token over CBOR arrays. The version stands in the prefix, so
//! that an older tablet can say "written by a newer version", and again in the signed content.

mod packed;

use seal::{Opened, Purpose, TabletKey, TokenFault, base45};

use crate::lines;
use domain::handover::summary::{MOST_CHECKS, Summary};

/// The newest format that this version writes and reads; each copy is written in the oldest that can say it.
pub const VERSION: u32 = 5;
const MARK: &str = "HFC";

/// Letters that version 20 at level Q holds in alphanumeric mode (ISO/IEC 18004).
pub const MOST_LETTERS: usize = 702;

/// Why there is no summary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CopyFault {
    Token(TokenFault),
    /// The signature holds, but the content is not in the one form.
    Content,
    TooLong,
}

/// The signed copy, with as many of the earlier checks as fit; the oldest are left out first.
///
/// # Errors
/// `TooLong` when not even the newest check fits.
pub fn sign(summary: &Summary, key: &TabletKey) -> Result<String, CopyFault> {
    let most = summary.earlier.len().min(MOST_CHECKS - 1);
    let with = |count: usize| Summary { earlier: summary.earlier[..count].to_vec(), ..summary.clone() };
    for count in (0..=most).rev() {
        let summary = with(count);
        let content = packed::packed(&summary).ok_or(CopyFault::Content)?;
        let token = seal::seal(key, Purpose::Handover, &content).map_err(CopyFault::Token)?;
        let text = format!("{MARK}{}:{}", version_for(&summary), base45::encode(&token));
        if text.len() <= MOST_LETTERS {
            return Ok(text);
        }
    }
    Err(CopyFault::TooLong)
}

/// The oldest format that can say every check of it.
pub fn version_for(summary: &Summary) -> u32 {
    summary.earlier.iter().map(lines::version_for).fold(lines::version_for(&summary.newest), u32::max)
}

/// The version of a copy and what follows; `None` when the text is no copy.
pub fn head(text: &str) -> Option<(u32, &str)> {
    let (version, letters) = text.strip_prefix(MARK)?.split_once(':')?;
    let plain = (1..=4).contains(&version.len()) && version.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| version.parse().ok()).flatten().map(|version| (version, letters))
}

/// The content of a copy whose signature holds, not yet understood.
///
/// # Errors
/// `Token` when it is damaged or altered.
pub fn opened(letters: &str) -> Result<Opened, CopyFault> {
    let token = base45::decode(letters.as_bytes()).map_err(|_| CopyFault::Token(TokenFault::Form))?;
    seal::open(&token, Purpose::Handover).map_err(CopyFault::Token)
}

/// What `sign` puts under its signature where everything fits; `None` where it could not be read again.
pub fn content(summary: &Summary) -> Option<Vec<u8>> {
    packed::packed(summary)
}

/// The summary of which `content` makes exactly these bytes.
pub fn read(content: &[u8]) -> Option<Summary> {
    packed::unpacked(content)
}
