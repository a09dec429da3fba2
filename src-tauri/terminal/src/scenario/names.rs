//! Names of cards, sentences and flags in a scenario: one that there is none of would wait, or be missed, for ever.

use domain::document::{Fault, Why};
use domain::say::SENTENCES;

use super::{On, Scenario, ScenarioFault};
use crate::rehearsal::kebab;

const STAGE: &str = "Stage";
const FLAG: &str = "Flag";
/// What another tablet's check is told by.
const HANDED: &str = "handed-";
/// Flags that other cards say too.
const FLAGS_BESIDE: [&str; 2] = ["clock-set-on", "clock-set-back"];

/// # Errors
/// The first name that nothing bears.
pub(super) fn known(scenario: &Scenario) -> Result<(), ScenarioFault> {
    for (at, scripted) in scenario.script.iter().enumerate() {
        let On { stage, asks, says, .. } = &scripted.on;
        let place = |field: &str| format!("script[{at}].on.{field}");
        stage.iter().try_for_each(|stage| one_of(place("stage"), stage, begun(STAGE)))?;
        asks.iter().try_for_each(|asks| sentence(place("asks"), asks))?;
        says.iter().try_for_each(|says| sentence(place("says"), says))?;
    }
    for (at, flag) in scenario.expect.flags.iter().enumerate() {
        let of_checks = begun(FLAG).into_iter().filter(|flag| !flag.starts_with(HANDED));
        let allowed = of_checks.chain(FLAGS_BESIDE.map(str::to_owned)).collect();
        one_of(format!("expect.flags[{at}]"), flag, allowed)?;
    }
    Ok(())
}

/// The sentences whose names begin so, without that.
fn begun(with: &str) -> Vec<String> {
    SENTENCES.iter().filter_map(|(name, _)| name.strip_prefix(with)).map(kebab).collect()
}

fn one_of(place: String, found: &str, allowed: Vec<String>) -> Result<(), ScenarioFault> {
    if allowed.iter().any(|name| name == found) {
        return Ok(());
    }
    let why = Box::new(Why::NotOneOf { found: found.to_owned(), allowed });
    Err(ScenarioFault::File(Fault { place, why }))
}

fn sentence(place: String, named: &str) -> Result<(), ScenarioFault> {
    let known = SENTENCES.iter().any(|(name, _)| kebab(name) == named);
    if known { Ok(()) } else { Err(ScenarioFault::NoSuchSentence { place, named: named.to_owned() }) }
}
