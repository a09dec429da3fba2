use std::fmt;

/// A fault of the program: a catalogue and the list of sentences do not agree.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WordsFault {
    /// A catalogue file does not parse, or says the same thing twice.
    Catalogue { room: &'static str, what: String },
    /// No message of this name.
    Unsaid { sentence: &'static str },
    /// The message wants an argument the sentence does not have, or cannot be formatted.
    Formatting { sentence: &'static str, what: String },
}

impl fmt::Display for WordsFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            WordsFault::Catalogue { room, what } => write!(out, "catalogue {room}: {what}"),
            WordsFault::Unsaid { sentence } => write!(out, "{sentence}: no message"),
            WordsFault::Formatting { sentence, what } => write!(out, "{sentence}: {what}"),
        }
    }
}

impl std::error::Error for WordsFault {}
