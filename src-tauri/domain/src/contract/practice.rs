//! The simulated patient beside a card: its monitor, and the dials of its generator.

use serde::{Deserialize, Serialize};

use super::Act;

/// On every screen of practice: the page frames it. What is at hand of the patient.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Practice<T> {
    pub monitor: Option<Monitor<T>>,
    pub knobs: Vec<Knob<T>>,
}

/// The strip comes by a channel of its own; here is what stands around it. Freezing and looking back are the
/// page's own: nothing is sent.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Monitor<T> {
    /// Names the strip that belongs here: batches of another are not drawn.
    pub stream: u32,
    /// A moment looked at again: nothing runs.
    pub kept: bool,
    /// "25 mm/s · 10 mm/mV"
    pub scale: T,
    /// Before the pulse a minute.
    pub pulse: T,
    /// What a screen reader says of the strip.
    pub words: T,
    pub freeze: T,
    pub run: T,
    pub earlier: T,
    pub later: T,
    /// Lets the patient stand still.
    pub pause: Option<Act<T>>,
}

/// One dial of the simulated generator. The one under the hand is large and has keys.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Knob<T> {
    pub label: T,
    pub unit: T,
    /// As the dial prints it.
    pub figure: T,
    /// Lays the hand on it.
    pub take: Act<T>,
    /// `None` on the dials that are small.
    pub keys: Option<Keys<T>>,
}

/// Each key says where it turns to. `None` at the end of the dial.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Keys<T> {
    pub down: Option<Act<T>>,
    pub up: Option<Act<T>>,
    /// Several positions at once, on long dials.
    pub far_down: Option<Act<T>>,
    pub far_up: Option<Act<T>>,
}
