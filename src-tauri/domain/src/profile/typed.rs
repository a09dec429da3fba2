//! A typed reading becomes a position, or the neighbours to ask about.

use serde::{Deserialize, Serialize};

use super::{Position, Positions};
use crate::units;

/// Characters of a refused entry that are repeated to the person.
const ECHO: usize = 12;

/// The entry is no position of the dial. Neighbours are as printed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NoSuchPosition {
    pub typed: String,
    pub below: Option<String>,
    pub above: Option<String>,
    /// Beyond the dial or with a needless leading zero, the point was probably forgotten
    /// ("36" for 3.6): the neighbours of a tenth of the entry.
    pub likely: Vec<String>,
}

impl NoSuchPosition {
    /// What to ask about, at most two positions: "3.5 or 3.6?".
    pub fn suggestions(&self) -> Vec<&str> {
        if self.likely.is_empty() {
            let above = self.above.iter().filter(|above| Some(*above) != self.below.as_ref());
            return self.below.iter().chain(above).map(String::as_str).collect();
        }
        self.likely.iter().map(String::as_str).collect()
    }
}

/// Only positions are accepted. A comma counts as the point; "6" is the position "6.0".
pub(super) fn read(dial: &Positions, typed: &str) -> Result<Position, NoSuchPosition> {
    let entry = typed.trim().replace(',', ".");
    let value = units::scaled(&entry, dial.scale);
    let hit = value.filter(|_| !padded(&entry)).and_then(|value| exact(dial, u64::from(value)));
    hit.ok_or_else(|| refusal(dial, typed, &entry, value))
}

/// "08": a zero that no dial prints, likely "0.8" without its point.
fn padded(entry: &str) -> bool {
    let mut characters = entry.chars();
    characters.next() == Some('0') && characters.next().is_some_and(|c| c != '.')
}

fn exact(dial: &Positions, value: u64) -> Option<Position> {
    dial.at_or_below(value).filter(|&position| u64::from(dial.value(position)) == value)
}

fn refusal(dial: &Positions, typed: &str, entry: &str, value: Option<u32>) -> NoSuchPosition {
    let text = |position: Option<Position>| position.map(|p| dial.text(p).to_owned());
    let neighbours = value.map(u64::from).map(|v| (text(dial.at_or_below(v)), text(dial.at_or_above(v))));
    let (below, above) = neighbours.unwrap_or((None, None));
    let forgotten = dial.scale > 1 && !entry.contains('.') && (padded(entry) || above.is_none());
    let likely = value.filter(|_| forgotten).map(|v| around_tenth(dial, v)).unwrap_or_default();
    NoSuchPosition { typed: typed.trim().chars().take(ECHO).collect(), below, above, likely }
}

/// The highest position below a tenth of `value` and the lowest at or above it, where both are.
fn around_tenth(dial: &Positions, value: u32) -> Vec<String> {
    let tenth = u64::from(value).div_ceil(10);
    let above = dial.at_or_above(tenth);
    let below = tenth.checked_sub(1).and_then(|v| dial.at_or_below(v)).filter(|_| above.is_some());
    below.into_iter().chain(above).map(|p| dial.text(p).to_owned()).collect()
}
