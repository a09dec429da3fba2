//! The closed loop: random hearts on random generators under random unit rules, led through the shipped check
//! by somebody who sees only the cards and the monitor, and judged by what truly happened to the patient.
//!
//! Everything follows from one seed: `play(&Case::drawn(seed))` is the same run on every machine. Pure: no
//! clock, no file, and no journal.

mod bystander;
mod case;
mod draw;
mod equipment;
mod exercise;
mod harm;
mod hearts;
mod pair;
mod play;
mod played;
mod replay;
mod scatter;
mod shift;
mod sweep;
mod tablet;
mod tally;

pub use bystander::{Bystander, Fibrillation, Gap, Loss, Place, SpikeOnT, Turn};
pub use case::Case;
pub use exercise::{Practised, practise};
pub use harm::{Harm, harms};
pub use pair::{Apart, Compared};
pub use play::{play, play_in_pair, play_shift, play_telling, play_tired};
pub use played::{Answered, End, Played, Stuck};
pub use replay::replay;
pub use scatter::{Scatter, Watched, left_open};
pub use shift::{Happens, Later, Mishap, Shift};
pub use sweep::{Cause, OnT, Row, percentile};
pub use tally::{Harmed, Tally};
