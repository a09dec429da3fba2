//! A transport that is under way, and what one leaves.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::handover::compare::Compared;
use crate::handover::known::Source;
use crate::moment::Moment;
use crate::transport::answer::Target;
use crate::transport::facts::{Facts, Leg};

/// Looks and readings kept of one transport: more than a journey has.
pub const KEPT_MOST: usize = 64;

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OpenTransport {
    pub id: Uuid,
    pub began: Moment,
    pub facts: Facts,
    /// The card whose answer opened the present one, for a slip.
    pub before: Option<Facts>,
    pub last: Moment,
    pub away_ms: i64,
    pub told: Told,
}

/// What was said and seen on one transport.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Told {
    pub target: Option<Target>,
    /// As typed.
    pub destination: Option<String>,
    pub left: Option<Moment>,
    pub arrived: Option<Moment>,
    pub readings: Vec<Reading>,
    pub looks: Vec<Look>,
    pub hands: Vec<Hands>,
}

/// The dials of one wire as somebody read them, each beside what was known of it, and what that means.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    pub wire: u32,
    pub leg: Leg,
    /// Who said where they should stand; `None`: nobody.
    pub by: Option<Source>,
    pub compared: Compared,
    /// Both teams have gone on from what it means.
    pub seen: bool,
}

impl Told {
    /// The last reading of this wire.
    pub fn reading(&self, wire: u32) -> Option<&Reading> {
        self.readings.iter().rev().find(|reading| reading.wire == wire)
    }
}

/// Capture and pulse seen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Look {
    pub at: Moment,
    pub leg: Leg,
    pub in_vehicle: bool,
}

/// Initials, as typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hands {
    pub at: Moment,
    pub from: String,
    pub to: String,
}

/// One ended transport.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TransportRecord {
    pub id: Uuid,
    pub began: Moment,
    pub ended: Moment,
    pub no_beats: bool,
    pub shock: bool,
    pub told: Told,
}
