//! The record of a check, what it flags and when the next is due; the screens around a check.

mod around;
mod code;
mod due;
mod flags;
mod made;
mod order;
mod reading;
mod results;
mod size;
mod taps;
