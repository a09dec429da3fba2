//! What the dials of a wire are read beside, outside a check: where they were last known to stand, and the newest
//! check, own or handed, as far as its thresholds hold for the box that is plugged in now.

use serde::{Deserialize, Serialize};

use super::compare::Said;
use super::figure::Figure;
use super::history::{Arrival, newest_handed};
use super::summary::{Check, DialsAt};
use crate::profile::Profile;
use crate::record::{Printed, Record};
use crate::state::bed::Wire;

/// Who said where the dials stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Source {
    /// A code of another tablet, not compared before.
    Code,
    /// The last check of this tablet.
    Check,
    /// Somebody read them since.
    Reading,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Known {
    pub dials: Option<(Source, Said)>,
    /// `None` where no check was made, another box has been plugged in since, or the polarity was exchanged: a
    /// threshold is one of wire, box and polarity together.
    pub thresholds: Option<Check>,
}

pub fn known(profile: &Profile, wire: &Wire) -> Known {
    let handed = newest_handed(wire);
    let own = wire.records.last().filter(|_| handed.is_none());
    let same_box = !wire.another_box && own.is_none_or(|record| record.generator == profile.id);
    let tested = handed.map(|arrival| arrival.at).or_else(|| own.map(|record| record.opened));
    let is_alike = wire.exchanged.is_none_or(|since| tested.is_some_and(|at| at.wall_ms >= since.wall_ms));
    let check = handed.map(|arrival| arrival.newest.clone()).or_else(|| own.and_then(Check::of));
    Known {
        dials: read(profile, wire, handed).or_else(|| said(handed, own).filter(|_| same_box)),
        thresholds: check.filter(|_| same_box && is_alike),
    }
}

fn read(profile: &Profile, wire: &Wire, handed: Option<&Arrival>) -> Option<(Source, Said)> {
    let unit = profile.output_unit();
    if let Some(standing) = &wire.standing {
        return Some((Source::Reading, Said { dials: DialsAt::of(&standing.printed), unit }));
    }
    let compared = handed?.compared.as_ref().filter(|_| !wire.another_box)?;
    Some((Source::Reading, Said { dials: DialsAt::of(&compared.printed), unit: compared.unit }))
}

fn said(handed: Option<&Arrival>, own: Option<&Record>) -> Option<(Source, Said)> {
    let (source, check) = match handed {
        Some(arrival) => (Source::Code, arrival.newest.clone()),
        None => (Source::Check, own.and_then(Check::of)?),
    };
    Some((source, Said { dials: check.dials, unit: check.unit }))
}

impl DialsAt {
    /// `None` when a figure is none that a dial prints.
    pub fn of(printed: &Printed) -> Option<DialsAt> {
        let mv = match printed.mv.as_deref() {
            Some(text) => Some(Figure::new(text)?),
            None => None,
        };
        Some(DialsAt { rate: Figure::new(&printed.rate)?, output: Figure::new(&printed.output)?, mv })
    }
}
