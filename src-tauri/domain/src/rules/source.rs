//! Where a figure comes from.

use serde::Serialize;

/// How a figure is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
pub enum Status {
    /// Read in the source named.
    Read,
    /// Arithmetic on figures read.
    Calculated,
    /// Common practice, no source.
    Practice,
    /// From memory: never without a unit's approval.
    Memory,
}

/// The keys of the published sources ("ACCCN", "CICM13, ACCCN"); none for practice and memory.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
pub struct Source {
    pub keys: &'static str,
    pub status: Status,
}

impl Source {
    pub(super) const fn read(keys: &'static str) -> Self {
        Self { keys, status: Status::Read }
    }

    pub(super) const PRACTICE: Self = Self { keys: "", status: Status::Practice };
    pub(super) const MEMORY: Self = Self { keys: "", status: Status::Memory };
    pub(super) const ARITHMETIC: Self = Self { keys: "RULE3", status: Status::Calculated };
}
