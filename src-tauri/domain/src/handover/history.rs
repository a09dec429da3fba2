//! What a wire has from other tablets. A check of another tablet never changes here, and is here once.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::arrived::Arrived;
use super::compare::Compared;
use super::stamp::{Minute, Place, minute_of};
use super::summary::{Check, Next};
use super::tablet::Tablet;
use crate::moment::Moment;
use crate::state::State;
use crate::state::bed::Wire;

/// Checks of other tablets that one wire keeps.
pub const HANDED_MOST: usize = 100;

/// One check that another tablet made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct HandedCheck {
    pub tablet: Tablet,
    pub place: Place,
    pub check: Check,
}

/// The handover that was taken in last.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Arrival {
    pub tablet: Tablet,
    pub name: Option<String>,
    pub place: Place,
    pub newest: Check,
    pub next: Next,
    pub at: Moment,
    /// When its newest check first came here; `None` where it was here before the handover that this one followed, or
    /// is this tablet's own.
    #[serde(default)]
    pub first: Option<Moment>,
    /// Nothing of it is trusted before.
    pub compared: Option<Compared>,
}

/// What makes two checks the same.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Identity {
    pub ended: Minute,
    pub tablet: Tablet,
    pub check: u32,
}

impl HandedCheck {
    pub fn identity(&self) -> Identity {
        Identity { ended: self.check.ended, tablet: self.tablet.clone(), check: self.check.id }
    }
}

/// The checks of a code that are not on the wire yet, newest first.
pub fn fresh(state: &State, wire: Option<&Wire>, arrived: &Arrived) -> Vec<HandedCheck> {
    let known = wire.map(|wire| known(state, wire)).unwrap_or_default();
    let checks = std::iter::once(&arrived.summary.newest).chain(&arrived.summary.earlier);
    let handed = |check: &Check| HandedCheck {
        tablet: arrived.tablet.clone(),
        place: arrived.summary.place,
        check: check.clone(),
    };
    checks.map(handed).filter(|handed| !known.contains(&handed.identity())).collect()
}

/// Every check of the wire, this tablet's own among them.
pub fn known(state: &State, wire: &Wire) -> BTreeSet<Identity> {
    all(state, wire).iter().map(HandedCheck::identity).collect()
}

/// Own and handed checks in one order, oldest first: on two tablets that gave each other all they have, the same.
pub fn all(state: &State, wire: &Wire) -> Vec<HandedCheck> {
    let own = state.own_key.tablet.as_ref();
    let own_checks = own.into_iter().flat_map(|tablet| {
        wire.records.iter().filter_map(|record| {
            let check = Check::of(record)?;
            let place = Place::new(record.ended.offset_min)?;
            Some(HandedCheck { tablet: tablet.clone(), place, check })
        })
    });
    let mut all: Vec<HandedCheck> = own_checks.chain(wire.handed.iter().cloned()).collect();
    all.sort_by_key(HandedCheck::identity);
    all
}

/// Puts what came beside what is there; the oldest give way.
pub fn merged(mut there: Vec<HandedCheck>, came: &[HandedCheck]) -> Vec<HandedCheck> {
    for handed in came {
        if there.iter().all(|known| known.identity() != handed.identity()) {
            there.push(handed.clone());
        }
    }
    there.sort_by_key(HandedCheck::identity);
    let too_many = there.len().saturating_sub(HANDED_MOST);
    there.drain(..too_many);
    there
}

/// The last handover, until a check here has taken its place.
pub fn standing(wire: &Wire) -> Option<&Arrival> {
    let arrival = wire.arrival.as_ref()?;
    let own = wire.records.last().map(|record| record.ended.wall_ms);
    own.is_none_or(|own| own < arrival.at.wall_ms).then_some(arrival)
}

/// The newest check known of the wire, own or handed: what its dials are compared with.
pub fn newest(wire: &Wire) -> Option<Check> {
    let handed = newest_handed(wire).map(|arrival| arrival.newest.clone());
    handed.or_else(|| wire.records.last().and_then(Check::of))
}

/// The handover, where no check of this tablet is newer than the one it brought. The clock of the other tablet may be a
/// day apart, so a check counts from when it came here, by this tablet's clock. One that was here already, and is loaded
/// again, is no newer for it: then its own time decides.
pub fn newest_handed(wire: &Wire) -> Option<&Arrival> {
    let arrival = wire.arrival.as_ref()?;
    let is_newer = |own: Moment| match arrival.first {
        Some(first) => own.wall_ms < first.wall_ms,
        None => minute_of(own.wall_ms) < arrival.newest.ended,
    };
    wire.records.last().is_none_or(|own| is_newer(own.ended)).then_some(arrival)
}

/// When the newest check of this code first came to the wire: see `Arrival`.
pub fn first_came(state: &State, wire: Option<&Wire>, arrived: &Arrived, now: Moment) -> Option<Moment> {
    let newest = |tablet: &Tablet, check: &Check| Identity {
        ended: check.ended,
        tablet: tablet.clone(),
        check: check.id,
    };
    let Some(wire) = wire else { return Some(now) };
    let came = newest(&arrived.tablet, &arrived.summary.newest);
    match &wire.arrival {
        Some(last) if newest(&last.tablet, &last.newest) == came => last.first,
        _ => (!known(state, wire).contains(&came)).then_some(now),
    }
}
