use std::fmt;

/// Why a scenario cannot be rehearsed: what is wrong, where, what is allowed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ScenarioFault {
    Unreadable { file: String, why: String },
    NotAScenario { why: String },
    NotInvented,
    NoSuchGenerator { named: String, known: Vec<String> },
    Generator(String),
    NoSuchRules { named: String },
    Rules(String),
    Heart(String),
    Bedside(String),
}

impl fmt::Display for ScenarioFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ScenarioFault::Unreadable { file, why } => {
                write!(out, "{file} cannot be read ({why}). Name a scenario, as scenarios/plain-v.json.")
            }
            ScenarioFault::NotAScenario { why } => {
                write!(out, "This is not a scenario: {why}. scenarios/README.md says what is allowed.")
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
            ScenarioFault::Generator(why) => write!(out, "generator: {why}"),
            ScenarioFault::NoSuchRules { named } => {
                write!(out, "rules: there is no {named}. Allowed: example, or a rule file.")
            }
            ScenarioFault::Rules(why) => write!(out, "rules: {why}"),
            ScenarioFault::Heart(why) => write!(out, "{why}"),
            ScenarioFault::Bedside(why) => write!(out, "found or heart: {why}"),
        }
    }
}

impl std::error::Error for ScenarioFault {}
