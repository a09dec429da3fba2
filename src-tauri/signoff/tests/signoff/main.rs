//! Papers as tokens, and keys behind PINs.

#![allow(clippy::unwrap_used, clippy::panic, clippy::wildcard_enum_match_arm, reason = "a test")]

mod altered;
mod made;
mod pins;
mod released;
