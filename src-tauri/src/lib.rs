//! The tablet app. The only crate that knows the host: it opens one window, hands the page's
//! messages to the session and the session's views to the page, and decides nothing.

#[cfg(all(feature = "test-clock", not(debug_assertions)))]
compile_error!("the test clock must not reach a release build");

mod awake;
mod bedside;
mod bridge;
mod folder;
mod refused;
mod start;
mod watchdog;
mod window;

pub use start::{NO_DISPLAY, REFUSED, run};
