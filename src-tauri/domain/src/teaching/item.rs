//! What a learner is signed off for: items of the published competency forms (COMP, CDHA), a closed list.

use serde::{Deserialize, Serialize};

use crate::practice::Act;
use crate::say::Say;

/// Frozen names: they stand in signed papers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Item {
    Parts,
    Indications,
    Wires,
    ExitSite,
    Modes,
    Marks,
    Battery,
    SensingOrCapture,
    Emergency,
    SensingTest,
}

/// How it was shown (COMP).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum How {
    Observed,
    Demonstrated,
    Explained,
}

impl Item {
    pub const ALL: [Item; 10] = [
        Item::Parts,
        Item::Indications,
        Item::Wires,
        Item::ExitSite,
        Item::Modes,
        Item::Marks,
        Item::Battery,
        Item::SensingOrCapture,
        Item::Emergency,
        Item::SensingTest,
    ];

    pub fn say(self) -> Say {
        match self {
            Item::Parts => Say::ItemParts,
            Item::Indications => Say::ItemIndications,
            Item::Wires => Say::ItemWires,
            Item::ExitSite => Say::ItemExitSite,
            Item::Modes => Say::ItemModes,
            Item::Marks => Say::ItemMarks,
            Item::Battery => Say::ItemBattery,
            Item::SensingOrCapture => Say::ItemSensingOrCapture,
            Item::Emergency => Say::ItemEmergency,
            Item::SensingTest => Say::ItemSensingTest,
        }
    }

    /// The item that an act of a practice run speaks to. Every act speaks to one: what failed a run is beside
    /// the item that it is about. The search for own beats is the beginning of the sensing test (ACCCN).
    pub fn of(act: Act) -> Item {
        match act {
            Act::DialsRead => Item::Parts,
            Act::OutOfAsynchronous => Item::Modes,
            Act::BlindPutRight | Act::PausesEnded | Act::Confirmed | Act::AnsweredAsSeen => Item::Marks,
            Act::OwnRhythmFirst
            | Act::OutputStepsWatched
            | Act::OnlyUpAfterLoss
            | Act::BlockHeeded
            | Act::WrongChamberHeeded
            | Act::SensingFound
            | Act::CaptureFound
            | Act::OutputByRule
            | Act::NumberByRule => Item::SensingOrCapture,
            Act::MaximumWhereFoundFails
            | Act::PressureHeeded
            | Act::OutputFirstInNoBeats
            | Act::MaximumAfterShock => Item::Emergency,
            Act::RateStepsWatched
            | Act::RateLimitKept
            | Act::OutputBeforeNumber
            | Act::SpikeAtMinimumHeeded
            | Act::MinimumKeptShort
            | Act::NumberBeforeOutput
            | Act::RateBack => Item::SensingTest,
        }
    }
}

impl How {
    pub const ALL: [How; 3] = [How::Observed, How::Demonstrated, How::Explained];

    /// The value a form sends.
    pub fn id(self) -> &'static str {
        match self {
            How::Observed => "observed",
            How::Demonstrated => "demonstrated",
            How::Explained => "explained",
        }
    }

    pub fn say(self) -> Say {
        match self {
            How::Observed => Say::HowObserved,
            How::Demonstrated => Say::HowDemonstrated,
            How::Explained => Say::HowExplained,
        }
    }
}
