//! Where the three dials stand, and which of them may stand elsewhere.

use serde::{Deserialize, Serialize};

use super::NONE;
use crate::profile::Position;

/// The three dials of one wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Dial {
    Output,
    Rate,
    Mv,
}

impl Dial {
    pub const ALL: [Dial; 3] = [Dial::Output, Dial::Rate, Dial::Mv];

    fn bit(self) -> u8 {
        match self {
            Dial::Output => 1,
            Dial::Rate => 1 << 1,
            Dial::Mv => 1 << 2,
        }
    }
}

/// Where the three dials stand. `mv` may be `ASYNCHRONOUS`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Dials {
    pub output: Position,
    pub rate: Position,
    pub mv: Position,
}

impl Dials {
    pub const UNREAD: Dials = Dials { output: NONE, rate: NONE, mv: NONE };

    #[inline]
    pub fn at(self, dial: Dial) -> Position {
        match dial {
            Dial::Output => self.output,
            Dial::Rate => self.rate,
            Dial::Mv => self.mv,
        }
    }

    #[inline]
    pub fn with(mut self, dial: Dial, to: Position) -> Dials {
        match dial {
            Dial::Output => self.output = to,
            Dial::Rate => self.rate = to,
            Dial::Mv => self.mv = to,
        }
        self
    }
}

/// The dials that a card of this check has had turned, as bits. Of any other the first reading alone says where it
/// stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Turned(u8);

impl Turned {
    pub const NONE: Turned = Turned(0);
    pub const ALL: Turned = Turned(0b111);

    #[inline]
    pub fn has(self, dial: Dial) -> bool {
        self.0 & dial.bit() != 0
    }

    #[inline]
    #[must_use]
    pub fn and(self, dial: Dial) -> Turned {
        Turned(self.0 | dial.bit())
    }

    #[must_use]
    pub fn with_all(self, others: Turned) -> Turned {
        Turned(self.0 | others.0)
    }
}

/// The dials that may stand elsewhere than said, as bits; one more where mV may stand at asynchronous.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Doubt(u8);

impl Doubt {
    pub const NONE: Doubt = Doubt(0);
    pub const ALL: Doubt = Doubt(0b1111);
    const ASYNCHRONOUS: u8 = 0b1000;

    #[inline]
    pub fn has(self, dial: Dial) -> bool {
        self.0 & dial.bit() != 0
    }

    #[inline]
    #[must_use]
    pub fn and(self, dial: Dial) -> Doubt {
        Doubt(self.0 | dial.bit())
    }

    #[inline]
    #[must_use]
    pub fn less(self, dial: Dial) -> Doubt {
        let asynchronous = if dial == Dial::Mv { Doubt::ASYNCHRONOUS } else { 0 };
        Doubt(self.0 & !(dial.bit() | asynchronous))
    }

    #[must_use]
    pub fn and_asynchronous(self) -> Doubt {
        Doubt(self.0 | Doubt::ASYNCHRONOUS)
    }

    #[inline]
    pub fn maybe_asynchronous(self) -> bool {
        self.0 & Doubt::ASYNCHRONOUS != 0
    }
}
