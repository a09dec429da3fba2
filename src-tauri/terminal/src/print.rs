//! Cards, results and codes as lines of a terminal.

mod card;
mod ending;
mod qr;

pub use card::{card, card_json, screen};
pub use ending::ending;
pub use qr::half_blocks;
