//! The cards of a transport. A step and its facts are the whole card.

use serde::{Deserialize, Serialize};

use crate::listed::listed;

listed! {
    /// One card. The comment says what it asks.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
    pub enum Step {
        /// Where to?
        Destination,
        /// Connected temporary wires do not go there.
        MriStop,
        /// Are the pads on? Before all else.
        Pads,
        /// What goes along.
        Carry,
        /// Not yet, and why.
        NotReady,
        /// The dials of one wire, as they stand.
        Read,
        /// What differs, and the margin at the dials as they stand.
        Margin,
        /// Who hands over, who takes over.
        Initials,
        /// Capture and pulse before the bed moves.
        LookLeave,
        OnTheWay,
        /// What has changed?
        Change,
        /// Dials unchanged, capture and pulse, after a change of bed or vehicle.
        Unchanged,
        /// Arrived: the names are said to each other.
        SayNames,
        LookArrived,
        // Trouble
        /// NO BEATS: OUTPUT to maximum.
        NoBeats,
        /// A spike without a beat, or after a shock: OUTPUT to maximum, and looked at.
        Maximum,
        StandbyNow,
        Emergency,
        Arrest,
        Wrong,
        /// After a break: the patient first.
        AwayLook,
        Ended,
    }
}

impl Step {
    pub fn is_side(self) -> bool {
        matches!(self, Step::Wrong | Step::AwayLook | Step::NotReady)
    }
}
