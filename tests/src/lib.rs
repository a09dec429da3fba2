//! Checks of Holdfast from outside. Everything here is a test; nothing ships.

#[cfg(test)]
mod outside;
#[cfg(test)]
mod scenarios;
#[cfg(test)]
mod walk;
