//! Why there can be no such exercise, or no such run: where, what stands there, what is allowed.

use std::fmt;

use domain::check::facts::Dial;
use domain::command::Language;
use domain::document;
use domain::profile::{NoSuchPosition, Position, ProfileFault};
use domain::say::{Say, dial_name, figure};
use domain::units::OutputUnit;

use crate::file::RecordingFault;
use crate::impossible::told;

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The text is no exercise.
    File(document::Fault),
    /// No exercise of this id comes with Holdfast.
    NotShipped {
        id: String,
    },
    /// Of a file that comes with Holdfast.
    Shipped {
        file: String,
        fault: Box<Fault>,
    },
    NotInvented,
    NoSuchGenerator {
        named: String,
        known: Vec<String>,
    },
    Generator(ProfileFault),
    NoSuchRules {
        named: String,
    },
    /// Below zero, or no figure at all.
    NotAFigure {
        place: String,
        found: String,
    },
    /// No heart beats zero times a minute.
    NoRate {
        place: String,
    },
    /// No such heart can beat, on a generator whose OUTPUT is in this unit.
    Heart {
        place: String,
        why: simulator::Fault,
        unit: OutputUnit,
    },
    Recording {
        place: String,
        why: RecordingFault,
    },
    /// A seed moves nothing by such steps.
    NoStep {
        place: String,
        found: String,
        least: String,
        greatest: String,
        unit: &'static str,
    },
    /// Moved so far, the heart could not beat.
    TooManySteps {
        place: String,
        found: u16,
        most: u16,
    },
    /// A recording brings its own signals.
    RecordedSignal {
        place: String,
    },
    /// As printed in a file.
    NotPrinted {
        place: String,
        none: Box<NoSuchPosition>,
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
    pub fn within(self, outer: &str) -> Fault {
        let inside = |place: String| format!("{outer}.{place}");
        match self {
            Fault::NotAFigure { place, found } => Fault::NotAFigure { place: inside(place), found },
            Fault::NoRate { place } => Fault::NoRate { place: inside(place) },
            Fault::Recording { place, why } => Fault::Recording { place: inside(place), why },
            Fault::NotPrinted { place, none } => Fault::NotPrinted { place: inside(place), none },
            Fault::NeverHappens { place } => Fault::NeverHappens { place: inside(place) },
            Fault::NoStep { place, found, least, greatest, unit } => {
                Fault::NoStep { place: inside(place), found, least, greatest, unit }
            }
            Fault::TooManySteps { place, found, most } => {
                Fault::TooManySteps { place: inside(place), found, most }
            }
            Fault::RecordedSignal { place } => Fault::RecordedSignal { place: inside(place) },
            other @ (Fault::File(_)
            | Fault::NotShipped { .. }
            | Fault::Shipped { .. }
            | Fault::NotInvented
            | Fault::NoSuchGenerator { .. }
            | Fault::Generator(_)
            | Fault::NoSuchRules { .. }
            | Fault::Heart { .. }
            | Fault::NoSuchPosition { .. }
            | Fault::Time { .. }) => other,
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::File(fault) => write!(out, "{} scenarios/README.md tells more.", said(&fault.say())),
            Fault::NotShipped { id } => write!(out, "{id}: no such exercise comes with Holdfast."),
            Fault::Shipped { file, fault } => write!(out, "{file}: {fault}"),
            Fault::NotInvented => {
                write!(out, "invented: it must be true. No exercise may describe a real person.")
            }
            Fault::NoSuchGenerator { named, known } => {
                write!(out, "generator: there is no {named}. Allowed: {}.", known.join(", "))
            }
            Fault::Generator(fault) => write!(out, "generator: {}", said(&fault.say())),
            Fault::NoSuchRules { named } => {
                write!(out, "rules: there is no {named}. Allowed: example.")
            }
            Fault::NotAFigure { place, found } => {
                write!(out, "{place}: {found} stands there; a figure of zero or more is allowed.")
            }
            Fault::NoRate { place } => write!(out, "{place}: 0 stands there; 1 or more is allowed."),
            Fault::Heart { place, why, unit } => match told(*why, *unit) {
                Some((field, what)) => {
                    write!(out, "{}", at(&format!("{place}.{field}"), what))
                }
                None => write!(out, "{place}: no such heart: {why}."),
            },
            Fault::Recording { place, why } => write!(out, "{place}: {why}"),
            Fault::NoStep { place, found, least, greatest, unit } => {
                let what = Say::FaultOutOfRange {
                    found: found.clone(),
                    least: least.clone(),
                    greatest: greatest.clone(),
                    unit: Box::new(figure(*unit)),
                    source: Box::new(Say::RangeNoSource),
                };
                write!(out, "{}", at(place, what))
            }
            Fault::TooManySteps { place, found, most } => {
                let (found, most) = (found.to_string(), most.to_string());
                write!(out, "{}", at(place, Say::FaultCount { found, least: "0".to_owned(), most }))
            }
            Fault::RecordedSignal { place } => {
                let other = "heart.recorded".to_owned();
                write!(out, "{}", at(place, Say::FaultContradicts { other }))
            }
            Fault::NotPrinted { place, none } => write!(out, "{}", at(place, none.say())),
            Fault::NoSuchPosition { dial, to } => {
                write!(out, "{}: the dial has no position number {to}.", said(&dial_name(*dial)))
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

fn at(place: &str, what: Say) -> String {
    said(&Say::FaultAt { place: place.to_owned(), what: Box::new(what) })
}

/// In the words of the catalogue; where it has none, what stands against it.
fn said(say: &Say) -> String {
    words::say(say, Language::English).unwrap_or_else(|unsaid| unsaid.to_string())
}

impl std::error::Error for Fault {}
