//! What one code says: the one struct behind the lines and the copy, and what is kept of a code taken in.

mod mention;
mod of_record;

pub use mention::Mention;
pub use of_record::NoSummary;

use serde::{Deserialize, Serialize};

use crate::rules::Chamber;
use crate::state::bed::{Polarity, WireKind};
use crate::units::OutputUnit;

use super::figure::Figure;
use super::stamp::{Minute, Place};

/// Checks of one wire in a copy at most: the newest and those before it.
pub const MOST_CHECKS: usize = 6;

/// A wire as it is handed over.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Summary {
    pub origin: Origin,
    pub wire: WireFacts,
    pub place: Place,
    /// Minutes from the end of the newest check until the code was made; 0 when the clock had been set back.
    pub age_min: u32,
    pub newest: Check,
    pub next: Next,
    /// The checks before the newest, newest first. Only the copy carries them.
    pub earlier: Vec<Check>,
    /// Facts that did not fit into the lines.
    pub left_out: u8,
    /// Lines under labels that this version does not know, as they were read. Shown, never understood.
    pub others: Vec<String>,
}

/// From a patient or from a learner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Origin {
    Care,
    Practice,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WireFacts {
    pub chamber: Chamber,
    pub kind: WireKind,
    pub polarity: Polarity,
}

/// One ended check.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Check {
    /// Drawn at random when the check was opened; tells two checks of one tablet apart and names nobody.
    pub id: u32,
    pub example_rules: bool,
    pub ended: Minute,
    /// The dials were read back at the end.
    pub read: bool,
    /// They were not; so many minutes after the end they were read, and stood as the check had left them.
    #[serde(default)]
    pub read_later: Option<u32>,
    /// `None` when no dial was ever read in the check.
    pub dials: Option<DialsAt>,
    /// Of the output and of the capture threshold; mA when the check holds neither.
    pub unit: OutputUnit,
    pub capture: Capture,
    /// Set output divided by the capture threshold, rounded down.
    pub margin: Option<Figure>,
    pub sensing: Sensing,
    pub own: OwnBeats,
    /// ms
    pub pulse_width: Option<Figure>,
    /// Most urgent first.
    pub flags: Vec<Mention>,
}

/// Where the dials stay, as the generator prints them. `mv: None` = asynchronous.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DialsAt {
    pub rate: Figure,
    pub output: Figure,
    pub mv: Option<Figure>,
}

/// In the unit of the check. Going up and going down are never compared.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Capture {
    NotTested,
    /// Going up.
    Exact {
        at: Figure,
    },
    /// Going down: lost at `low`, held at `high`.
    Bracket {
        low: Figure,
        high: Figure,
    },
    /// Going down: held at the lowest position tried.
    AtMost {
        at: Figure,
    },
    /// Going down, and no threshold found: a margin check, or a search that was broken off. It held here.
    Held {
        at: Figure,
    },
}

/// In mV.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Sensing {
    NotTested,
    Exact {
        at: Figure,
    },
    AtLeast {
        at: Figure,
    },
    /// Seen where the number stood; it was not raised.
    AsFound {
        at: Figure,
    },
    NoneSaw,
}

/// Per minute.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum OwnBeats {
    NotLooked,
    /// Seen, and their rate not measured.
    Unmeasured,
    NoneSeen {
        limit: Figure,
    },
    Seen {
        slowest: u8,
        fastest: u8,
    },
    ThenLost {
        slowest: u8,
        fastest: u8,
    },
}

/// When the next check is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Next {
    Now,
    At(Minute),
}

impl Summary {
    /// When the code was made.
    pub fn written(&self) -> Minute {
        self.newest.ended.saturating_add(self.age_min)
    }

    /// The same without what only a copy carries.
    pub fn for_lines(&self) -> Summary {
        Summary { earlier: Vec::new(), ..self.clone() }
    }
}
