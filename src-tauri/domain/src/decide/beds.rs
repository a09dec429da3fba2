//! Beds, patients and wires: labels only, no identity.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::typed;
use crate::event::What;
use crate::library::Offered;
use crate::moment::Moment;
use crate::refusal::Refusal;
use crate::rules::Chamber;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Polarity, WireKind};
use crate::state::screen::Screen;

/// A bed's label fits a header in every language.
pub const LABEL_MOST: usize = 24;
/// Beds of one tablet.
pub const BEDS_MOST: usize = 200;
/// Wires of one bed: more than a patient has, and what one screen can show.
pub const WIRES_MOST: usize = 4;

pub fn go(state: &State, screen: Screen) -> Result<Vec<What>, Refusal> {
    if exists(state, screen) { Ok(vec![What::Went(screen)]) } else { Err(Refusal::NotOpen) }
}

fn exists(state: &State, screen: Screen) -> bool {
    match screen {
        Screen::Welcome
        | Screen::Beds
        | Screen::NewBed
        | Screen::Settings
        | Screen::Tablets
        | Screen::Load { bed: None }
        | Screen::Rules
        | Screen::NewRules
        | Screen::Generators
        | Screen::NewGenerator
        | Screen::PracticeRuns
        | Screen::Backup
        | Screen::Erase
        | Screen::Erased => true,
        Screen::Restore => state.is_untouched(),
        Screen::Restorable => state.is_untouched() && state.restorable.is_some(),
        Screen::EraseAsk { at } => (at as usize) < state.closed.len(),
        Screen::Practice | Screen::PracticeBegin { .. } => true,
        Screen::Practising => state.practice.is_some(),
        Screen::PracticeFound => state.practice.as_ref().is_some_and(|open| !open.staged.guided),
        Screen::PracticeRead => {
            state.practice.as_ref().is_some_and(|open| !open.staged.guided && open.said().is_some())
        }
        Screen::PracticeResult { run } => state.run(run).is_some(),
        Screen::PracticeActs { run, from: act } | Screen::LookAgain { run, act } => state
            .run(run)
            .and_then(|run| run.judgement.as_ref())
            .is_some_and(|judgement| usize::from(act) < judgement.acts.len()),
        Screen::OfferedRules => matches!(state.offered, Some(Offered::Rules { .. })),
        Screen::OfferedGenerator => matches!(state.offered, Some(Offered::Generator { .. })),
        Screen::Approve => state.offered.is_some(),
        Screen::Teaching(place) => super::teaching::exists(state, place),
        Screen::Generator { at } => (at as usize) < state.generators.len(),
        Screen::MoreBeds { from } => (from as usize) < state.beds.len(),
        Screen::Bed { bed }
        | Screen::NewPatient { bed }
        | Screen::NewWire { bed }
        | Screen::BedMore { bed }
        | Screen::EmptyBed { bed } => state.bed(bed).is_some(),
        Screen::WireOut { bed } | Screen::Happened { bed } => {
            state.bed(bed).is_some_and(|found| !found.wires.is_empty())
        }
        Screen::Check { bed, wire } => state.wire(bed, wire).is_some_and(|w| w.check.is_some()),
        Screen::Result { bed, wire, back } => {
            state.wire(bed, wire).is_some_and(|w| (back as usize) < w.records.len())
        }
        Screen::Load { bed: Some(bed) } => state.bed(bed).is_some(),
        Screen::Reading => state.loading.as_ref().is_some_and(|loading| loading.outcome.is_none()),
        Screen::ArrivedList => state.loading.as_ref().is_some_and(|loading| !loading.arrived().is_empty()),
        Screen::Arrived { at } | Screen::TakeIn { at } | Screen::NameTablet { at } => {
            super::handed::arrived(state, at).is_some()
        }
        Screen::Tablet { at } => (at as usize) < state.known_tablets.len(),
        Screen::Compare { bed, wire } => state.wire(bed, wire).is_some_and(super::handed::may_compare),
        Screen::Compared { bed, wire } => {
            let arrival = state.wire(bed, wire).and_then(|found| found.arrival.as_ref());
            arrival.is_some_and(|arrival| arrival.compared.is_some())
        }
        Screen::Code { bed, wire }
        | Screen::CodeCopy { bed, wire }
        | Screen::History { bed, wire }
        | Screen::Plug { bed, wire }
        | Screen::Export { bed, wire } => state.wire(bed, wire).is_some(),
        Screen::Transport { bed } => state.bed(bed).is_some_and(|b| b.transport.is_some()),
        Screen::Swap { bed, wire } => state.wire(bed, wire).is_some_and(|w| w.swap.is_some()),
        Screen::NewSwap { bed, wire } => state.wire(bed, wire).is_some_and(|w| w.check.is_none()),
        Screen::ReadOwed { bed, wire } => {
            state.wire(bed, wire).is_some_and(|w| w.owed.is_some() && w.is_free())
        }
    }
}

pub fn add_bed(state: &State, values: &BTreeMap<String, String>, now: Moment) -> Result<Vec<What>, Refusal> {
    let label = typed::line(values, "label", Say::BedLabelField, LABEL_MOST)?;
    if state.beds.iter().any(|bed| bed.label == label) {
        return Err(Refusal::said(Say::BedExists { label }));
    }
    if state.beds.len() >= BEDS_MOST {
        return Err(too_many(BEDS_MOST, |most| Say::TooManyBeds { most }));
    }
    let bed = state.next_bed;
    let patient = Uuid::from_bytes(now.fresh);
    Ok(vec![What::BedAdded { bed, label, patient }, What::Went(Screen::NewWire { bed })])
}

/// A bed is no identity: its wires close and the history starts empty. Not while a check is open.
pub fn new_patient(state: &State, bed: u32, now: Moment) -> Result<Vec<What>, Refusal> {
    let found = state.bed(bed).ok_or(Refusal::NotOpen)?;
    if found.wires.iter().any(|wire| wire.check.is_some()) {
        return Err(Refusal::said(Say::EndCheckFirst));
    }
    if found.wires.iter().any(|wire| wire.swap.is_some()) {
        return Err(Refusal::said(Say::EndSwapFirst));
    }
    if found.transport.is_some() {
        return Err(Refusal::said(Say::EndTransportFirst));
    }
    let patient = Uuid::from_bytes(now.fresh);
    Ok(vec![What::PatientArrived { bed, patient }, What::Went(Screen::NewWire { bed })])
}

pub fn add_wire(state: &State, bed: u32, values: &BTreeMap<String, String>) -> Result<Vec<What>, Refusal> {
    let found = state.bed(bed).ok_or(Refusal::NotOpen)?;
    if found.transport.is_some() {
        return Err(Refusal::said(Say::EndTransportFirst));
    }
    if found.wires.len() >= WIRES_MOST {
        return Err(too_many(WIRES_MOST, |most| Say::TooManyWires { most }));
    }
    let picked = |field: &str| values.get(field).map(String::as_str).unwrap_or_default();
    let chamber = match picked("chamber") {
        "atrium" => Chamber::Atrium,
        "ventricle" => Chamber::Ventricle,
        _ => return Err(nothing(Say::ChamberField)),
    };
    let kind = match picked("kind") {
        "epicardial" => WireKind::Epicardial,
        "transvenous" => WireKind::Transvenous,
        _ => return Err(nothing(Say::KindField)),
    };
    let polarity = match picked("polarity") {
        "bipolar" => Polarity::Bipolar,
        "unipolar" => Polarity::Unipolar,
        _ => return Err(nothing(Say::PolarityField)),
    };
    let generator = picked_for(chamber, state, values)?;
    let wire = found.next_wire;
    let added = What::WireAdded { bed, wire, chamber, kind, polarity, generator };
    Ok(vec![added, What::Went(Screen::Bed { bed })])
}

/// Field `generator`: the id of one that has a mode for such a wire.
pub fn picked_for(
    chamber: Chamber,
    state: &State,
    values: &BTreeMap<String, String>,
) -> Result<String, Refusal> {
    let picked = values.get("generator").map(String::as_str).unwrap_or_default();
    let profile = state.generator(picked).ok_or_else(|| nothing(Say::GeneratorField))?;
    if profile.is_for(chamber) {
        return Ok(profile.id.clone());
    }
    let mode = if chamber == Chamber::Atrium { "AAI" } else { "VVI" };
    Err(Refusal::said(Say::GeneratorNotForWire { mode: mode.to_owned() }))
}

pub fn too_many(most: usize, say: impl FnOnce(u32) -> Say) -> Refusal {
    Refusal::said(say(u32::try_from(most).unwrap_or(u32::MAX)))
}

fn nothing(field: Say) -> Refusal {
    Refusal::said(Say::NothingTyped { field: Box::new(field) })
}
