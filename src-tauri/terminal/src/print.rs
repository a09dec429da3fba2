//! Cards, results and codes as lines of a terminal.

mod card;
mod ending;
mod qr;

pub use card::{body, card, card_json};
pub use ending::ending;
pub use qr::half_blocks;
