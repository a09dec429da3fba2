//! Base45 (RFC 9285): bytes in the alphabet of a QR code's alphanumeric mode.
//!
//! Own lines, since the decoder of the crate known to us accepts groups above 65535.

const ALPHABET: &[u8; 45] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

/// Why a text is no Base45.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Base45Fault {
    /// A letter outside the alphabet, at this byte.
    Letter { at: usize },
    /// One letter is left over at the end: cut short.
    Length,
    /// The group that begins at this byte stands for no bytes ("GGW").
    Group { at: usize },
}

/// Three letters for two bytes, two letters for a last single one.
pub fn encode(bytes: &[u8]) -> String {
    bytes.chunks(2).flat_map(letters).map(char::from).collect()
}

fn letters(group: &[u8]) -> impl Iterator<Item = u8> {
    let value = group.iter().fold(0_usize, |value, byte| (value << 8) | usize::from(*byte));
    let count = group.len() + 1;
    [value % 45, value / 45 % 45, value / 2025].into_iter().take(count).map(|digit| ALPHABET[digit])
}

/// The bytes of which `encode` makes exactly this text. There is one such text for any bytes.
///
/// # Errors
/// The first place at which the text is no Base45.
pub fn decode(text: &[u8]) -> Result<Vec<u8>, Base45Fault> {
    let digits: Vec<u32> = text.iter().enumerate().map(digit).collect::<Result<_, _>>()?;
    let mut bytes = Vec::with_capacity(text.len() / 3 * 2 + 1);
    for (index, group) in digits.chunks(3).enumerate() {
        let value = group.iter().rev().fold(0, |value, digit| value * 45 + digit);
        let fault = Base45Fault::Group { at: index * 3 };
        match group.len() {
            3 => bytes.extend(u16::try_from(value).map_err(|_| fault)?.to_be_bytes()),
            2 => bytes.push(u8::try_from(value).map_err(|_| fault)?),
            _ => return Err(Base45Fault::Length),
        }
    }
    Ok(bytes)
}

fn digit((at, letter): (usize, &u8)) -> Result<u32, Base45Fault> {
    let place = ALPHABET.iter().position(|known| known == letter);
    place.and_then(|place| u32::try_from(place).ok()).ok_or(Base45Fault::Letter { at })
}
