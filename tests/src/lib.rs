//! Checks of Holdfast from outside. Everything here is a test; nothing ships.

#[cfg(test)]
mod golden;
#[cfg(test)]
mod walk;
