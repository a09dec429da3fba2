//! What the answers have shown of the heart, kept apart from `Facts`.

use domain::check::facts::{ASYNCHRONOUS, NONE};

/// Outputs: everything up to `bad` has failed since anything at or below it held; from `good` up it held.
/// Numbers: `missed` and above did not see; up to `saw` every own beat was marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Evidence {
    pub bad: Option<u8>,
    pub good: Option<u8>,
    pub missed: Option<u8>,
    pub saw: Option<u8>,
}

impl Evidence {
    pub const NOTHING: Evidence = Evidence { bad: None, good: None, missed: None, saw: None };

    pub fn held(&mut self, at: u8) {
        self.good = Some(self.good.map_or(at, |good| good.min(at)));
        self.bad = self.bad.and_then(|bad| if bad >= at { at.checked_sub(1) } else { Some(bad) });
    }

    pub fn lost(&mut self, at: u8) {
        self.bad = Some(self.bad.map_or(at, |bad| bad.max(at)));
        self.good = self.good.filter(|good| *good > at);
    }

    pub fn marked(&mut self, at: u8) {
        if at != ASYNCHRONOUS && self.missed.is_none_or(|missed| at < missed) {
            self.saw = Some(self.saw.map_or(at, |saw| saw.max(at)));
        }
    }

    pub fn unmarked(&mut self, at: u8) {
        if at < ASYNCHRONOUS {
            self.missed = Some(self.missed.map_or(at, |missed| missed.min(at)));
            self.saw = self.saw.filter(|saw| *saw < at);
        }
    }

    /// Nothing later than the last loss has shown this output to capture.
    pub fn fails(&self, output: u8) -> bool {
        output != NONE && self.bad.is_some_and(|bad| output <= bad)
    }

    pub fn blind(&self, number: u8) -> bool {
        number < ASYNCHRONOUS && self.missed.is_some_and(|missed| number >= missed)
    }

    pub fn sees(&self, number: u8) -> bool {
        self.saw.is_some_and(|saw| number <= saw)
    }
}
