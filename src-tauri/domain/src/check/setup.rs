//! What a check is done with: the generator, the unit's rules, the chamber, and what is remembered.

use crate::profile::{AsynchronousBy, Position, Profile};
use crate::rules::{Chamber, Rules};

use super::facts::{ASYNCHRONOUS, Facts, FirstLook, NONE};
use super::guard::Guards;

/// Read-only surroundings of one check.
#[derive(Clone, Copy)]
pub struct Setup<'a> {
    pub profile: &'a Profile,
    pub rules: &'a Rules,
    pub chamber: Chamber,
    /// A check on this wire is on record: the patient's identity is asked first.
    pub history: bool,
    /// Example rules on a real patient: somebody must accept them by name.
    pub needs_acceptance: bool,
    /// Last capture threshold on this generator, or `NONE`.
    pub last_capture: Position,
    /// Last number known to see every own beat on this generator, or `NONE`.
    pub last_seen: Position,
    pub guards: Guards,
}

impl Setup<'_> {
    #[inline]
    pub fn has_asynchronous(&self) -> bool {
        self.profile.asynchronous() != AsynchronousBy::None
    }

    #[inline]
    pub fn maximum(&self) -> Position {
        self.profile.output_last()
    }

    /// The lowest rate position at or above the unit's limit of the search for own beats.
    pub fn search_limit(&self) -> Option<Position> {
        self.profile.rate_at_or_above(i32::from(self.rules.own_limit))
    }

    /// The emergency rate on this dial: at or above the unit's figure, else the highest.
    pub fn emergency_rate(&self) -> Position {
        self.profile
            .rate_at_or_above(i32::from(self.rules.emergency_rate))
            .unwrap_or(self.profile.rate_last())
    }

    /// The number to try when none is known to see.
    pub fn starting_mv(&self) -> Position {
        crate::plan::starting_mv(self.profile, self.rules, self.chamber)
    }

    /// The lowest number the unit ever sets, on this dial; the highest number where none reaches it.
    pub fn lowest_mv(&self) -> Position {
        let lowest_uv = self.rules.lowest_mv_uv(self.chamber);
        (0..=self.profile.mv_last())
            .find(|at| self.profile.mv_at(*at) >= lowest_uv)
            .unwrap_or(self.profile.mv_last())
    }

    /// Asynchronous where the generator has it, else the highest number.
    pub fn blindest(&self) -> Position {
        if self.has_asynchronous() { ASYNCHRONOUS } else { self.profile.mv_last() }
    }

    pub fn is_test_rate(&self, rate: Position) -> bool {
        self.profile.rate_at(rate) <= self.rules.highest_test_rate
    }

    /// Nothing tells whether the lowest output captures today, and a spike that does may fall on a T wave: a threshold
    /// of hours ago may have fallen to a fraction since. An atrial wire puts none there; that it is one shows where
    /// paced beats were looked at first.
    pub fn minimum_may_surprise(&self, facts: &Facts) -> bool {
        let paced_at_first = matches!(facts.first_look, FirstLook::EveryBeatPaced | FirstLook::Both);
        let paces_the_atrium = self.chamber == Chamber::Atrium && paced_at_first;
        !paces_the_atrium
    }

    /// The lowest output is at or above half the last capture threshold: it may capture.
    pub fn minimum_may_capture(&self) -> bool {
        self.last_capture != NONE
            && self.profile.output_at(self.last_capture) <= 2 * self.profile.output_at(0)
    }
}
