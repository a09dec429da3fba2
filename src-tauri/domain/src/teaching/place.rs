//! The screens of educators and sign-off.

use serde::{Deserialize, Serialize};

use super::item::Item;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Place {
    /// Who is signed for what, from this place in its order on.
    Roster {
        from: u32,
    },
    /// The learner of the entry at this place.
    Learner {
        entry: u32,
    },
    /// One signed paper.
    Entry {
        at: u32,
    },
    Educators,
    Educator {
        at: u32,
    },
    Enrol,
    /// Another educator stands for this one.
    Vouch {
        at: u32,
    },
    /// The unit's approver stands for this one.
    ApproverVouch {
        at: u32,
    },
    /// A new PIN for this one, by another educator.
    Renew {
        at: u32,
    },
    /// What can be signed.
    ToSign,
    SignLearner,
    SignItems,
    SignItem {
        item: Item,
    },
    SignPin,
    /// A PIN is being tried.
    Working,
    Revoke {
        at: u32,
    },
    /// Asks for a signed file.
    NewFile,
    /// The file handed in, looked at.
    FileRead,
    /// An educator here stands for the one who signed the file.
    FileVouch,
}
