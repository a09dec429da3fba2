//! An exercise as it is written down. `scenarios/README.md` explains it; its schema is made from these types.

mod happening;
mod heart;
mod recorded;
mod signal;
mod varies;
mod wire;

use domain::check::facts::{ASYNCHRONOUS, Dial, Dials};
use domain::practice::ExerciseId;
use domain::profile::{AsynchronousBy, Profile};
use domain::rules::Chamber;
use serde::{Deserialize, Serialize};

pub use happening::{HappeningFile, PowerName, StandsFile, WhatFile, WhenFile};
pub use heart::{HeartFile, LoadedHeart};
pub use recorded::{Beside, LARGEST_BYTES, RecordedFile, RecordingFault};
pub use varies::{Moved, StepsFile, Varies, VariesFile};

use crate::fault::Fault;

/// One exercise: a patient, a generator, and what happens by itself. Its words are in the catalogue.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ExerciseFile {
    /// Where the schema of this file lies.
    #[serde(rename = "$schema", default, skip_serializing_if = "Option::is_none")]
    pub schema: Option<String>,
    /// Always true: no patient here is a real one.
    pub invented: bool,
    /// One of the exercises that the catalogue has words for.
    #[cfg_attr(feature = "schema", schemars(with = "String"))]
    pub id: ExerciseId,
    /// The wire's label, and the port it is plugged into.
    pub chamber: ChamberName,
    /// A generator by its id.
    pub generator: String,
    /// "example".
    pub rules: String,
    /// Where the dials stand at the start, as printed.
    pub found: DialsFile,
    pub heart: HeartFile,
    /// How far the seed may move the numbers of this patient: without it they are the same in every run.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub varies: Option<VariesFile>,
    /// What a careful check can measure here.
    pub measurable: MeasurableFile,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub happenings: Vec<HappeningFile>,
}

impl ExerciseFile {
    /// Reads the recordings of all its hearts; gives back their texts.
    ///
    /// # Errors
    /// The first recording that is no rhythm.
    pub(crate) fn load(&mut self, beside: Beside<'_>) -> Result<Vec<String>, Fault> {
        let mut texts = Vec::new();
        texts.extend(self.heart.load(beside).map_err(|fault| fault.within("heart"))?);
        for (at, happening) in self.happenings.iter_mut().enumerate() {
            if let WhatFile::Heart(heart) = &mut happening.what {
                let place = format!("happenings[{at}].what.heart");
                texts.extend(heart.load(beside).map_err(|fault| fault.within(&place))?);
            }
        }
        Ok(texts)
    }
}

/// Whether the beat signal, and the capture threshold, can be tested without harm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MeasurableFile {
    pub sensing: bool,
    pub capture: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum ChamberName {
    Atrium,
    Ventricle,
}

impl ChamberName {
    pub fn value(self) -> &'static str {
        match self {
            ChamberName::Atrium => "atrium",
            ChamberName::Ventricle => "ventricle",
        }
    }

    pub fn simulated(self) -> simulator::Chamber {
        match self {
            ChamberName::Atrium => simulator::Chamber::Atrium,
            ChamberName::Ventricle => simulator::Chamber::Ventricle,
        }
    }

    pub fn of_wire(self) -> Chamber {
        match self {
            ChamberName::Atrium => Chamber::Atrium,
            ChamberName::Ventricle => Chamber::Ventricle,
        }
    }
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum DialName {
    Output,
    Rate,
    Mv,
}

impl DialName {
    pub fn dial(self) -> Dial {
        match self {
            DialName::Output => Dial::Output,
            DialName::Rate => Dial::Rate,
            DialName::Mv => Dial::Mv,
        }
    }
}

/// The three dials as printed; `mv` may be "asynchronous".
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct DialsFile {
    pub output: String,
    pub rate: String,
    pub mv: String,
}

impl DialsFile {
    pub fn line(&self) -> String {
        format!("OUTPUT {}, RATE {}, mV {}", self.output, self.rate, self.mv)
    }

    /// # Errors
    /// The generator has no such position.
    pub fn positions(&self, profile: &Profile) -> Result<Dials, Fault> {
        Ok(Dials {
            output: position(profile, Dial::Output, &self.output)?,
            rate: position(profile, Dial::Rate, &self.rate)?,
            mv: position(profile, Dial::Mv, &self.mv)?,
        })
    }
}

/// A printed figure as a position of its dial.
///
/// # Errors
/// The generator has none such.
pub fn position(profile: &Profile, dial: Dial, text: &str) -> Result<domain::profile::Position, Fault> {
    let can_be_asynchronous = profile.asynchronous() != AsynchronousBy::None;
    let read = match dial {
        Dial::Output => profile.read_output(text),
        Dial::Rate => profile.read_rate(text),
        Dial::Mv if text == "asynchronous" && can_be_asynchronous => return Ok(ASYNCHRONOUS),
        Dial::Mv => profile.read_mv(text),
    };
    let place = match dial {
        Dial::Output => "output",
        Dial::Rate => "rate",
        Dial::Mv => "mv",
    };
    read.map_err(|none| Fault::NotPrinted { place: place.to_owned(), none: Box::new(none) })
}
