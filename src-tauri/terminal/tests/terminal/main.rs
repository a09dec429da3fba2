//! The commands of the terminal, as somebody types them.

mod backup;
mod codes;
mod exercises;
mod export;
mod exported;
mod keyboard;
#[cfg(target_os = "linux")]
mod other_math;
mod prove;
mod recorded;
mod sense_numpy;
mod signoff;
#[path = "../../../../tests/tools.rs"]
mod tools;
