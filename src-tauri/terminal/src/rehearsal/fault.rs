use std::fmt;

use observer::Puzzled;
use words::WordsFault;

/// Why a rehearsal came to no end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RehearsalFault {
    Puzzled(Puzzled),
    Heart(practice::Fault),
    Words(WordsFault),
    /// The check offered a button and did not take it.
    NotTaken {
        card: u32,
        key: String,
    },
    GoesInCircles {
        card: u32,
    },
    TimeStandsStill,
}

impl From<Puzzled> for RehearsalFault {
    fn from(puzzled: Puzzled) -> RehearsalFault {
        RehearsalFault::Puzzled(puzzled)
    }
}

impl From<practice::Fault> for RehearsalFault {
    fn from(fault: practice::Fault) -> RehearsalFault {
        RehearsalFault::Heart(fault)
    }
}

impl From<WordsFault> for RehearsalFault {
    fn from(fault: WordsFault) -> RehearsalFault {
        RehearsalFault::Words(fault)
    }
}

impl fmt::Display for RehearsalFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            RehearsalFault::Puzzled(puzzled) => write!(out, "At the bedside: {puzzled}."),
            RehearsalFault::Heart(fault) => write!(out, "{fault}"),
            RehearsalFault::Words(fault) => write!(out, "A card has no words: {fault}."),
            RehearsalFault::NotTaken { card, key } => {
                write!(out, "Card {card} offered {key} and did not take it.")
            }
            RehearsalFault::GoesInCircles { card } => {
                write!(out, "The check goes in circles; it has come to card {card}.")
            }
            RehearsalFault::TimeStandsStill => {
                write!(out, "A limit has passed and the check stays as it is.")
            }
        }
    }
}

impl std::error::Error for RehearsalFault {}
