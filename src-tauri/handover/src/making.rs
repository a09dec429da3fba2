//! Both codes of a wire, from its record and this tablet's key.

use domain::handover::code::MadeCode;
use domain::handover::drawing::{Level, MOST_VERSION_COPY, MOST_VERSION_LINES, draw};
use domain::handover::summary::{NoSummary, Summary};
use domain::handover::tablet::Tablet;
use domain::moment::Moment;
use domain::state::bed::Wire;
use seal::{PublicKey, TabletKey};

use crate::{copy, lines};

pub fn tablet_of(key: &PublicKey) -> Tablet {
    Tablet::of_key(key.bytes())
}

/// What is too long even shortened is absent, and so is what no symbol holds; both where a figure is none that a
/// dial prints.
///
/// # Errors
/// There is nothing to hand over.
pub fn made(wire: &Wire, key: &TabletKey, now: Moment) -> Result<MadeCode, NoSummary> {
    let check = Summary::last(wire)?.id;
    let summary = Summary::of(wire, now).ok();
    let fits = |text: &String, level, most| draw(text, level, most).is_some();
    let lines = summary.as_ref().and_then(|summary| signed_lines(summary, key));
    let copy = summary.and_then(|summary| copy::sign(&summary, key).ok());
    Ok(MadeCode {
        at: now,
        check,
        tablet: tablet_of(&key.public()),
        lines: lines.filter(|text| fits(text, Level::M, MOST_VERSION_LINES)),
        copy: copy.filter(|text| fits(text, Level::Q, MOST_VERSION_COPY)),
    })
}

fn signed_lines(summary: &Summary, key: &TabletKey) -> Option<String> {
    Some(lines::sign(&lines::text(summary)?, key))
}
