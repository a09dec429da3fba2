//! What people type: trimmed, bounded, and refused in a sentence that says what is allowed.

use std::collections::BTreeMap;

use crate::check::facts::{ASYNCHRONOUS, Dials};
use crate::profile::{NoSuchPosition, Position, Profile};
use crate::refusal::Refusal;
use crate::say::{Say, is_invisible};

type Values = BTreeMap<String, String>;

/// The value a form sends for the sensitivity dial when asynchronous was chosen.
pub const ASYNCHRONOUS_VALUE: &str = "asynchronous";

/// One line of text: not empty, not longer than `most` characters, without control characters.
pub fn line(values: &Values, field: &str, name: Say, most: usize) -> Result<String, Refusal> {
    let typed = values.get(field).map(String::as_str).unwrap_or_default();
    let kept: String = typed.chars().filter(|c| !is_invisible(*c)).collect();
    let kept = kept.trim().to_owned();
    if kept.is_empty() {
        return Err(Refusal::said(Say::NothingTyped { field: Box::new(name) }));
    }
    if kept.chars().count() > most {
        let most = u32::try_from(most).unwrap_or(u32::MAX);
        return Err(Refusal::said(Say::TooLong { most }));
    }
    Ok(kept)
}

pub fn dials(profile: &Profile, values: &Values) -> Result<Dials, Refusal> {
    let output = field(values, "output", Say::Output)?;
    let rate = field(values, "rate", Say::Rate)?;
    let mv = field(values, "mv", Say::Mv)?;
    Ok(Dials {
        output: profile.read_output(output).map_err(|none| no_such(&none))?,
        rate: profile.read_rate(rate).map_err(|none| no_such(&none))?,
        mv: number(profile, mv)?,
    })
}

pub fn number(profile: &Profile, typed: &str) -> Result<Position, Refusal> {
    if typed == ASYNCHRONOUS_VALUE {
        return Ok(ASYNCHRONOUS);
    }
    profile.read_mv(typed).map_err(|none| no_such(&none))
}

fn field<'v>(values: &'v Values, id: &str, name: Say) -> Result<&'v str, Refusal> {
    match values.get(id).map(|typed| typed.trim()) {
        Some(typed) if !typed.is_empty() => Ok(typed),
        _ => Err(Refusal::said(Say::NothingTyped { field: Box::new(name) })),
    }
}

/// A whole number of beats a minute.
pub fn own_rate(values: &Values, id: &str, name: Say) -> Result<u8, Refusal> {
    field(values, id, name)?.parse::<u8>().map_err(|_| Refusal::said(Say::NotARate))
}

/// "OUTPUT 36: no such position; 3.5 or 3.6?"
pub fn no_such(none: &NoSuchPosition) -> Refusal {
    Refusal::said(none.say())
}
