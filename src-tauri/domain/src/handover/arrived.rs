//! A code that came to this tablet: being read, refused, or read and not yet taken.

use serde::{Deserialize, Serialize};

use super::summary::Summary;
use super::tablet::Tablet;

/// Codes of one picture that are looked at.
pub const ARRIVED_MOST: usize = 8;
/// A picture of more is not looked at; a tablet has the memory for this many.
pub const MEGAPIXELS_MOST: u32 = 50;

/// Times a picture is looked at, each time in another size, until a code is found.
pub const LOOKS_MOST: u32 = 10;

/// How a code was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Form {
    Lines,
    Copy,
}

/// Told, not refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Remark {
    UnknownTablet,
    /// This check of this tablet is here already.
    Duplicate,
    /// The next check was due before now, or the dials were read more than a day ago.
    Expired {
        age_min: u32,
    },
    /// Written later than now by this tablet's clock.
    AheadOfClock {
        by_min: u32,
    },
    /// Facts were left out of the lines.
    Shortened {
        facts: u8,
    },
    ExampleRules,
    DialsNotRead,
    /// It has lines that this version does not understand.
    UnknownLines,
}

/// Why nothing of it is taken; each is its own sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NotLoaded {
    NotACode,
    TooLong,
    /// Begins like one of ours, but letters are missing or not readable.
    Damaged,
    /// Begins like one of ours, in letters of another keyboard.
    Mangled,
    Altered,
    NewerVersion,
    Practice,
    Care,
    NotAPicture,
    /// In megapixels, rounded up.
    PictureTooLarge {
        megapixels: u32,
    },
    PictureTooLong,
    NoCodeInPicture,
    /// The app ended while it was read.
    Interrupted,
}

/// Unchanged since a tablet wrote it. Not trusted before the dials have been compared.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Arrived {
    pub summary: Summary,
    pub form: Form,
    pub tablet: Tablet,
    /// As somebody here named that tablet.
    pub name: Option<String>,
    pub remarks: Vec<Remark>,
}

/// Where a code comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Source {
    /// By hand, by a scanner that types, or pasted.
    Typed(String),
    /// By the tablet's camera.
    Seen(String),
    /// A picture file of so many bytes; the bytes themselves are not kept.
    Picture(u32),
}

/// The one code that is being loaded.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Loading {
    pub id: u32,
    /// The bed from which it was asked for.
    pub bed: Option<u32>,
    pub source: Source,
    /// `None` while it is read.
    pub outcome: Option<Result<Vec<Arrived>, NotLoaded>>,
}

impl Loading {
    /// A picture that is being looked at.
    pub fn looks_at_picture(&self) -> bool {
        self.outcome.is_none() && matches!(self.source, Source::Picture(_))
    }

    pub fn arrived(&self) -> &[Arrived] {
        match &self.outcome {
            Some(Ok(arrived)) => arrived,
            Some(Err(_)) | None => &[],
        }
    }
}
