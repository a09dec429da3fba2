//! What a run came to.

use std::borrow::Cow;
use std::fmt;
use std::sync::Arc;

use domain::practice::Entry;
use domain::record::Record;
use observer::{Mistake, Puzzled, Reading};

use crate::bystander::Bystander;
use crate::pair::Compared;

/// How the check came to its end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum End {
    /// With a record.
    Recorded,
    /// Help took over on an emergency card.
    HandedOver,
    /// Before a dial was turned.
    Left,
    /// It came to none.
    Stuck(Stuck),
}

/// Why a run came to no end: the guide and the bedside do not fit together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stuck {
    Equipment(String),
    Puzzled(Puzzled),
    /// A button that the card offered was not taken.
    NotTaken {
        key: String,
        asks: &'static str,
    },
    Circles {
        asks: &'static str,
    },
    TimeStandsStill {
        asks: &'static str,
    },
}

impl fmt::Display for Stuck {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Stuck::Equipment(why) => write!(out, "The equipment: {why}."),
            Stuck::Puzzled(puzzled) => write!(out, "At the bedside: {puzzled}."),
            Stuck::NotTaken { key, asks } => write!(out, "{asks}: {key} was offered and not taken."),
            Stuck::Circles { asks } => write!(out, "{asks}: the check goes in circles."),
            Stuck::TimeStandsStill { asks } => {
                write!(out, "{asks}: a limit has passed and the check stays as it is.")
            }
        }
    }
}

/// One answer, for whoever follows a run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answered {
    pub at_us: u64,
    /// The sentence that asks.
    pub asks: &'static str,
    pub key: Cow<'static, str>,
    pub dials: Arc<Reading>,
    /// Spikes below the threshold so far.
    pub lost: u64,
}

#[derive(Clone, Debug)]
pub struct Played {
    pub end: End,
    pub record: Option<Record>,
    /// Where the dials truly stand.
    pub stays: Reading,
    pub bystander: Bystander,
    pub lasted_us: u64,
    /// When it ended, in the patient's time.
    pub ended_us: u64,
    pub answers: Vec<Answered>,
    /// Turns, and answers to cards, as a practice run keeps them.
    pub entries: Vec<Entry>,
    /// Where two looked.
    pub compared: Option<Compared>,
    /// Of whoever was there, with their instants.
    pub mistakes: Vec<(u64, Mistake)>,
}

impl Stuck {
    pub(crate) fn not_begun() -> Stuck {
        Stuck::NotTaken { key: "begin".to_owned(), asks: "beds" }
    }
}

impl From<Puzzled> for Stuck {
    fn from(puzzled: Puzzled) -> Stuck {
        Stuck::Puzzled(puzzled)
    }
}
