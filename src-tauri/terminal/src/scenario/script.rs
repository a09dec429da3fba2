//! What happens, or is done, otherwise than the heart and the cards lead to.

use serde::{Deserialize, Serialize};

use super::{DialName, HeartFile};

/// Something that happens once, on one card.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Scripted {
    pub on: On,
    #[serde(rename = "do")]
    pub act: Act,
}

/// The card it happens on. What is left out fits every card.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct On {
    /// "ready", "own-rhythm", "sensing", "capture", "set", "read", "confirm", "restore", "trouble", "away".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stage: Option<String>,
    /// The name of the sentence that asks, as "ask-every-spike".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asks: Option<String>,
    /// The figure the card asks to turn to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub figure: Option<String>,
    /// The button is on the card, by its name.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub offers: Option<String>,
    /// The name of the sentence that the card says beside its question, as "nothing-to-compare".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub says: Option<String>,
    /// Seconds after such a card came first.
    #[serde(default)]
    pub after_s: u32,
}

#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub enum Act {
    /// A button is tapped, by its name.
    Tap(String),
    /// Something is reported by "Something is wrong".
    Report(ReportFile),
    /// The heart changes.
    Heart(Box<HeartFile>),
    /// Somebody turns a dial, and the card does not know.
    Turn(TurnFile),
    /// Something else is typed than stands on the dials: field and text.
    Type(std::collections::BTreeMap<String, String>),
    /// The tablet sleeps, seconds.
    Sleep(u32),
    /// The program is killed and started again after so many seconds.
    Killed(u32),
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub enum ReportFile {
    NoPulse,
    FastWide,
    Shock,
    NotTolerated,
    Pause,
    ExtraBeat,
    MarkAlone,
    Elsewhere,
    SpikeWithoutBeat,
    BeatNotMarked,
}

#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct TurnFile {
    /// "output", "rate" or "mv".
    pub dial: DialName,
    /// As printed, or "asynchronous".
    pub to: String,
}

impl ReportFile {
    pub fn trouble(self) -> observer::Trouble {
        use observer::Trouble;
        match self {
            ReportFile::NoPulse => Trouble::NoPulse,
            ReportFile::FastWide => Trouble::FastWide,
            ReportFile::Shock => Trouble::Shock,
            ReportFile::NotTolerated => Trouble::NotTolerated,
            ReportFile::Pause => Trouble::Pause,
            ReportFile::ExtraBeat => Trouble::ExtraBeat,
            ReportFile::MarkAlone => Trouble::MarkAlone,
            ReportFile::Elsewhere => Trouble::Elsewhere,
            ReportFile::SpikeWithoutBeat => Trouble::SpikeWithoutBeat,
            ReportFile::BeatNotMarked => Trouble::BeatNotMarked,
        }
    }
}

impl TurnFile {
    pub fn dial(&self) -> observer::Dial {
        match self.dial {
            DialName::Output => observer::Dial::Output,
            DialName::Rate => observer::Dial::Rate,
            DialName::Mv => observer::Dial::Mv,
        }
    }

    pub fn figure(&self) -> domain::say::Say {
        if self.to == "asynchronous" {
            return domain::say::Say::Asynchronous;
        }
        domain::say::Say::Figure { text: self.to.clone() }
    }
}
