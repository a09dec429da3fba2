//! Checks of Holdfast from outside. Everything here is a test; nothing ships.

#![allow(clippy::wildcard_enum_match_arm, reason = "a test names what it looks at")]

#[cfg(test)]
mod closed_loop;
#[cfg(test)]
mod golden;
#[cfg(test)]
mod outside;
#[cfg(test)]
mod scenarios;
#[cfg(test)]
mod walk;
