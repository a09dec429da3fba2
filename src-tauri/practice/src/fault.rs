//! Why there can be no such exercise, or no such run: where, what stands there, what is allowed.

use std::fmt;

use domain::check::facts::Dial;
use domain::profile::Position;

use crate::file::RecordingFault;

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    NotAnExercise {
        why: String,
    },
    NotInvented,
    NoSuchGenerator {
        named: String,
        known: Vec<String>,
    },
    Generator(String),
    NoSuchRules {
        named: String,
    },
    Rules(String),
    /// Below zero, or no figure at all.
    NotAFigure {
        place: String,
        found: String,
    },
    /// No heart beats zero times a minute.
    NoRate {
        place: String,
    },
    Heart {
        place: String,
        why: simulator::Fault,
    },
    Recording {
        place: String,
        why: RecordingFault,
    },
    /// As printed in a file.
    NotPrinted {
        place: String,
        found: String,
    },
    /// A position that the dial does not have.
    NoSuchPosition {
        dial: Dial,
        to: Position,
    },
    /// A happening that nothing brings about.
    NeverHappens {
        place: String,
    },
    /// Of an entry: time goes on, and a run ends within hours.
    Time {
        at_us: u64,
    },
}

impl Fault {
    pub(crate) fn unless_figure(place: &str, figure: f64) -> Result<(), Fault> {
        let sound = figure.is_finite() && figure >= 0.0;
        let fault = || Fault::NotAFigure { place: place.to_owned(), found: figure.to_string() };
        if sound { Ok(()) } else { Err(fault()) }
    }

    pub(crate) fn unless_rate(place: &str, rate: u16) -> Result<(), Fault> {
        if rate > 0 { Ok(()) } else { Err(Fault::NoRate { place: place.to_owned() }) }
    }

    /// The same fault, further in.
    #[must_use]
    pub(crate) fn within(self, outer: &str) -> Fault {
        let inside = |place: String| format!("{outer}.{place}");
        match self {
            Fault::NotAFigure { place, found } => Fault::NotAFigure { place: inside(place), found },
            Fault::NoRate { place } => Fault::NoRate { place: inside(place) },
            Fault::Recording { place, why } => Fault::Recording { place: inside(place), why },
            Fault::NotPrinted { place, found } => Fault::NotPrinted { place: inside(place), found },
            Fault::NeverHappens { place } => Fault::NeverHappens { place: inside(place) },
            other @ (Fault::NotAnExercise { .. }
            | Fault::NotInvented
            | Fault::NoSuchGenerator { .. }
            | Fault::Generator(_)
            | Fault::NoSuchRules { .. }
            | Fault::Rules(_)
            | Fault::Heart { .. }
            | Fault::NoSuchPosition { .. }
            | Fault::Time { .. }) => other,
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::NotAnExercise { why } => {
                write!(out, "This is not an exercise: {why}. scenarios/README.md says what is allowed.")
            }
            Fault::NotInvented => {
                write!(out, "invented: it must be true. No exercise may describe a real person.")
            }
            Fault::NoSuchGenerator { named, known } => {
                write!(out, "generator: there is no {named}. Allowed: {}.", known.join(", "))
            }
            Fault::Generator(why) => write!(out, "generator: {why}"),
            Fault::NoSuchRules { named } => {
                write!(out, "rules: there is no {named}. Allowed: example.")
            }
            Fault::Rules(why) => write!(out, "rules: {why}"),
            Fault::NotAFigure { place, found } => {
                write!(out, "{place}: {found} stands there; a figure of zero or more is allowed.")
            }
            Fault::NoRate { place } => write!(out, "{place}: 0 stands there; 1 or more is allowed."),
            Fault::Heart { place, why } => write!(out, "{place}: no such heart: {why}."),
            Fault::Recording { place, why } => write!(out, "{place}: {why}"),
            Fault::NotPrinted { place, found } => {
                write!(out, "{place}: {found} stands there; the generator has no such position.")
            }
            Fault::NoSuchPosition { dial, to } => {
                write!(out, "{dial:?}: the dial has no position number {to}.")
            }
            Fault::NeverHappens { place } => {
                write!(
                    out,
                    "{place}: nothing stands there; at_s, dials with at_most or at_least, or after_the_last is allowed."
                )
            }
            Fault::Time { at_us } => {
                write!(
                    out,
                    "at_us: {at_us} stands there; it may not lie before the entry above, nor beyond four hours."
                )
            }
        }
    }
}

impl std::error::Error for Fault {}
