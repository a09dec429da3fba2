//! Why an act is not done, in one short piece, where the judge knows it.

use serde::{Deserialize, Serialize};

use crate::check::facts::Dial;
use crate::profile::Position;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Reason {
    /// So long with RATE there; the rule asks for longer.
    Watched {
        at: Position,
        seconds: u16,
        asked: u16,
    },
    /// So many spikes with OUTPUT there.
    Spikes {
        at: Position,
        seen: u16,
        asked: u16,
    },
    /// So many beats after the last turn.
    Beats {
        seen: u16,
        asked: u16,
    },
    /// Farther than one step of the rule.
    OneTurn {
        dial: Dial,
        from: Position,
        to: Position,
    },
    /// So long after what asked for it.
    After {
        seconds: u16,
    },
    AboveRule,
    BelowRule,
    NotTested,
}

impl Reason {
    pub fn after(us: u64) -> Reason {
        Reason::After { seconds: whole_seconds(us) }
    }
}

/// Begun ones are left out: "10 s" would not be too short for ten.
pub fn whole_seconds(us: u64) -> u16 {
    u16::try_from(us / 1_000_000).unwrap_or(u16::MAX)
}
