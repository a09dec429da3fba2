use serde::{Deserialize, Serialize};

use domain::record::Record;
use domain::say::Say;

use super::{DialsFile, as_written};
use crate::rehearsal::{Ending, Outcome, summary};
use crate::spoken::spoken;

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

impl Expect {
    /// Every value that came out otherwise, as a sentence; empty where all came as expected.
    pub fn differences(&self, ending: &Ending) -> Vec<String> {
        let record = ending.record.as_ref();
        let found = |say: fn(&Record) -> String| record.map_or_else(|| spoken(&Say::FoundNoResult), say);
        let held = |record: &Record| {
            record.held_going_down().map_or_else(|| spoken(&Say::FoundNothing), str::to_owned)
        };
        let list = |lines: &[String]| lines.join(", ");
        let stays = as_written(&ending.stays);
        let flags = record.map(summary::flags).unwrap_or_default();
        let restore = ending.restore.clone().unwrap_or_default();
        [
            different("outcome", Some(&format!("{:?}", self.outcome)), &format!("{:?}", ending.outcome)),
            different("own", self.own.as_ref(), &found(summary::own)),
            different("sensing", self.sensing.as_ref(), &found(summary::sensing)),
            different("capture", self.capture.as_ref(), &found(summary::capture)),
            different("held_going_down", self.held_going_down.as_ref(), &found(held)),
            different("stays", self.stays.as_ref().map(DialsFile::line).as_ref(), &stays.line()),
            different("flags", Some(&list(&self.flags)), &list(&flags)),
            different("turns", self.turns.as_ref().map(|turns| list(turns)).as_ref(), &list(&ending.turns)),
            ending.never.map(|at| spoken(&Say::ScriptNever { place: format!("script[{at}]") })),
            different("restore", self.restore.as_ref().map(|lines| list(lines)).as_ref(), &list(&restore)),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

fn different(what: &str, expected: Option<&String>, found: &str) -> Option<String> {
    let expected = expected.filter(|expected| *expected != found)?;
    let (what, expected, found) = (what.to_owned(), expected.clone(), found.to_owned());
    Some(spoken(&Say::CameOtherwise { what, expected, found }))
}
