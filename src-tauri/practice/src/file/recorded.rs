//! A recorded rhythm in place of the heart's own: a CSV beside the exercise, or written out in it.

mod csv;
mod fault;

use std::sync::Arc;

use serde::{Deserialize, Serialize};
use simulator::Recording;

pub use fault::RecordingFault;

/// Reads the file of this name that lies beside the exercise; or says why it cannot.
pub type Beside<'a> = &'a dyn Fn(&str) -> Result<String, String>;

/// Own beats of the chamber the wire stands on, as they were recorded.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct RecordedFile {
    /// "invented", or where the recording comes from.
    pub source: String,
    /// The name of a CSV that lies beside this file.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub file: Option<String>,
    /// The CSV, written out here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub csv: Option<String>,
    /// The CSV is a signal of so many samples a second, one in mV on each line. Left out: it is beats, the second
    /// of one on each line, and after a comma its signal in mV.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hz: Option<u32>,
    /// With `hz`: a beat is where the signal rises to this.
    #[serde(rename = "level_mV", default, skip_serializing_if = "Option::is_none")]
    pub level_mv: Option<f64>,
    /// What was read, once it was.
    #[serde(skip)]
    read: Option<Arc<Recording>>,
}

/// More than four hours of any monitor's signal.
pub const LARGEST_BYTES: usize = 256 << 20;
const FASTEST_HZ: u32 = 100_000;
/// mV, as a wire can meet it.
const LARGEST_MV: f64 = 100.0;

impl RecordedFile {
    /// Reads the recording; gives back the text it was read from.
    ///
    /// # Errors
    /// The first thing that keeps it from being a rhythm.
    pub(crate) fn load(&mut self, beside: Beside<'_>) -> Result<String, RecordingFault> {
        if self.source.trim().is_empty() {
            return Err(RecordingFault::NoSource);
        }
        let text = self.text(beside)?;
        if text.len() > LARGEST_BYTES {
            return Err(RecordingFault::TooLarge);
        }
        let beats = match (self.hz, self.level_mv) {
            (Some(hz), level) => csv::beats_of_signal(&text, rate(hz)?, self::level(level)?)?,
            (None, None) => csv::beats_of_list(&text)?,
            (None, Some(_)) => return Err(RecordingFault::LevelWithoutRate),
        };
        let recording = Recording::new(beats).map_err(RecordingFault::NoRhythm)?;
        self.read = Some(Arc::new(recording));
        Ok(text)
    }

    pub(crate) fn read(&self) -> Option<&Arc<Recording>> {
        self.read.as_ref()
    }

    fn text(&mut self, beside: Beside<'_>) -> Result<String, RecordingFault> {
        match (&self.file, self.csv.take()) {
            (None, Some(csv)) => Ok(csv),
            (Some(file), None) => {
                let is_name = !file.is_empty() && !file.contains(['/', '\\']) && !file.starts_with('.');
                if !is_name {
                    return Err(RecordingFault::NotBeside { found: file.clone() });
                }
                beside(file).map_err(|why| RecordingFault::Unreadable { file: file.clone(), why })
            }
            (None, None) | (Some(_), Some(_)) => Err(RecordingFault::OneOfBoth),
        }
    }
}

fn rate(hz: u32) -> Result<u32, RecordingFault> {
    if (1..=FASTEST_HZ).contains(&hz) { Ok(hz) } else { Err(RecordingFault::Rate { found: hz }) }
}

/// µV.
fn level(level_mv: Option<f64>) -> Result<u32, RecordingFault> {
    let level_mv = level_mv.ok_or(RecordingFault::NoLevel)?;
    let uv = (level_mv * 1_000.0).round();
    if uv >= 1.0 && level_mv <= LARGEST_MV {
        Ok(uv as u32)
    } else {
        Err(RecordingFault::Level { found: level_mv.to_string() })
    }
}
