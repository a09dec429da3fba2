//! The tablet app. The only crate that knows the host: it opens one window, hands the page's
//! messages to the session and the session's views to the page, and decides nothing.

#[cfg(all(feature = "test-clock", not(debug_assertions)))]
compile_error!("the test clock must not reach a release build");

#[cfg(target_os = "linux")]
mod awake;
mod folder;
mod start;
mod window;

pub use start::{NO_DISPLAY, REFUSED, run};
