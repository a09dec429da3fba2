//! The picture: a QR code (ISO/IEC 18004).

use qrcode::bits::Bits;
use qrcode::{Color, EcLevel, QrCode, Version};

/// A symbol of version 18 is 89 modules wide, 97 with its quiet zone.
pub const MOST_VERSION_LINES: i16 = 18;
/// 97 modules, 105 with the quiet zone: between tablets, at 130 mm.
pub const MOST_VERSION_COPY: i16 = 20;

/// How much damage is mended: M about 15 %, Q about 25 % of the code (ISO/IEC 18004).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    M,
    Q,
}

/// Square, without the quiet zone of four modules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawing {
    pub version: i16,
    pub width: usize,
    /// Row by row; `true` is dark.
    pub dark: Vec<bool>,
}

/// The smallest symbol that holds the text; `None` above `most_version`.
///
/// The segments are laid out here: a signature's line in alphanumeric mode, all before it as bytes. The library's
/// own choice of segments is now and then some bits longer, so that the most that fits could not be said.
pub fn draw(text: &str, level: Level, most_version: i16) -> Option<Drawing> {
    let level = match level {
        Level::M => EcLevel::M,
        Level::Q => EcLevel::Q,
    };
    let tail = text.rfind('\n').map_or(0, |at| at + 1);
    let (bytes, letters) =
        text.as_bytes().split_at(if is_alphanumeric(&text[tail..]) { tail } else { text.len() });
    let fitting =
        |version| symbol(bytes, letters, Version::Normal(version), level).map(|code| (version, code));
    let (version, code) = (1..=most_version.min(40)).find_map(fitting)?;
    let dark = code.to_colors().into_iter().map(|color| color == Color::Dark).collect();
    Some(Drawing { version, width: code.width(), dark })
}

fn is_alphanumeric(text: &str) -> bool {
    let special = |byte| b" $%*+-./:".contains(&byte);
    text.bytes().all(|byte| byte.is_ascii_digit() || byte.is_ascii_uppercase() || special(byte))
}

fn symbol(bytes: &[u8], letters: &[u8], version: Version, level: EcLevel) -> Option<QrCode> {
    let mut bits = Bits::new(version);
    if !bytes.is_empty() {
        bits.push_byte_data(bytes).ok()?;
    }
    if !letters.is_empty() {
        bits.push_alphanumeric_data(letters).ok()?;
    }
    bits.push_terminator(level).ok()?;
    QrCode::with_bits(bits, level).ok()
}

impl Drawing {
    /// Each row as hexadecimal digits of four modules.
    pub fn packed(&self) -> Vec<String> {
        let digit = |four: &[bool]| {
            let value = (0..4).fold(0, |value, at| value * 2 + u32::from(four.get(at) == Some(&true)));
            char::from_digit(value, 16).unwrap_or('0')
        };
        self.dark.chunks(self.width.max(1)).map(|row| row.chunks(4).map(digit).collect()).collect()
    }

    /// '1' is dark; one text a row.
    pub fn rows(&self) -> Vec<String> {
        let row = |row: &[bool]| row.iter().map(|dark| if *dark { '1' } else { '0' }).collect();
        self.dark.chunks(self.width.max(1)).map(row).collect()
    }
}

/// Rows of '0' and '1', `across` modules each, from packed ones.
pub fn unpacked(across: u16, packed: &[String]) -> Vec<String> {
    let bits = |digit: char| format!("{:04b}", digit.to_digit(16).unwrap_or(0));
    let row = |row: &String| row.chars().flat_map(|digit| bits(digit).chars().collect::<Vec<_>>()).collect();
    let wide: Vec<String> = packed.iter().map(row).collect();
    wide.into_iter().map(|row| row.chars().take(across.into()).collect()).collect()
}
