use std::fmt;

use domain::document;
use domain::profile::ProfileFault;
use domain::say::Say;

use crate::spoken::spoken;

/// Why a scenario cannot be rehearsed: what is wrong, where, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ScenarioFault {
    Unreadable {
        file: String,
        why: String,
    },
    /// The text is no scenario.
    File(document::Fault),
    NotInvented,
    NoSuchGenerator {
        named: String,
        known: Vec<String>,
    },
    /// Written out in the scenario.
    Generator(ProfileFault),
    /// One that comes with Holdfast.
    Shipped {
        file: String,
        fault: ProfileFault,
    },
    NoSuchRules {
        named: String,
    },
    Rules {
        place: &'static str,
        fault: document::Fault,
    },
    /// It has no mode for a wire of this chamber.
    NotForWire,
    /// No card asks or says it.
    NoSuchSentence {
        place: String,
        named: String,
    },
    /// Of a heart or of dials: it says where.
    Practice(practice::Fault),
}

impl fmt::Display for ScenarioFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ScenarioFault::Unreadable { file, why } => {
                write!(out, "{file} cannot be read ({why}). Name a scenario, as scenarios/plain-v.json.")
            }
            ScenarioFault::File(fault) => {
                write!(out, "{} scenarios/README.md tells more.", spoken(&fault.say()))
            }
            ScenarioFault::NotInvented => {
                write!(out, "invented: it must be true. No scenario may describe a real person.")
            }
            ScenarioFault::NoSuchGenerator { named, known } => {
                write!(
                    out,
                    "generator: there is no {named}. Allowed: {}, or a generator file.",
                    known.join(", ")
                )
            }
            ScenarioFault::Generator(fault) => out.write_str(&within("generator", fault)),
            ScenarioFault::Shipped { file, fault } => out.write_str(&within(file, fault)),
            ScenarioFault::NoSuchRules { named } => {
                write!(out, "rules: there is no {named}. Allowed: example, or a rule file.")
            }
            ScenarioFault::Rules { place, fault } => out.write_str(&within(place, fault)),
            ScenarioFault::NotForWire => out.write_str(&spoken(&Say::ScenarioNotForWire)),
            ScenarioFault::NoSuchSentence { place, named } => {
                let what = Box::new(Say::ScenarioNoSentence { named: named.clone() });
                out.write_str(&spoken(&Say::FaultAt { place: place.clone(), what }))
            }
            ScenarioFault::Practice(fault) => write!(out, "{fault}"),
        }
    }
}

fn within(place: &str, fault: &document::Fault) -> String {
    spoken(&fault.clone().within(place).say())
}

impl std::error::Error for ScenarioFault {}
