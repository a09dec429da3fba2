use serde::{Deserialize, Serialize};

use super::DialsFile;
use crate::rehearsal::Outcome;

/// What the check should find and leave, worked out by hand.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(test, derive(schemars::JsonSchema))]
pub struct Expect {
    pub outcome: Outcome,
    /// "72", "61 to 99", "not seen down to 50", "not looked for".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own: Option<String>,
    /// "8.0 mV", "at least 15.0 mV", "seen at 2.0 mV", "not seen at any number", "not tested: own-too-fast".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sensing: Option<String>,
    /// "1.8 mA", "at most 0.2 mA", "1.5 to 1.6 mA", "not tested: no-own-beats".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub capture: Option<String>,
    /// The last output that held going down, as printed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub held_going_down: Option<String>,
    /// Where the dials stand at the end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stays: Option<DialsFile>,
    /// The names of the flags, most urgent first.
    pub flags: Vec<String>,
    /// Every turn of a dial in order, as "RATE 70".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turns: Option<Vec<String>>,
    /// The lines of the first restore card, as "OUTPUT 6.0".
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub restore: Option<Vec<String>>,
    /// Why these values: the arithmetic, with the rule or the source.
    pub because: String,
}
