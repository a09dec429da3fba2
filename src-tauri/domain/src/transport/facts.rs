//! Everything the cards of a transport read: small and `Copy`.

use serde::{Deserialize, Serialize};

use super::answer::Gap;
use super::step::Step;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Leg {
    Leaving,
    OnTheWay,
    Arriving,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Facts {
    pub step: Step,
    /// Where a side card goes back to.
    pub from: Step,
    pub leg: Leg,
    pub in_vehicle: bool,
    /// Wires of the patient, and the one whose dials are read now, from 0.
    pub wires: u8,
    pub wire: u8,
    /// The patient changes hands with this comparison.
    pub hands: bool,
    /// Where to is said; pads are on and what goes along is there; the names were said on arrival.
    pub aimed: bool,
    pub ready: bool,
    pub named: bool,
    /// Wires, as bits, whose handover was compared just now: that reading is the one of this change of hands.
    pub compared: u8,
    /// How often capture and pulse were looked at on the way.
    pub looks: u8,
    pub no_beats: bool,
    pub shock: bool,
    /// Nobody has looked at the patient since a break of this length.
    pub away: Option<Gap>,
}

impl Facts {
    pub fn new(wires: u8, compared: u8) -> Facts {
        Facts {
            step: Step::Destination,
            from: Step::Destination,
            leg: Leg::Leaving,
            in_vehicle: false,
            wires,
            wire: 0,
            hands: false,
            aimed: false,
            ready: false,
            named: false,
            compared,
            looks: 0,
            no_beats: false,
            shock: false,
            away: None,
        }
    }
}
