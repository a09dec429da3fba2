//! Holdfast's domain: pure. No I/O, no clock, no randomness, no floats in decisions.

pub mod check;
pub mod document;
pub mod moment;
pub mod nbg;
pub mod plan;
pub mod profile;
pub mod rules;
pub mod units;
