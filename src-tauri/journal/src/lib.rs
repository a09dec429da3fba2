//! The record on the tablet: append-only, hash-chained, in SQLite.
//!
//! A record is bytes; this crate never reads them. `hash = SHA-256(prev ‖ seq ‖ SHA-256(salt ‖ body
//! as stored))`, so a body can be erased later and the chain still verifies. Bytes are hashed as
//! they are stored and never re-encoded to verify.
//!
//! What each part forbids: [`Journal`] is the only writer and holds the lock on the data folder;
//! the chain table refuses UPDATE and DELETE; a body goes only in the transaction that appends the
//! record of its erasure; [`verify`] reads beside a running app and writes nothing.

mod alive;
mod backup;
mod chain;
pub mod disk;
mod fault;
mod folder;
mod journal;
mod replace;
mod reserve;
mod rows;
mod schema;
mod verify;

pub use backup::{NotABackup, back_up, unpack};
pub use chain::{Break, Hash, Head, Kind, Record, Unreadable};
pub use fault::{Actor, Fault};
pub use journal::{Journal, Kept, Snapshot};
pub use replace::{put_in_place, stands_on};
pub use verify::{Verified, verify};
