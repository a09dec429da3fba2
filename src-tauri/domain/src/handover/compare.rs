//! The dials as they stand, each beside what a check says of them; and what the check's thresholds mean where
//! the dials stand now. Printed values are compared as numbers: another generator has other positions. mA and V
//! are never compared.

use serde::{Deserialize, Serialize};

use super::figure::Figure;
use super::summary::{Capture, Check, DialsAt, Sensing};
use crate::check::facts::{ASYNCHRONOUS, Dials};
use crate::moment::Moment;
use crate::plan;
use crate::profile::{Position, Profile};
use crate::record::Printed;
use crate::rules::Rules;
use crate::units::{MICRO_PER_MILLI, OutputUnit, scaled};

/// One comparison, as it was done.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Compared {
    pub at: Moment,
    /// Where the dials stand, on the generator in front of the person.
    pub dials: Dials,
    pub printed: Printed,
    pub unit: OutputUnit,
    pub output: Beside,
    pub rate: Beside,
    pub mv: Beside,
    pub margin: Margin,
    pub seeing: Seeing,
}

/// What the check says of one dial, beside where it stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Beside {
    /// The check has no dials.
    NotSaid,
    Same,
    Differs {
        /// `None` = asynchronous.
        said: Option<String>,
    },
    /// mA here and V there, or the other way.
    OtherUnit {
        said: String,
        unit: OutputUnit,
    },
}

/// OUTPUT as it stands, by the capture threshold of the check.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Margin {
    /// No threshold, or one in another unit.
    Unknown,
    /// So many times the threshold, rounded down; at least so many where only an upper bound was found.
    Times { multiple: String, threshold: String, at_least: bool, below_rule: bool },
    /// Below the threshold, or below the lowest position that was shown to capture: spikes may make no beat.
    Lost {
        threshold: String,
        /// Only an upper bound was found.
        #[serde(default)]
        at_most: bool,
    },
}

/// mV as it stands, by the signal of the check.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Seeing {
    NotTested,
    Asynchronous,
    /// At or below the signal.
    Sees {
        signal: String,
        /// Only a lower bound was found.
        #[serde(default)]
        at_least: bool,
    },
    /// Above it: own beats may not be seen.
    Blind {
        signal: String,
    },
    /// Above the highest number that was tried, which saw: nobody knows.
    Untried {
        signal: String,
    },
}

impl Compared {
    /// Every dial that the check names stands there.
    pub fn is_same(&self) -> bool {
        [&self.output, &self.rate, &self.mv].into_iter().all(|beside| *beside == Beside::Same)
    }
}

/// Where the dials were said to stand; `None`: not said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    pub dials: Option<DialsAt>,
    pub unit: OutputUnit,
}

/// `rules` are the unit's own, which say how much margin is asked for here.
pub fn compare(profile: &Profile, rules: &Rules, dials: Dials, check: &Check, at: Moment) -> Compared {
    let said = Said { dials: check.dials.clone(), unit: check.unit };
    beside_what(profile, rules, dials, (Some(&said), Some(check)), at)
}

/// Dials and thresholds from two places: somebody may have read the dials since the check.
pub fn beside_what(
    profile: &Profile,
    rules: &Rules,
    dials: Dials,
    (said, check): (Option<&Said>, Option<&Check>),
    at: Moment,
) -> Compared {
    let printed = Printed::of(profile, dials);
    let unit = profile.output_unit();
    let named = said.and_then(|said| Some((said.dials.as_ref()?, said.unit)));
    Compared {
        at,
        dials,
        unit,
        output: named.map_or(Beside::NotSaid, |(said, of)| output((&said.output, of), &printed.output, unit)),
        rate: named.map_or(Beside::NotSaid, |(said, _)| beside(&said.rate, &printed.rate, 1)),
        mv: named.map_or(Beside::NotSaid, |(said, _)| mv(said.mv.as_ref(), printed.mv.as_deref())),
        margin: check.map_or(Margin::Unknown, |check| margin(profile, rules, dials.output, check)),
        seeing: seeing(profile, dials.mv, check.map_or(&Sensing::NotTested, |check| &check.sensing)),
        printed,
    }
}

fn output((said, of): (&Figure, OutputUnit), stands: &str, unit: OutputUnit) -> Beside {
    if of != unit {
        return Beside::OtherUnit { said: said.to_string(), unit: of };
    }
    beside(said, stands, unit.scale())
}

fn mv(said: Option<&Figure>, stands: Option<&str>) -> Beside {
    match (said, stands) {
        (None, None) => Beside::Same,
        (Some(said), Some(stands)) => beside(said, stands, MICRO_PER_MILLI),
        (Some(said), None) => Beside::Differs { said: Some(said.to_string()) },
        (None, Some(_)) => Beside::Differs { said: None },
    }
}

/// "3.60" and "3.6" are the same position on two generators.
fn beside(said: &Figure, stands: &str, scale: u32) -> Beside {
    let same = scaled(said.text(), scale).is_some_and(|value| scaled(stands, scale) == Some(value));
    if same { Beside::Same } else { Beside::Differs { said: Some(said.to_string()) } }
}

fn margin(profile: &Profile, rules: &Rules, stands: Position, check: &Check) -> Margin {
    let (threshold, at_least) = match &check.capture {
        Capture::NotTested | Capture::Held { .. } => return Margin::Unknown,
        Capture::Exact { at } => (at, false),
        Capture::Bracket { high, .. } => (high, false),
        Capture::AtMost { at } => (at, true),
    };
    let unit = profile.output_unit();
    let value = scaled(threshold.text(), unit.scale()).filter(|_| unit == check.unit);
    let Some(value) = value else { return Margin::Unknown };
    let (set, threshold) = (profile.output_at(stands), threshold.to_string());
    if set < value {
        return Margin::Lost { threshold, at_most: at_least };
    }
    let multiple = plan::multiple_of(set, value);
    let below_rule = plan::is_value_below_rule(rules, unit, set, value);
    Margin::Times { multiple, threshold, at_least, below_rule }
}

fn seeing(profile: &Profile, stands: Position, sensing: &Sensing) -> Seeing {
    let (signal, at_least) = match sensing {
        Sensing::NotTested | Sensing::NoneSaw => (None, false),
        Sensing::Exact { at } => (Some(at), false),
        Sensing::AtLeast { at } | Sensing::AsFound { at } => (Some(at), true),
    };
    if stands == ASYNCHRONOUS {
        return Seeing::Asynchronous;
    }
    let value = signal.and_then(|signal| Some((signal.to_string(), scaled(signal.text(), MICRO_PER_MILLI)?)));
    match value {
        None => Seeing::NotTested,
        Some((signal, value)) if profile.mv_at(stands) <= value => Seeing::Sees { signal, at_least },
        Some((signal, _)) if at_least => Seeing::Untried { signal },
        Some((signal, _)) => Seeing::Blind { signal },
    }
}
