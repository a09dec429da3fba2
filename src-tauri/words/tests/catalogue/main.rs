//! What keeps the catalogues whole: every sentence has its message, in plain words, and nothing is said elsewhere.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::wildcard_enum_match_arm,
    reason = "a test"
)]

mod budget;
mod completeness;
mod handed_in;
mod handed_over;
mod in_place;
mod plain_words;
mod pseudo_language;
mod said;
mod sources;
mod staged;
mod staged_swap;
mod taught;
mod tree;
mod wander;
