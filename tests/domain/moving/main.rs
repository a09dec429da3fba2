//! Another box, another battery, a patient on the way: every card with every answer, through `decide` and `apply`,
//! judged by a book that knows only what was asked and answered. The order of acts is written here a second time.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::wildcard_enum_match_arm,
    reason = "a test"
)]

mod first_reading;
mod made;

mod swap {
    mod alphabet;
    mod book;
    mod carried;
    mod judged;
    mod order;
    mod shown;
    mod walk;
}

mod transport {
    mod order;
    mod walk;
}
