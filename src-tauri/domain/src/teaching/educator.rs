//! Who signs.

use serde::{Deserialize, Serialize};

use super::pin::Tries;
use crate::moment::Moment;

/// Who can sign on one tablet.
pub const EDUCATORS_MOST: usize = 12;

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Educator {
    pub name: String,
    /// Public key, hexadecimal digits.
    pub key: String,
    /// The key that signs, behind its PIN; `None` for one who signs on another tablet.
    pub locked: Option<String>,
    pub enrolled: Moment,
    /// A new PIN and key have taken the place of this one; what it signed stands.
    pub retired: Option<Moment>,
    pub vouched: Option<Vouched>,
    pub tries: Tries,
}

/// Who stands for an educator.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Vouched {
    /// By a signature, the entry at this place.
    Educator { name: String, entry: u32 },
    /// Who let the unit's rules into force on this tablet, by a typed name.
    Approver { name: String, role: String, at: Moment },
}

impl Educator {
    pub fn can_sign(&self) -> bool {
        self.locked.is_some() && self.retired.is_none()
    }
}
