//! Exercises, runs and the judge.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a failing test stops")]

mod alone;
mod bad_input;
mod careful;
mod drawn;
mod fair;
mod form;
mod hearts;
mod pressed;
mod recorded;
mod same;
mod script;
mod shipped;
mod varied;
