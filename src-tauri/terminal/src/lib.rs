//! Holdfast in a terminal: a scenario rehearsed by a simulated patient and person, a check done by keyboard,
//! a record verified, its codes printed.

pub mod backup;
pub mod bedside;
mod beside;
pub mod code;
pub mod export;
pub mod practise;
pub mod print;
pub mod prove;
pub mod rehearsal;
pub mod scenario;
pub mod sense;
pub mod signoff;
pub mod spoken;
mod svg;
pub mod verify;
