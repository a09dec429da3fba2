//! Practice: exercises, a run of one on a simulated patient, and the judge of what was done in it.
//!
//! Pure: no clock, no file, no chance but a seed. `judge` is a function of the exercise, the seed and the
//! entries alone, so that the same run is judged the same on every tablet.

mod exercise;
mod fault;
mod file;
mod happening;
mod impossible;
mod judge;
mod readout;
mod run;
mod seen;
mod shipped;
pub mod truth;

pub use exercise::Exercise;
pub use fault::Fault;
pub use file::{
    Beside, ChamberName, DialName, DialsFile, ExerciseFile, HappeningFile, HeartFile, LARGEST_BYTES,
    LoadedHeart, PowerName, RecordedFile, RecordingFault, StandsFile, StepsFile, VariesFile, WhatFile,
    WhenFile, position,
};
pub use happening::{Change, Happenings};
pub use judge::judge;
pub use run::Run;
pub use shipped::exercises;

pub use domain::practice::{
    Act, Agreement, Compared, Entry, ExerciseId, Happened, Judged, Judgement, Pause, Reason, Said, SpikeOnT,
    Threshold, Verdict,
};

/// Version of simulator and judge together: a judgement made by one is not made again by another.
pub const ENGINE: &str = "6";
