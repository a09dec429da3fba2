//! From a file to a scenario that can be rehearsed.

use std::path::Path;

use domain::profile::{Profile, shipped};
use domain::rules::Rules;
use serde_json::{Map, Value};

use practice::{Beside, DialsFile, Fault, HeartFile, position};

use super::{Act, NamedOrInline, Scenario, ScenarioFault, names};
use crate::beside::{self, BesideFault};

/// A scenario with its generator and rules read.
#[derive(Clone, Debug)]
pub struct Ready {
    pub scenario: Scenario,
    pub profile: Profile,
    pub rules: Rules,
}

/// # Errors
/// The file cannot be read, or is no scenario.
pub fn read_file(path: &Path) -> Result<Ready, ScenarioFault> {
    let text = std::fs::read_to_string(path).map_err(|error| ScenarioFault::Unreadable {
        file: path.display().to_string(),
        why: error.to_string(),
    })?;
    read_beside(&text, &|name| beside::read(path, name).map_err(|fault| fault.to_string()))
}

/// # Errors
/// The first thing that keeps the text from being rehearsed.
pub fn read(text: &str) -> Result<Ready, ScenarioFault> {
    read_beside(text, &|_| Err(BesideFault::NoFolder.to_string()))
}

fn read_beside(text: &str, beside: Beside<'_>) -> Result<Ready, ScenarioFault> {
    let mut scenario: Scenario = domain::document::from_json(text).map_err(ScenarioFault::File)?;
    if !scenario.invented {
        return Err(ScenarioFault::NotInvented);
    }
    load(&mut scenario, beside)?;
    let profile = generator(&scenario.generator)?;
    let rules = rules(&scenario.rules, scenario.rules_changed.as_ref())?;
    if !profile.is_for(scenario.chamber.of_wire()) {
        return Err(ScenarioFault::NotForWire);
    }
    names::known(&scenario)?;
    stand(&scenario, &profile).map_err(ScenarioFault::Practice)?;
    beat(&scenario, &profile).map_err(ScenarioFault::Practice)?;
    Ok(Ready { scenario, profile, rules })
}

/// Every figure of a dial is a position of this generator.
fn stand(scenario: &Scenario, profile: &Profile) -> Result<(), Fault> {
    let dials = |place: String, dials: &DialsFile| {
        dials.positions(profile).map(|_| ()).map_err(|fault| fault.within(&place))
    };
    dials("found".to_owned(), &scenario.found)?;
    for (at, earlier) in scenario.history.iter().enumerate() {
        dials(format!("history[{at}].found"), &earlier.found)?;
    }
    for (at, scripted) in scenario.script.iter().enumerate() {
        if let Act::Turn(turn) = &scripted.act {
            let to = position(profile, turn.dial.dial(), &turn.to);
            to.map_err(|fault| fault.within(&format!("script[{at}].do.turn")))?;
        }
    }
    Ok(())
}

/// Every heart that is there, or will be, can beat.
fn beat(scenario: &Scenario, profile: &Profile) -> Result<(), Fault> {
    let mut heart = scenario.heart.loaded()?;
    heart.can_beat(scenario.chamber, profile, "heart")?;
    for (at, earlier) in scenario.history.iter().enumerate() {
        let then = heart.changed_by(&earlier.heart.loaded()?);
        then.can_beat(scenario.chamber, profile, &format!("history[{at}].heart"))?;
    }
    for (at, scripted) in scenario.script.iter().enumerate() {
        if let Act::Heart(over) = &scripted.act {
            heart = heart.changed_by(&over.loaded()?);
            heart.can_beat(scenario.chamber, profile, &format!("script[{at}].do.heart"))?;
        }
    }
    Ok(())
}

/// Reads the recordings of all its hearts, and their figures.
fn load(scenario: &mut Scenario, beside: Beside<'_>) -> Result<(), ScenarioFault> {
    let read = |place: String, heart: &mut HeartFile| {
        let read = heart.load(beside).and_then(|_| heart.check());
        read.map_err(|fault| ScenarioFault::Practice(fault.within(&place)))
    };
    read("heart".to_owned(), &mut scenario.heart)?;
    for (at, earlier) in scenario.history.iter_mut().enumerate() {
        read(format!("history[{at}].heart"), &mut earlier.heart)?;
    }
    for (at, scripted) in scenario.script.iter_mut().enumerate() {
        if let Act::Heart(heart) = &mut scripted.act {
            read(format!("script[{at}].do.heart"), heart)?;
        }
    }
    Ok(())
}

fn generator(named: &NamedOrInline) -> Result<Profile, ScenarioFault> {
    let named = match named {
        NamedOrInline::Inline(file) => {
            return Profile::from_json(&json(file)).map_err(ScenarioFault::Generator);
        }
        NamedOrInline::Named(named) => named,
    };
    let known = shipped().map_err(|(file, fault)| ScenarioFault::Shipped { file: file.to_owned(), fault })?;
    let names = known.iter().map(|profile| profile.id.clone()).collect();
    let found = known.into_iter().find(|profile| profile.id == *named);
    found.ok_or_else(|| ScenarioFault::NoSuchGenerator { named: named.clone(), known: names })
}

fn rules(named: &NamedOrInline, changed: Option<&Map<String, Value>>) -> Result<Rules, ScenarioFault> {
    let file = match named {
        NamedOrInline::Inline(file) => file.clone(),
        NamedOrInline::Named(named) if named == "example" => {
            domain::document::from_json(&Rules::example().to_json())
                .map_err(|fault| ScenarioFault::Rules { place: "rules", fault })?
        }
        NamedOrInline::Named(named) => return Err(ScenarioFault::NoSuchRules { named: named.clone() }),
    };
    let mut file = file;
    file.extend(changed.cloned().unwrap_or_default());
    Rules::from_json(&json(&file)).map_err(|fault| {
        let rule = fault.place.split(['.', '[']).next().unwrap_or_default();
        let is_changed = changed.is_some_and(|changed| changed.contains_key(rule));
        ScenarioFault::Rules { place: if is_changed { "rules_changed" } else { "rules" }, fault }
    })
}

fn json(file: &Map<String, Value>) -> String {
    Value::Object(file.clone()).to_string()
}
