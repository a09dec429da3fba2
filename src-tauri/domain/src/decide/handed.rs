//! Codes that come from other tablets: loaded, looked at, taken in by somebody who named the patient, set beside
//! the dials. And the tablets' keys.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::beds::{BEDS_MOST, LABEL_MOST, WIRES_MOST, picked_for, too_many};
use super::check::{NAME_MOST, last_known};
use super::typed;
use super::wards::wire_settled;
use crate::check::facts::ASYNCHRONOUS;
use crate::contract::FILE_MOST;
use crate::event::What;
use crate::handover::arrived::{Arrived, NotLoaded, Source};
use crate::handover::code::MadeCode;
use crate::handover::compare::compare;
use crate::handover::history::{Arrival, first_came, fresh, standing};
use crate::handover::mangled::is_mangled;
use crate::handover::tablet::{KNOWN_MOST, KeyLost, Tablet};
use crate::moment::Moment;
use crate::profile::AsynchronousBy;
use crate::refusal::Refusal;
use crate::say::Say;
use crate::state::State;
use crate::state::bed::{Bed, DueNow, Standing, Wire};
use crate::state::screen::Screen;

type Values = BTreeMap<String, String>;

/// What is typed beyond this is cut off: it is longer than any code, and is answered so.
const TYPED_MOST: usize = 4_096;

/// Known: what the session found in the key's file.
pub fn key_found(state: &State, tablet: &Tablet) -> Vec<What> {
    let known = state.own_key.is_there() && state.own_key.tablet.as_ref() == Some(tablet);
    if known { Vec::new() } else { vec![What::KeyKnown(tablet.clone())] }
}

/// At the first start a key is made; in the place of one that was there only by a person's act.
pub fn key_not_found(state: &State, lost: KeyLost) -> Vec<What> {
    let own = &state.own_key;
    if own.lost == Some(lost) || (own.wanted && lost == KeyLost::Gone) {
        return Vec::new();
    }
    let first = own.tablet.is_none() && own.lost.is_none() && lost == KeyLost::Gone;
    vec![if first { What::KeyWanted } else { What::KeyLost(lost) }]
}

pub fn make_key(state: &State) -> Result<Vec<What>, Refusal> {
    let may = state.own_key.lost.is_some() && !state.own_key.wanted;
    if may { Ok(vec![What::KeyWanted]) } else { Err(Refusal::NotOpen) }
}

pub fn code_made(state: &State, bed: u32, wire: u32, code: &MadeCode) -> Result<Vec<What>, Refusal> {
    let last = state.wire(bed, wire).and_then(|wire| wire.records.last());
    if !state.code_wanted || last.is_none_or(|last| last.id != code.check) {
        return Err(Refusal::NotOpen);
    }
    Ok(vec![What::CodeMade { bed, wire, code: Box::new(code.clone()) }])
}

/// Field `code`.
pub fn load_typed(state: &State, bed: Option<u32>, values: &Values) -> Result<Vec<What>, Refusal> {
    let typed = values.get("code").map(String::as_str).unwrap_or_default();
    if typed.trim().is_empty() {
        return Err(Refusal::said(Say::NothingTyped { field: Box::new(Say::CodeField) }));
    }
    Ok(begun(state, bed, Source::Typed(kept(typed)?)))
}

/// What does not even begin like a code, in whatever letters, is not recorded: it may be anything, a name among it.
fn kept(text: &str) -> Result<String, Refusal> {
    let start: String = text.trim_start().chars().take(5).collect::<String>().to_uppercase();
    if !start.starts_with("HOLDF") && !start.starts_with("HFC") && !is_mangled(text) {
        return Err(Refusal::said(Say::NotLoadedNotACode));
    }
    Ok(text.chars().take(TYPED_MOST).collect())
}

pub fn picture(state: &State, bytes: u32) -> Result<Vec<What>, Refusal> {
    let bed = asking(state)?;
    if bytes >= FILE_MOST {
        return Err(Refusal::said(Say::NotLoadedPictureTooLong));
    }
    Ok(begun(state, bed, Source::Picture(bytes)))
}

pub fn seen(state: &State, text: &str) -> Result<Vec<What>, Refusal> {
    let bed = asking(state)?;
    Ok(begun(state, bed, Source::Seen(kept(text)?)))
}

/// Only the card that asks for a code takes one.
fn asking(state: &State) -> Result<Option<u32>, Refusal> {
    if let Screen::Load { bed } = state.screen { Ok(bed) } else { Err(Refusal::NotOpen) }
}

fn begun(state: &State, bed: Option<u32>, source: Source) -> Vec<What> {
    let load = state.next_load;
    vec![What::LoadBegun { load, bed, source }, What::Went(Screen::Reading)]
}

/// Left meanwhile: nothing of it is kept.
pub fn read(
    state: &State,
    load: u32,
    outcome: &Result<Vec<Arrived>, NotLoaded>,
) -> Result<Vec<What>, Refusal> {
    let loading = state.loading.as_ref().filter(|loading| loading.id == load && loading.outcome.is_none());
    let loading = loading.ok_or(Refusal::NotOpen)?;
    let next = match outcome {
        Ok(arrived) if arrived.len() == 1 => Screen::Arrived { at: 0 },
        Ok(_) => Screen::ArrivedList,
        Err(_) => Screen::Load { bed: loading.bed },
    };
    Ok(vec![What::LoadEnded { load, outcome: outcome.clone() }, What::Went(next)])
}

pub fn arrived(state: &State, at: u32) -> Option<&Arrived> {
    state.loading.as_ref()?.arrived().get(at as usize)
}

/// Fields `label` (where no bed is known), `patient`, `generator`. A bed's label alone never joins two histories:
/// somebody says that it is the same patient.
pub fn take_in(state: &State, at: u32, values: &Values, now: Moment) -> Result<Vec<What>, Refusal> {
    let arrived = arrived(state, at).ok_or(Refusal::NotOpen)?;
    let known = state.loading.as_ref().and_then(|loading| loading.bed);
    let generator = picked_for(arrived.summary.wire.chamber, state, values)?;
    let bed = match known {
        Some(bed) => Some(state.bed(bed).ok_or(Refusal::NotOpen)?),
        None => {
            let label = typed::line(values, "label", Say::BedLabelField, LABEL_MOST)?;
            state.beds.iter().find(|bed| bed.label == label)
        }
    };
    let (bed, mut whats, there) = match bed {
        None => new_bed(state, values, now)?,
        Some(bed) => into_bed(bed, values, now)?,
    };
    let wire = on_wire(there, arrived, bed, &generator, &mut whats)?;
    let found = there.and_then(|bed| bed.wires.iter().find(|known| known.id == wire));
    whats.push(What::HandoverTaken {
        bed,
        wire,
        arrival: Box::new(arrival(state, found, arrived, now)),
        checks: fresh(state, found, arrived),
        due: DueNow::Arrived,
    });
    whats.push(What::Went(Screen::Compare { bed, wire }));
    Ok(whats)
}

type Into<'s> = (u32, Vec<What>, Option<&'s Bed>);

fn new_bed<'s>(state: &'s State, values: &Values, now: Moment) -> Result<Into<'s>, Refusal> {
    let label = typed::line(values, "label", Say::BedLabelField, LABEL_MOST)?;
    if state.beds.len() >= BEDS_MOST {
        return Err(too_many(BEDS_MOST, |most| Say::TooManyBeds { most }));
    }
    let bed = state.next_bed;
    Ok((bed, vec![What::BedAdded { bed, label, patient: Uuid::from_bytes(now.fresh) }], None))
}

/// The same patient keeps wires and history; a new one starts empty.
fn into_bed<'s>(bed: &'s Bed, values: &Values, now: Moment) -> Result<Into<'s>, Refusal> {
    bed.wires.iter().try_for_each(wire_settled)?;
    if bed.wires.is_empty() {
        return Ok((bed.id, Vec::new(), Some(bed)));
    }
    match values.get("patient").map(String::as_str) {
        Some("same") => Ok((bed.id, Vec::new(), Some(bed))),
        Some("new") => {
            let patient = Uuid::from_bytes(now.fresh);
            Ok((bed.id, vec![What::PatientArrived { bed: bed.id, patient }], None))
        }
        Some(_) | None => Err(Refusal::said(Say::SamePatientFirst { bed: crate::say::isolated(&bed.label) })),
    }
}

/// The one wire of this chamber, kind and polarity; else a new one. Plugged where the person says.
fn on_wire(
    there: Option<&Bed>,
    arrived: &Arrived,
    bed: u32,
    generator: &str,
    whats: &mut Vec<What>,
) -> Result<u32, Refusal> {
    let facts = arrived.summary.wire;
    let is_like = |wire: &&Wire| {
        (wire.chamber, wire.kind, wire.polarity) == (facts.chamber, facts.kind, facts.polarity)
    };
    let like: Vec<&Wire> = there.iter().flat_map(|bed| bed.wires.iter().filter(is_like)).collect();
    if let [known] = like.as_slice() {
        let generator = generator.to_owned();
        if known.generator != generator {
            whats.push(What::WirePlugged { bed, wire: known.id, generator, due: Some(DueNow::Generator) });
        }
        return Ok(known.id);
    }
    if there.is_some_and(|bed| bed.wires.len() >= WIRES_MOST) {
        return Err(too_many(WIRES_MOST, |most| Say::TooManyWires { most }));
    }
    let wire = there.map_or(1, |bed| bed.next_wire);
    whats.push(What::WireAdded {
        bed,
        wire,
        chamber: facts.chamber,
        kind: facts.kind,
        polarity: facts.polarity,
        generator: generator.to_owned(),
    });
    Ok(wire)
}

fn arrival(state: &State, wire: Option<&Wire>, arrived: &Arrived, now: Moment) -> Arrival {
    Arrival {
        tablet: arrived.tablet.clone(),
        name: arrived.name.clone(),
        place: arrived.summary.place,
        newest: arrived.summary.newest.clone(),
        next: arrived.summary.next,
        at: now,
        first: first_came(state, wire, arrived, now),
        compared: None,
    }
}

/// Fields `output`, `rate`, `mv`: as they stand on the generator in front of the person.
pub fn compare_dials(
    state: &State,
    bed: u32,
    wire: u32,
    values: &Values,
    now: Moment,
) -> Result<Vec<What>, Refusal> {
    let this = state.wire(bed, wire).filter(|wire| may_compare(wire)).ok_or(Refusal::NotOpen)?;
    let profile = state.generator(&this.generator).ok_or(Refusal::NotOpen)?;
    let check = &standing(this).ok_or(Refusal::NotOpen)?.newest;
    let dials = typed::dials(profile, values)?;
    if dials.mv == ASYNCHRONOUS && profile.asynchronous() == AsynchronousBy::None {
        return Err(Refusal::NotOpen);
    }
    let compared = compare(profile, &state.rules, dials, check, now);
    let elsewhere = !this.records.is_empty() && last_known(profile, this) != Some(dials);
    let elsewhere = elsewhere.then(|| Standing { dials, printed: compared.printed.clone(), at: now });
    let done = What::DialsCompared { bed, wire, compared: Box::new(compared), standing: elsewhere };
    Ok(vec![done, What::Went(Screen::Compared { bed, wire })])
}

/// Something was handed over for it, no check has taken its place, and no dial is being turned.
pub fn may_compare(wire: &Wire) -> bool {
    standing(wire).is_some() && wire.check.is_none()
}

/// Field `name`.
pub fn name_tablet(state: &State, at: u32, values: &Values) -> Result<Vec<What>, Refusal> {
    let arrived = arrived(state, at).ok_or(Refusal::NotOpen)?;
    let name = typed::line(values, "name", Say::TabletNameField, NAME_MOST)?;
    let tablet = arrived.tablet.clone();
    if state.name_of(&tablet).is_some() || state.own_key.tablet.as_ref() == Some(&tablet) {
        return Err(Refusal::NotOpen);
    }
    if state.known_tablets.iter().any(|known| known.name == name) {
        return Err(Refusal::said(Say::TabletNameTaken { name }));
    }
    if state.known_tablets.len() >= KNOWN_MOST {
        return Err(too_many(KNOWN_MOST, |most| Say::TooManyTablets { most }));
    }
    Ok(vec![What::TabletNamed { tablet, name }, What::Went(Screen::Arrived { at })])
}

pub fn forget_tablet(state: &State, at: u32) -> Result<Vec<What>, Refusal> {
    let known = state.known_tablets.get(at as usize).ok_or(Refusal::NotOpen)?;
    Ok(vec![What::TabletForgotten { tablet: known.tablet.clone() }, What::Went(Screen::Tablets)])
}
