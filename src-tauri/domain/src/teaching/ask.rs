//! What can be asked about educators and sign-off. No PIN is among it: of that only its shape comes in.

use serde::{Deserialize, Serialize};

use super::draft::Subject;
use super::item::Item;
use super::{PinDone, ReadFile};

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ask {
    // ---- by the session
    /// What was wanted with a PIN has been done, or not.
    PinDone(PinDone),
    /// A file for the card that asks for a signed one.
    FileRead(ReadFile),
    /// The entry's file was written, and where; or why not.
    FileWritten {
        entry: u32,
        file: Result<String, NotWritten>,
    },
    // ---- by a person
    /// Fields `name`, `new-pin`, `new-pin-again`.
    Enrol,
    /// Fields `educator`, `pin`.
    Vouch {
        at: u32,
    },
    /// Field `name`: the one who let the unit's rules in.
    ApproverVouch {
        at: u32,
    },
    /// Fields `educator`, `pin`, `new-pin`, `new-pin-again`.
    Renew {
        at: u32,
    },
    Begin(Subject),
    /// Field `learner`.
    NameLearner,
    /// Fields `how`, `met`, `reason`.
    Mark {
        item: Item,
    },
    /// Not this time.
    Leave {
        item: Item,
    },
    /// Fields `educator`, `pin`.
    Sign,
    PutAside,
    /// Fields `reason`, `educator`, `pin`.
    Revoke {
        at: u32,
    },
    /// Writes the entry as a file.
    Save {
        at: u32,
    },
    KeepRead,
    /// Fields `educator`, `pin`: stands for whoever signed the file.
    FileVouch,
}

/// Why a file was not written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NotWritten {
    DiskFull,
    /// What the system said.
    Device(String),
    /// What is kept of the entry is no signed paper.
    Damaged,
}

impl Ask {
    /// A worker tries the PIN that was typed for it.
    pub fn tries_a_pin(&self) -> bool {
        matches!(
            self,
            Ask::Enrol
                | Ask::Vouch { .. }
                | Ask::Renew { .. }
                | Ask::Sign
                | Ask::Revoke { .. }
                | Ask::FileVouch
        )
    }

    pub fn is_by_session(&self) -> bool {
        matches!(self, Ask::PinDone(_) | Ask::FileRead(_) | Ask::FileWritten { .. })
    }
}
