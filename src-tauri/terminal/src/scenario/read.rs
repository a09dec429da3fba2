//! From a file to a scenario that can be rehearsed.

use std::path::Path;

use domain::profile::{Profile, shipped};
use domain::rules::Rules;
use serde_json::{Map, Value};

use practice::{Beside, HeartFile};

use super::{Act, NamedOrInline, Scenario, ScenarioFault};
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
    let mut scenario: Scenario =
        serde_json::from_str(text).map_err(|error| ScenarioFault::NotAScenario { why: error.to_string() })?;
    if !scenario.invented {
        return Err(ScenarioFault::NotInvented);
    }
    load(&mut scenario, beside)?;
    let profile = generator(&scenario.generator)?;
    let rules = rules(&scenario.rules, scenario.rules_changed.as_ref())?;
    Ok(Ready { scenario, profile, rules })
}

/// Reads the recordings of all its hearts.
fn load(scenario: &mut Scenario, beside: Beside<'_>) -> Result<(), ScenarioFault> {
    let read = |place: String, heart: &mut HeartFile| {
        heart.load(beside).map(|_| ()).map_err(|fault| ScenarioFault::Heart(format!("{place}.{fault}")))
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
    let fault = |fault: domain::profile::ProfileFault| ScenarioFault::Generator(fault.to_string());
    let named = match named {
        NamedOrInline::Inline(file) => return Profile::from_json(&json(file)).map_err(fault),
        NamedOrInline::Named(named) => named,
    };
    let known = shipped().map_err(|(file, fault)| ScenarioFault::Generator(format!("{file}: {fault}")))?;
    let names = known.iter().map(|profile| profile.id.clone()).collect();
    let found = known.into_iter().find(|profile| profile.id == *named);
    found.ok_or_else(|| ScenarioFault::NoSuchGenerator { named: named.clone(), known: names })
}

fn rules(named: &NamedOrInline, changed: Option<&Map<String, Value>>) -> Result<Rules, ScenarioFault> {
    let file = match named {
        NamedOrInline::Inline(file) => file.clone(),
        NamedOrInline::Named(named) if named == "example" => object(&Rules::example().to_json())?,
        NamedOrInline::Named(named) => return Err(ScenarioFault::NoSuchRules { named: named.clone() }),
    };
    let mut file = file;
    file.extend(changed.cloned().unwrap_or_default());
    Rules::from_json(&json(&file)).map_err(|fault| ScenarioFault::Rules(fault.to_string()))
}

fn object(text: &str) -> Result<Map<String, Value>, ScenarioFault> {
    serde_json::from_str(text).map_err(|error| ScenarioFault::Rules(error.to_string()))
}

fn json(file: &Map<String, Value>) -> String {
    Value::Object(file.clone()).to_string()
}
