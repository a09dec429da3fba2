//! Why a heart or a generator cannot exist.

use std::fmt;

/// The place, what stands there and what is allowed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    OutOfRange {
        field: &'static str,
        value: u32,
        least: u32,
        greatest: u32,
    },
    /// `field` must not exceed `other`.
    AboveOther {
        field: &'static str,
        value: u32,
        other: &'static str,
        limit: u32,
    },
}

impl Fault {
    pub(crate) fn unless_within(
        field: &'static str,
        value: u32,
        least: u32,
        greatest: u32,
    ) -> Result<(), Fault> {
        if (least..=greatest).contains(&value) {
            return Ok(());
        }
        Err(Fault::OutOfRange { field, value, least, greatest })
    }

    pub(crate) fn unless_at_most(
        (field, value): (&'static str, u32),
        (other, limit): (&'static str, u32),
    ) -> Result<(), Fault> {
        if value <= limit {
            return Ok(());
        }
        Err(Fault::AboveOther { field, value, other, limit })
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Fault::OutOfRange { field, value, least, greatest } => {
                write!(out, "{field} is {value}; {least} to {greatest} is allowed")
            }
            Fault::AboveOther { field, value, other, limit } => {
                write!(out, "{field} is {value}; it must not exceed {other}, {limit}")
            }
        }
    }
}

impl std::error::Error for Fault {}
