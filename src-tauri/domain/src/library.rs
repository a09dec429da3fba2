//! What a unit hands in: rules and generators, read, waiting for a name, or let into force.

use serde::{Deserialize, Serialize};

use crate::document::LONGEST;
use crate::moment::Moment;
use crate::profile::Profile;
use crate::rules::Rules;

/// Generators one tablet knows, the shipped examples among them.
pub const GENERATORS_MOST: usize = 16;
/// Some editors write this before the text.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// The kind of file a card asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Paper {
    Rules,
    Generator,
    /// A signed paper of an educator, in bytes.
    SignedOff,
}

impl Paper {
    pub const ALL: [Paper; 3] = [Paper::Rules, Paper::Generator, Paper::SignedOff];

    /// The id of the field on the card, and the kind under which the page hands the file in.
    pub fn kind(self) -> &'static str {
        match self {
            Paper::Rules => "rules",
            Paper::Generator => "generator-file",
            Paper::SignedOff => "signed-file",
        }
    }

    pub fn of_kind(kind: &str) -> Option<Paper> {
        Paper::ALL.into_iter().find(|paper| paper.kind() == kind)
    }
}

/// Why the bytes of a file cannot be read as text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NotText {
    /// More than `document::LONGEST` bytes.
    TooLong,
    NotUtf8,
}

/// A file as it was handed in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HandedIn {
    pub paper: Paper,
    pub text: Result<String, NotText>,
}

impl HandedIn {
    pub fn new(paper: Paper, bytes: &[u8]) -> HandedIn {
        HandedIn { paper, text: text(bytes) }
    }
}

fn text(bytes: &[u8]) -> Result<String, NotText> {
    if bytes.len() > LONGEST {
        return Err(NotText::TooLong);
    }
    let text = std::str::from_utf8(bytes).map_err(|_| NotText::NotUtf8)?;
    Ok(text.strip_prefix(BYTE_ORDER_MARK).unwrap_or(text).to_owned())
}

/// Read without a fault, and not in force: `hash` is of the file's text.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Offered {
    Rules { rules: Box<Rules>, hash: String },
    Generator { profile: Box<Profile>, hash: String },
}

/// Who let a file into force on this tablet, and which one by the hash of its text.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LetIn {
    pub by: String,
    pub role: String,
    pub hash: String,
    pub at: Moment,
}
