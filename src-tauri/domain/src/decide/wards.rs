//! What befalls a bed between two checks: a reading that is owed, an event, another generator, a wire that
//! is out, a patient who leaves.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::beds::picked_for;
use super::{check, typed};
use crate::check::facts::ASYNCHRONOUS;
use crate::event::What;
use crate::moment::Moment;
use crate::profile::AsynchronousBy;
use crate::record::Printed;
use crate::refusal::Refusal;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, DueNow, Standing, Wire};
use crate::state::screen::Screen;

type Values = BTreeMap<String, String>;

/// The patient has left: wires and history close, the label stays.
pub fn empty_bed(state: &State, bed: u32, now: Moment) -> Result<Vec<What>, Refusal> {
    settled(state.bed(bed).ok_or(Refusal::NotOpen)?)?;
    let patient = Uuid::from_bytes(now.fresh);
    Ok(vec![What::BedEmptied { bed, patient }, What::Went(Screen::Beds)])
}

pub fn remove_bed(state: &State, bed: u32) -> Result<Vec<What>, Refusal> {
    settled(state.bed(bed).ok_or(Refusal::NotOpen)?)?;
    Ok(vec![What::BedRemoved { bed }, What::Went(Screen::Beds)])
}

/// Nothing is closed over an open check, or over dials that nobody has read.
fn settled(bed: &Bed) -> Result<(), Refusal> {
    if bed.transport.is_some() {
        return Err(Refusal::said(Say::EndTransportFirst));
    }
    bed.wires.iter().try_for_each(wire_settled)
}

pub fn wire_settled(wire: &Wire) -> Result<(), Refusal> {
    if wire.check.is_some() {
        return Err(Refusal::said(Say::EndCheckFirst));
    }
    if wire.swap.is_some() {
        return Err(Refusal::said(Say::EndSwapFirst));
    }
    if wire.owed.is_some() { Err(Refusal::said(Say::ReadDialsFirst)) } else { Ok(()) }
}

/// Field `wire`: its number in this bed.
pub fn remove_wire(state: &State, bed: u32, values: &Values) -> Result<Vec<What>, Refusal> {
    let picked = values.get("wire").and_then(|id| id.parse::<u32>().ok());
    let wire = picked.and_then(|wire| state.wire(bed, wire));
    let wire = wire.ok_or_else(|| Refusal::said(Say::NothingTyped { field: Box::new(Say::WireField) }))?;
    if state.bed(bed).is_some_and(|found| found.transport.is_some()) {
        return Err(Refusal::said(Say::EndTransportFirst));
    }
    wire_settled(wire)?;
    Ok(vec![What::WireRemoved { bed, wire: wire.id }, What::Went(Screen::Bed { bed })])
}

pub fn happened(state: &State, bed: u32, why: DueNow) -> Result<Vec<What>, Refusal> {
    let found = state.bed(bed).ok_or(Refusal::NotOpen)?;
    if found.wires.is_empty() {
        return Err(Refusal::NotOpen);
    }
    // A check is compared with those on its own polarity, from its beginning to its end.
    if why == DueNow::Polarity && found.wires.iter().any(|wire| wire.check.is_some()) {
        return Err(Refusal::said(Say::EndCheckFirst));
    }
    Ok(vec![What::MadeDue { bed, why }, What::Went(Screen::Bed { bed })])
}

/// Not once this check has read the dials: its positions are those of the generator it began on.
pub fn plug_into(state: &State, bed: u32, wire: u32, values: &Values) -> Result<Vec<What>, Refusal> {
    let this = state.wire(bed, wire).ok_or(Refusal::NotOpen)?;
    let back = if this.check.is_some() { Screen::Check { bed, wire } } else { Screen::Bed { bed } };
    let generator = picked_for(this.chamber, state, values)?;
    if generator == this.generator {
        return Ok(vec![What::Went(back)]);
    }
    if this.check.as_ref().is_some_and(|open| open.facts.dials_read()) {
        return Err(Refusal::said(Say::EndCheckFirst));
    }
    if this.swap.is_some() {
        return Err(Refusal::said(Say::EndSwapFirst));
    }
    if this.owed.is_some() {
        return Err(Refusal::said(Say::ReadDialsFirst));
    }
    let due = (!this.records.is_empty()).then_some(DueNow::Generator);
    Ok(vec![What::WirePlugged { bed, wire, generator, due }, What::Went(back)])
}

/// The reading that a check left owed. Unlike what that check left, it is asked for once more.
pub fn read_owed(
    state: &State,
    bed: u32,
    wire: u32,
    values: &Values,
    now: Moment,
) -> Result<Vec<What>, Refusal> {
    let this = state.wire(bed, wire).filter(|wire| wire.owed.is_some() && wire.is_free());
    let this = this.ok_or(Refusal::NotOpen)?;
    let profile = state.generator(&this.generator).ok_or(Refusal::NotOpen)?;
    let dials = typed::dials(profile, values)?;
    if dials.mv == ASYNCHRONOUS && profile.asynchronous() == AsynchronousBy::None {
        return Err(Refusal::NotOpen);
    }
    let as_left = check::last_known(profile, this) == Some(dials);
    if !as_left && this.asked_again != Some(dials) {
        return Ok(vec![What::OwedAskedAgain { bed, wire, dials }]);
    }
    let standing = Standing { dials, printed: Printed::of(profile, dials), at: now };
    let due = (!as_left).then_some(DueNow::Dials);
    Ok(vec![What::OwedRead { bed, wire, standing, due }, What::Went(Screen::Bed { bed })])
}
