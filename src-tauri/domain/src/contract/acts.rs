//! What can be tapped, and what a tap sends.

use std::borrow::Cow;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{Clock, Small};
use crate::command::Command;

/// A button.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Act<T> {
    /// Stable within the card; keys the button's node and names it for tests.
    pub key: Cow<'static, str>,
    pub label: T,
    pub note: Option<Box<T>>,
    pub tone: Tone,
    /// Sent back as it came.
    #[cfg_attr(test, ts(type = "unknown"))]
    pub command: Command,
    /// Sends the card's field values along.
    pub with_fields: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub enum Tone {
    /// Filled: the way on.
    Good,
    /// Outlined in the alarm colour.
    Bad,
    /// Filled in the alarm colour.
    Alarm,
    /// Strong outline.
    Strong,
    /// Thin outline.
    Plain,
}

/// On a card that touches a dial, in the same places.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Safety<T> {
    pub no_beats: Act<T>,
    /// Absent where it is open already, and in an emergency.
    pub wrong: Option<Act<T>>,
    /// Absent where the dials are read.
    pub slip: Option<Act<T>>,
    /// Where restore waits for a reading it is there, and says so.
    pub stop: Act<T>,
    /// "Restore:" with the three dials; absent where it would prompt a reading.
    pub strip: Option<Strip<T>>,
    /// "No standby from the wires: 42 s", "Since a spike without a beat: 3 s".
    pub exposed: Option<Clock<T>>,
}

impl<T> Safety<T> {
    /// Each that is there.
    pub fn acts(&self) -> impl Iterator<Item = &Act<T>> {
        [Some(&self.no_beats), self.wrong.as_ref(), self.slip.as_ref(), Some(&self.stop)]
            .into_iter()
            .flatten()
    }
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Strip<T> {
    pub label: T,
    pub dials: Vec<Small<T>>,
    /// "Restore mV 2.0 (found 5.0: did not see)"
    pub note: Option<T>,
}

/// What the page sends: the act it drew, the card it drew it on, and the fields it holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Sent {
    pub card: u32,
    #[cfg_attr(test, ts(type = "unknown"))]
    pub command: Command,
    pub values: BTreeMap<String, String>,
    /// How long what was tapped had stood on the glass, ms, as the page measured it at the tap. An answer
    /// begins anew with each card; what stands on every dial card goes on from card to card. `None`: no page.
    #[serde(default)]
    pub stood_ms: Option<u32>,
}
