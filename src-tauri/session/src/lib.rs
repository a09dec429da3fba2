//! One thread owns the state and the record. Everything that happens reaches it through one
//! bounded queue of closed inputs; everything it shows leaves as a finished view.
//!
//! tap → `decide` → append in one transaction → `apply` → `view` → words → the page. What is shown
//! is already recorded; what cannot be recorded is not done, and the card says so.
//!
//! It knows no window: the app, the terminal and the tests run the same session.

#[cfg(all(feature = "test-clock", not(debug_assertions)))]
compile_error!("the test clock must not reach a release build");

mod attention;
mod background;
mod clock;
mod desk;
mod exports;
#[cfg(feature = "test-clock")]
mod fast_clock;
mod fold;
mod handle;
mod input;
mod jobs;
mod judging;
mod keeping;
mod key_file;
mod leaving;
mod notices;
mod patient;
mod pins;
mod practising;
mod restoring;
mod screen;
mod signing;
mod trouble;

pub use clock::{Clock, Reading, SystemClock};
#[cfg(feature = "test-clock")]
pub use fast_clock::FastClock;
pub use handle::{Options, Session, now, read, record_leaving, verify};
pub use input::{NotTaken, Sink, StripSink};
pub use key_file::read as read_key;
pub use restoring::{NotRestored, Relation, Restored, restore_into};
pub use trouble::{OpenFault, Trouble};
