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

    /// The acts of a practice run that speak to this item; none where a run shows nothing of it.
    pub fn judged_by(self) -> &'static [Act] {
        match self {
            Item::Parts | Item::Indications | Item::Wires | Item::ExitSite | Item::Battery => &[],
            Item::Modes => &[Act::OutOfAsynchronous],
            Item::Marks => &[Act::BlindPutRight, Act::AnsweredAsSeen],
            Item::SensingOrCapture => &[Act::SensingFound, Act::CaptureFound],
            Item::Emergency => {
                &[Act::MaximumWhereFoundFails, Act::OutputFirstInNoBeats, Act::MaximumAfterShock]
            }
            Item::SensingTest => &[
                Act::OutputBeforeNumber,
                Act::SpikeAtMinimumHeeded,
                Act::MinimumKeptShort,
                Act::NumberBeforeOutput,
            ],
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
