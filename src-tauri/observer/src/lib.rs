//! Somebody at the bedside: reads the card, turns the simulated dials as it says, looks at the monitor and at
//! the generator's own marks, and answers.
//!
//! It knows what a person there can know: the card's text, where it left the dials, and the strip. The state
//! of the check and the heart's numbers it cannot see; a test on its sources keeps it so.

mod bedside;
mod card;
mod detector;
mod dial;
mod eyes;
mod judge;
mod monitor;
mod observer;
mod puzzled;
mod strip;
mod weakness;

pub use bedside::{Bedside, dials};
pub use card::{Card, Question};
pub use dial::{Dial, Reading};
pub use observer::{Deed, Observer, Trouble};
pub use puzzled::Puzzled;
pub use strip::{Look, Sight, Strip};
pub use weakness::Mistake;
