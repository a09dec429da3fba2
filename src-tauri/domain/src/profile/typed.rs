//! A typed reading becomes a position, or the neighbours to ask about.

use serde::{Deserialize, Serialize};

use super::{Position, Positions};
use crate::check::facts::Dial;
use crate::say::{Say, dial_name};
use crate::units;

/// Characters of a refused entry that are repeated to the person.
const ECHO: usize = 12;

/// The entry is no position of the dial. Neighbours are as printed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NoSuchPosition {
    pub dial: Dial,
    pub typed: String,
    /// Of the dial.
    pub ends: Box<[String; 2]>,
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

    /// "OUTPUT 36: no such position; 3.5 or 3.6?"
    pub fn say(&self) -> Say {
        let (dial, typed) = (dial_name(self.dial), self.typed.clone());
        if typed.is_empty() {
            return Say::NothingTyped { field: dial };
        }
        match self.suggestions().as_slice() {
            [] => {
                let [least, greatest] = (*self.ends).clone();
                Say::NoSuchPositionNone { dial, typed, least, greatest }
            }
            [near] => Say::NoSuchPositionOne { dial, typed, near: (*near).to_owned() },
            [below, above, ..] => {
                Say::NoSuchPositionTwo { dial, typed, below: (*below).to_owned(), above: (*above).to_owned() }
            }
        }
    }
}

/// Only positions are accepted. A comma counts as the point; "6" is the position "6.0".
pub(super) fn read(dial: Dial, positions: &Positions, typed: &str) -> Result<Position, NoSuchPosition> {
    let entry = typed.trim().replace(',', ".");
    let value = units::scaled(&entry, positions.scale);
    let hit = value.filter(|_| !padded(&entry)).and_then(|value| exact(positions, u64::from(value)));
    hit.ok_or_else(|| refusal(dial, positions, typed, &entry, value))
}

/// "08": a zero that no dial prints, likely "0.8" without its point.
fn padded(entry: &str) -> bool {
    let mut characters = entry.chars();
    characters.next() == Some('0') && characters.next().is_some_and(|c| c != '.')
}

fn exact(positions: &Positions, value: u64) -> Option<Position> {
    positions.at_or_below(value).filter(|&position| u64::from(positions.value(position)) == value)
}

fn refusal(
    dial: Dial,
    positions: &Positions,
    typed: &str,
    entry: &str,
    value: Option<u32>,
) -> NoSuchPosition {
    let text = |position: Option<Position>| position.map(|p| positions.text(p).to_owned());
    let neighbours =
        value.map(u64::from).map(|v| (text(positions.at_or_below(v)), text(positions.at_or_above(v))));
    let (below, above) = neighbours.unwrap_or((None, None));
    let forgotten = positions.scale > 1 && !entry.contains('.') && (padded(entry) || above.is_none());
    let likely = value.filter(|_| forgotten).map(|v| around_tenth(positions, v)).unwrap_or_default();
    NoSuchPosition {
        dial,
        typed: typed.trim().chars().take(ECHO).collect(),
        ends: Box::new([0, positions.last()].map(|end| positions.text(end).to_owned())),
        below,
        above,
        likely,
    }
}

/// The highest position below a tenth of `value` and the lowest at or above it, where both are.
fn around_tenth(positions: &Positions, value: u32) -> Vec<String> {
    let tenth = u64::from(value).div_ceil(10);
    let above = positions.at_or_above(tenth);
    let below = tenth.checked_sub(1).and_then(|v| positions.at_or_below(v)).filter(|_| above.is_some());
    below.into_iter().chain(above).map(|p| positions.text(p).to_owned()).collect()
}
