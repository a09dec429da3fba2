//! From what a scanner, a camera or a picture gave to what the receiver is shown.

use std::collections::BTreeSet;

use domain::State;
use domain::handover::arrived::{ARRIVED_MOST, Arrived, NotLoaded};
use domain::handover::history;
use domain::handover::mangled::is_mangled;
use domain::handover::tablet::Tablet;
use seal::{KnownKeys, PublicKey};

use crate::load::{Identity, Loaded, Outcome, Refused, Tablet as Writer, load};
use crate::making::tablet_of;
use crate::typed::as_written;
use crate::{Minute, Origin};

/// What this tablet knows while it reads: paired tablets and the checks that are here.
#[derive(Clone, Debug, Default)]
pub struct Here {
    known: KnownKeys,
    seen: BTreeSet<Identity>,
}

impl Here {
    pub fn of(state: &State) -> Here {
        let mut here = Here::default();
        for one in &state.known_tablets {
            if let Some(key) = key_of(&one.tablet) {
                // The domain lets no name and no key in twice.
                let _ = here.known.add(key, &one.name);
            }
        }
        let wires = state.beds.iter().flat_map(|bed| &bed.wires);
        let checks = wires.flat_map(|wire| history::known(state, wire));
        here.seen = checks.filter_map(|one| identity(&one)).collect();
        here
    }
}

fn key_of(tablet: &Tablet) -> Option<PublicKey> {
    PublicKey::from_bytes(&tablet.key()?)
}

fn identity(one: &history::Identity) -> Option<Identity> {
    Some(Identity { key: key_of(&one.tablet)?, check: one.check, ended: one.ended })
}

/// A text that was typed, pasted or seen.
///
/// # Errors
/// Why nothing of it is taken.
pub fn from_text(typed: &str, here: &Here, now: Minute) -> Result<Vec<Arrived>, NotLoaded> {
    let text = as_written(typed);
    one(text.as_bytes(), here, now).map(|arrived| vec![arrived]).map_err(|why| {
        let unreadable = matches!(why, NotLoaded::Damaged | NotLoaded::NotACode);
        if unreadable && is_mangled(&text) { NotLoaded::Mangled } else { why }
    })
}

/// The codes of one picture, each once; where none can be taken, why the first cannot.
///
/// # Errors
/// Why nothing of it is taken.
pub fn from_codes(codes: &[Vec<u8>], here: &Here, now: Minute) -> Result<Vec<Arrived>, NotLoaded> {
    let mut taken: Vec<Arrived> = Vec::new();
    let mut first = None;
    for code in codes {
        match one(code, here, now) {
            Ok(arrived) => keep(&mut taken, arrived),
            Err(why) => first = first.or(Some(why)),
        }
    }
    taken.truncate(ARRIVED_MOST);
    if taken.is_empty() { Err(first.unwrap_or(NotLoaded::NoCodeInPicture)) } else { Ok(taken) }
}

/// Both faces of one code say the same; the copy has the checks before.
fn keep(taken: &mut Vec<Arrived>, arrived: Arrived) {
    let same =
        |one: &Arrived| one.tablet == arrived.tablet && one.summary.newest.id == arrived.summary.newest.id;
    match taken.iter_mut().find(|one| same(one)) {
        None => taken.push(arrived),
        Some(known) if known.summary.earlier.len() < arrived.summary.earlier.len() => *known = arrived,
        Some(_) => {}
    }
}

fn one(code: &[u8], here: &Here, now: Minute) -> Result<Arrived, NotLoaded> {
    match load(code, Origin::Care, &here.known, &here.seen, now) {
        Outcome::Read(loaded) => Ok(arrived(*loaded)),
        Outcome::Refused(why) => Err(not_loaded(why)),
    }
}

fn arrived(loaded: Loaded) -> Arrived {
    let name = match loaded.tablet {
        Writer::Known { name } => Some(name),
        Writer::Unknown => None,
    };
    Arrived {
        tablet: tablet_of(&loaded.key),
        summary: loaded.summary,
        form: loaded.form,
        name,
        remarks: loaded.remarks,
    }
}

fn not_loaded(why: Refused) -> NotLoaded {
    match why {
        Refused::NotACode => NotLoaded::NotACode,
        Refused::TooLong => NotLoaded::TooLong,
        Refused::Damaged => NotLoaded::Damaged,
        Refused::Altered => NotLoaded::Altered,
        Refused::NewerVersion => NotLoaded::NewerVersion,
        Refused::Practice => NotLoaded::Practice,
        Refused::Care => NotLoaded::Care,
    }
}
