//! The positions of one dial: what is printed, and its exact value.

use std::sync::Arc;

use super::Position;
use crate::units;

/// Ascending, without duplicates, not empty: `file` makes no other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Positions {
    /// Micro-units in one printed unit.
    pub(super) scale: u32,
    /// Shared: a profile is copied into every state and every check.
    pub(super) marks: Arc<[Mark]>,
}

/// One printed position.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Mark {
    pub(super) value: u32,
    pub(super) text: String,
}

impl Mark {
    pub(super) fn new(value: u32, scale: u32, places: usize) -> Self {
        Self { value, text: units::printed(value, scale, places) }
    }
}

impl Positions {
    /// In micro-units (rate: per minute).
    pub fn value(&self, position: Position) -> u32 {
        self.mark(position).map_or(0, |mark| mark.value)
    }

    /// As printed.
    pub fn text(&self, position: Position) -> &str {
        self.mark(position).map_or("", |mark| &mark.text)
    }

    pub fn last(&self) -> Position {
        Position::try_from(self.marks.len().saturating_sub(1)).unwrap_or(Position::MAX)
    }

    pub fn all(&self) -> impl DoubleEndedIterator<Item = Position> + use<> {
        0..=self.last()
    }

    /// The highest position whose value is at or below `value`.
    pub fn at_or_below(&self, value: u64) -> Option<Position> {
        let above = self.marks.partition_point(|mark| u64::from(mark.value) <= value);
        Position::try_from(above.checked_sub(1)?).ok()
    }

    /// The lowest position whose value is at or above `value`.
    pub fn at_or_above(&self, value: u64) -> Option<Position> {
        let first = self.marks.partition_point(|mark| u64::from(mark.value) < value);
        (first < self.marks.len()).then(|| Position::try_from(first).ok()).flatten()
    }

    fn mark(&self, position: Position) -> Option<&Mark> {
        self.marks.get(usize::from(position)).or(self.marks.last())
    }
}
