//! A scenario: one invented patient, one generator, one unit's rules, and what a check should find.
//! `scenarios/README.md` explains it; `scenarios/schema.json` is made from these types.

mod expect;
mod fault;
mod names;
mod read;
mod script;
#[cfg(test)]
mod tests;

use std::fmt;

use domain::document::NAME_OR_GROUP;
use serde::de::value::MapAccessDeserializer;
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};

pub use expect::Expect;
pub use fault::ScenarioFault;
pub use practice::{ChamberName, DialName, DialsFile, HeartFile, LoadedHeart};
pub use read::{Ready, read, read_file};
pub use script::{Act, On, ReportFile, Scripted, TurnFile};

/// One pacing check on one wire, self-contained.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Scenario {
    /// Where the schema of this file lies.
    #[serde(rename = "$schema", default, skip_serializing_if = "Option::is_none")]
    pub schema: Option<String>,
    /// Always true: no patient, unit or generator here is a real one.
    pub invented: bool,
    pub title: String,
    /// What happens and what it teaches, for whoever reads the file.
    pub story: String,
    pub chamber: ChamberName,
    /// A generator by its id, or a generator file written out here.
    pub generator: NamedOrInline,
    /// "example", or a rule file written out here.
    pub rules: NamedOrInline,
    /// Single rules that differ from `rules`, under their names in a rule file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rules_changed: Option<serde_json::Map<String, serde_json::Value>>,
    /// Where the dials stand at the start, as printed.
    pub found: DialsFile,
    pub heart: HeartFile,
    /// Checks done before on this wire, oldest first; each is rehearsed too.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub history: Vec<Earlier>,
    /// What happens, or is done, otherwise than the heart and the cards lead to.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub script: Vec<Scripted>,
    /// Draws the heart's small irregularities.
    #[serde(default)]
    pub seed: u64,
    /// Worked out by hand from the heart and the rules.
    pub expect: Expect,
}

#[derive(Clone, Debug, Serialize)]
#[serde(untagged)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub enum NamedOrInline {
    Named(String),
    Inline(serde_json::Map<String, serde_json::Value>),
}

impl<'de> Deserialize<'de> for NamedOrInline {
    fn deserialize<D: Deserializer<'de>>(file: D) -> Result<Self, D::Error> {
        file.deserialize_any(Either)
    }
}

struct Either;

impl<'de> Visitor<'de> for Either {
    type Value = NamedOrInline;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(NAME_OR_GROUP)
    }

    fn visit_str<E>(self, named: &str) -> Result<NamedOrInline, E> {
        Ok(NamedOrInline::Named(named.to_owned()))
    }

    fn visit_map<A: MapAccess<'de>>(self, file: A) -> Result<NamedOrInline, A::Error> {
        Deserialize::deserialize(MapAccessDeserializer::new(file)).map(NamedOrInline::Inline)
    }
}

/// As somebody at the bedside reads the dials.
pub fn reading(dials: &DialsFile) -> observer::Reading {
    let mv = (dials.mv != ASYNCHRONOUS).then(|| dials.mv.clone());
    observer::Reading { output: dials.output.clone(), rate: dials.rate.clone(), mv }
}

/// As a file writes it.
pub fn as_written(reading: &observer::Reading) -> DialsFile {
    let mv = reading.mv.clone().unwrap_or_else(|| ASYNCHRONOUS.to_owned());
    DialsFile { output: reading.output.clone(), rate: reading.rate.clone(), mv }
}

const ASYNCHRONOUS: &str = "asynchronous";

/// A check done before.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Earlier {
    /// How long before the present check it ended.
    pub hours_before: u32,
    /// What was different in the heart then.
    #[serde(default)]
    pub heart: HeartFile,
    /// Where the dials stood then.
    pub found: DialsFile,
}
