//! Everything the cards of a swap read: small and `Copy`, like the facts of a check.

use serde::{Deserialize, Serialize};

use super::step::Step;
use crate::check::facts::{Dials, Phase};

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Work {
    /// Another generator takes over.
    Box,
    /// The same one gets another battery.
    Battery,
}

/// Where the pins of this wire are, as far as was said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Place {
    Old,
    Between,
    New,
}

/// Own beats with a pulse, none paced among them, on the monitor now.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Own {
    NotLooked,
    Shown,
    NotShown,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Standby {
    Unknown,
    /// On the patient, on, tested as local rules ask.
    Ready,
    /// Seen to capture, with a pulse.
    Captures,
}

/// What a break, or a slip across a connection, leaves to be asked before anything goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Away {
    No,
    /// The patient is looked at.
    Short,
    /// And the pins are traced: others may have moved them.
    Long,
}

/// Why the swap does not go on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Block {
    Order,
    NotSound,
    BoxOff,
    WrongMode,
    NoSuchMode,
    Rate,
    Output,
    Number,
    Asynchronous,
    NoStandby,
    NotReady,
    /// The box paces the ventricle too: that wire leads.
    VentricleFirst,
}

/// What has been done of the preparation, as bits.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Done(u16);

impl Done {
    pub const LOOKED: Done = Done(1);
    pub const ORDER: Done = Done(1 << 1);
    pub const OLD_READ: Done = Done(1 << 2);
    pub const PICKED: Done = Done(1 << 3);
    pub const SOUND: Done = Done(1 << 4);
    pub const RUNS: Done = Done(1 << 5);
    pub const MODE: Done = Done(1 << 6);
    pub const RATE: Done = Done(1 << 7);
    pub const OUTPUT: Done = Done(1 << 8);
    pub const MV: Done = Done(1 << 9);
    pub const NEW_READ: Done = Done(1 << 10);
    pub const STANDBY: Done = Done(1 << 11);
    pub const READY: Done = Done(1 << 12);
    /// Whether the box paces another wire too was asked.
    pub const SHARED: Done = Done(1 << 13);
    /// All that another box needs before it can take over.
    pub const NEW_BOX: Done = Done(0b111_1111 << 4);

    pub fn has(self, all: Done) -> bool {
        self.0 & all.0 == all.0
    }

    #[must_use]
    pub fn and(self, more: Done) -> Done {
        Done(self.0 | more.0)
    }

    #[must_use]
    pub fn less(self, gone: Done) -> Done {
        Done(self.0 & !gone.0)
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Facts {
    pub step: Step,
    /// Where a side card goes back to.
    pub from: Step,
    pub work: Work,
    pub own: Own,
    pub standby: Standby,
    pub place: Place,
    pub old_on: bool,
    pub new_on: bool,
    pub done: Done,
    /// As read on the old box, in its own positions.
    pub old: Dials,
    /// As asked of the new box, in its own positions.
    pub new: Dials,
    /// As typed last.
    pub read: Dials,
    pub phase: Phase,
    pub block: Option<Block>,
    /// OUTPUT of the box that the pins are in was asked to maximum.
    pub maximum: bool,
    /// A connection was opened.
    pub opened: bool,
    pub no_beats: bool,
    pub shock: bool,
    pub away: Away,
    /// The old box paces another wire of this patient too.
    #[serde(default)]
    pub shared: bool,
}

impl Facts {
    pub fn new(work: Work) -> Facts {
        Facts {
            step: Step::Look,
            from: Step::Look,
            work,
            own: Own::NotLooked,
            standby: Standby::Unknown,
            place: Place::Old,
            old_on: true,
            new_on: false,
            done: Done::default(),
            old: Dials::UNREAD,
            new: Dials::UNREAD,
            read: Dials::UNREAD,
            phase: Phase::Open,
            block: None,
            maximum: false,
            opened: false,
            no_beats: false,
            shock: false,
            away: Away::No,
            shared: false,
        }
    }

    /// No running box is on the patient.
    pub fn is_off(&self) -> bool {
        match self.place {
            Place::Old => !self.old_on,
            Place::New => !self.new_on,
            Place::Between => true,
        }
    }

    /// Standby pacing as this patient needs it: seen to capture where no own beats were seen.
    pub fn is_covered(&self) -> bool {
        match (self.standby, self.own) {
            (Standby::Captures, _) | (Standby::Ready, Own::Shown) => true,
            (Standby::Ready, Own::NotShown | Own::NotLooked) | (Standby::Unknown, _) => false,
        }
    }

    /// The trouble decides what comes after, not the plan.
    pub fn is_urgent(&self) -> bool {
        self.no_beats || self.shock || self.maximum
    }
}
