//! What happens by itself in an exercise, and when.

use serde::{Deserialize, Serialize};

use super::{DialName, HeartFile};

/// Once in a run.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct HappeningFile {
    pub when: WhenFile,
    pub what: WhatFile,
}

/// What is named must all be so; then `after_s` seconds pass.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct WhenFile {
    /// Seconds from the beginning, or later.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_s: Option<u32>,
    /// Each dial named stands so.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub dials: Vec<StandsFile>,
    /// Only once the happening written before this one has happened.
    #[serde(default)]
    pub after_the_last: bool,
    #[serde(default)]
    pub after_s: u32,
}

/// A dial that stands `at_most`, `at_least`, or between both, as printed.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct StandsFile {
    pub dial: DialName,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_most: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_least: Option<String>,
}

#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum WhatFile {
    /// The heart changes in the fields given.
    Heart(Box<HeartFile>),
    /// An external shock: the heart as it is so many minutes after one.
    Shock { minutes: u32 },
    /// The generator is switched off, or on again.
    Power(PowerName),
    /// Somebody else turns a dial.
    Turn { dial: DialName, to: String },
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum PowerName {
    Good,
    BatteryLow,
    Off,
}
