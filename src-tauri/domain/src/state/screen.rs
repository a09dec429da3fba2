//! Where the tablet is.

use serde::{Deserialize, Serialize};

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Screen {
    /// What this is and is not; that the rules are examples.
    Welcome,
    Beds,
    /// The bed list from this place in its order on.
    MoreBeds {
        from: u32,
    },
    NewBed,
    Bed {
        bed: u32,
    },
    /// "A new patient in this bed?"
    NewPatient {
        bed: u32,
    },
    NewWire {
        bed: u32,
    },
    Check {
        bed: u32,
        wire: u32,
    },
    /// The record `back` from the newest (0 = newest).
    Result {
        bed: u32,
        wire: u32,
        back: u32,
    },
    Code {
        bed: u32,
        wire: u32,
    },
    History {
        bed: u32,
        wire: u32,
    },
    Settings,
    Rules,
}
