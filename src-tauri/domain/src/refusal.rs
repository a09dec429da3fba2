//! Why a request was not taken, in words where a person must know.

use crate::say::Say;

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// A tap on an older card, or the second half of a double tap: nothing happens, nothing is said.
    Stale,
    /// The card does not offer it (yet).
    NotOpen,
    /// A sentence with what is wrong and what is allowed.
    Said(Box<Say>),
}

impl Refusal {
    pub fn said(say: Say) -> Refusal {
        Refusal::Said(Box::new(say))
    }

    pub fn say(&self) -> Option<Say> {
        match self {
            Refusal::Stale | Refusal::NotOpen => None,
            Refusal::Said(say) => Some((**say).clone()),
        }
    }
}
