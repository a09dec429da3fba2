//! A unit's rules and generators: handed in, looked at, let into force by name, or put aside.

use std::collections::BTreeMap;

use super::check::NAME_MOST;
use super::typed;
use crate::document::{Fault, LONGEST, hash};
use crate::event::What;
use crate::library::{GENERATORS_MOST, HandedIn, LetIn, NotText, Offered, Paper};
use crate::moment::Moment;
use crate::profile::Profile;
use crate::refusal::Refusal;
use crate::rules::Rules;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

/// Only the card that asks for a file takes one. A file with a fault changes nothing.
pub fn handed_in(state: &State, handed: &HandedIn) -> Result<Vec<What>, Refusal> {
    let text = |screen: Screen| match &handed.text {
        _ if state.screen != screen => Err(Refusal::NotOpen),
        Ok(text) => Ok(text.as_str()),
        Err(why) => Err(Refusal::said(not_text(*why))),
    };
    match handed.paper {
        Paper::Rules => offer_rules(state, text(Screen::NewRules)?),
        Paper::Generator => offer_generator(state, text(Screen::NewGenerator)?),
        // Looked at by whoever can verify a signature, and handed on as `Ask::FileRead`.
        Paper::SignedOff => Err(Refusal::NotOpen),
    }
}

fn not_text(why: NotText) -> Say {
    match why {
        NotText::TooLong => Say::FaultTooLong { most: (LONGEST / 1024).to_string() },
        NotText::NotUtf8 => Say::FaultNotText,
    }
}

fn faulty(fault: Fault) -> Refusal {
    Refusal::said(fault.say())
}

fn offer_rules(state: &State, text: &str) -> Result<Vec<What>, Refusal> {
    let rules = Rules::from_json(text).map_err(faulty)?;
    let hash = hash(text);
    if rules.example {
        return Err(Refusal::said(Say::RulesFileIsExample));
    }
    if hash == state.rules_hash() {
        return Err(Refusal::said(Say::RulesInForceAlready));
    }
    if rules.id == state.rules.id {
        return Err(Refusal::said(Say::RulesSameName { name: rules.id }));
    }
    let offered = Offered::Rules { rules: Box::new(rules), hash };
    Ok(vec![What::Offered(offered), What::Went(Screen::OfferedRules)])
}

/// A known id is never used again: records of old checks count that generator's positions.
fn offer_generator(state: &State, text: &str) -> Result<Vec<What>, Refusal> {
    let profile = Profile::from_json(text).map_err(faulty)?;
    if state.generators.iter().any(|known| known.id == profile.id || known.name == profile.name) {
        return Err(Refusal::said(Say::GeneratorKnown { name: profile.name }));
    }
    if state.generators.len() >= GENERATORS_MOST {
        let most = u32::try_from(GENERATORS_MOST).unwrap_or(u32::MAX);
        return Err(Refusal::said(Say::TooManyGenerators { most }));
    }
    let offered = Offered::Generator { profile: Box::new(profile), hash: hash(text) };
    Ok(vec![What::Offered(offered), What::Went(Screen::OfferedGenerator)])
}

/// By a typed name and role. Open checks go on under the rules they began with.
pub fn approve(state: &State, values: &BTreeMap<String, String>, now: Moment) -> Result<Vec<What>, Refusal> {
    let offered = state.offered.clone().filter(|_| state.screen == Screen::Approve);
    let offered = offered.ok_or(Refusal::NotOpen)?;
    let by = typed::line(values, "name", Say::ApproverField, NAME_MOST)?;
    let role = typed::line(values, "role", Say::RoleField, NAME_MOST)?;
    let let_in = |hash| LetIn { by, role, hash, at: now };
    Ok(match offered {
        Offered::Rules { rules, hash } => {
            vec![What::RulesApproved { rules, let_in: let_in(hash) }, What::Went(Screen::Rules)]
        }
        Offered::Generator { profile, hash } => {
            let at = u32::try_from(state.generators.len()).unwrap_or(u32::MAX);
            let approved = What::GeneratorApproved { profile, let_in: let_in(hash) };
            vec![approved, What::Went(Screen::Generator { at })]
        }
    })
}

pub fn put_aside(state: &State) -> Result<Vec<What>, Refusal> {
    let back = match state.offered {
        Some(Offered::Rules { .. }) => Screen::Rules,
        Some(Offered::Generator { .. }) => Screen::Generators,
        None => return Err(Refusal::NotOpen),
    };
    Ok(vec![What::OfferPutAside, What::Went(back)])
}
