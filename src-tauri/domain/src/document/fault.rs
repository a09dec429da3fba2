//! Everything that can be wrong with a rule file or a generator file.

use serde::{Deserialize, Serialize};

use crate::nbg::NotACode;

/// What is wrong, and where.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fault {
    /// The way to the value, "output.positions[3]"; empty for the whole file.
    pub place: String,
    pub why: Box<Why>,
}

impl Fault {
    pub(crate) fn at(place: &str, why: Why) -> Self {
        Self { place: place.to_owned(), why: Box::new(why) }
    }

    /// The same fault, further in: "heart" of "signal.own_mV", "history" of "[0].found".
    #[must_use]
    pub fn within(self, outer: &str) -> Self {
        let inside = self.place.is_empty() || self.place.starts_with('[');
        let place = if inside { format!("{outer}{}", self.place) } else { format!("{outer}.{}", self.place) };
        Self { place, why: self.why }
    }
}

/// The kind of value a place holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Kind {
    Text,
    WholeNumber,
    WholeTo(u32),
    NotNegative,
    Figure,
    /// A figure in quotes, as a dial prints it.
    Printed,
    NameOrGroup,
    YesNo,
    List,
    Object,
}

/// One variant a sentence; each carries what was found and what is allowed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Why {
    FileTooLong {
        most: usize,
    },
    NotJson {
        line: usize,
        column: usize,
    },
    /// The same field twice in one object; the line is that of the second.
    RepeatedField {
        line: usize,
        column: usize,
    },
    Missing,
    NoSuchField {
        allowed: Vec<String>,
    },
    WrongKind {
        found: String,
        wanted: Kind,
    },
    TextLength {
        most: usize,
    },
    /// A name outside a closed list.
    NotOneOf {
        found: String,
        allowed: Vec<String>,
    },
    /// Not digits with at most one point, a leading zero only before the point.
    NotAsPrinted {
        found: String,
    },
    /// Zero or below.
    NotPositive {
        found: String,
    },
    /// Not above the position before it.
    Unsorted {
        found: String,
        after: String,
    },
    Duplicate {
        found: String,
    },
    Count {
        found: usize,
        least: usize,
        most: usize,
    },
    /// The last position of a span is not a whole number of steps from its first.
    SpanMissesEnd {
        from: String,
        to: String,
        step: String,
    },
    /// Not a letter code, or not one for this place.
    NotAMode {
        found: String,
        why: NotACode,
    },
    /// None of the modes paces on demand: neither AAI nor VVI is among them.
    NoDemandMode,
    /// No listed source supports the figure. `source` is the key of the source of the range,
    /// empty for "from memory" or "common practice".
    OutOfRange {
        found: String,
        least: String,
        greatest: String,
        unit: String,
        source: String,
    },
    /// No figure in quotes, as the dial prints it; `found` as the file writes it, the rest as in `OutOfRange`.
    NotAFigure {
        found: String,
        least: String,
        greatest: String,
        unit: String,
        source: String,
    },
    BandReversed {
        low: String,
        high: String,
    },
    AimOutsideBand {
        aim: String,
        low: String,
        high: String,
    },
    /// A band that begins below double needs the name of the clinician who approves it.
    BelowDoubleUnapproved {
        low: String,
    },
    /// Must not be below the value at another place.
    BelowOther {
        found: String,
        other: String,
        least: String,
    },
    /// Must not be above the value at another place.
    AboveOther {
        found: String,
        other: String,
        greatest: String,
    },
    /// Says the opposite of another place.
    Contradicts {
        other: String,
    },
    NotADate {
        found: String,
    },
    /// A reader's own fault that names nothing.
    NotAllowed,
}
