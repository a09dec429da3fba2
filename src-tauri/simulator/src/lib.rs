//! A simulated heart and pulse generator, in plain integers: µA or µV of output, µV of signal, µs of time.
//!
//! Pure: no clock, no files, no floats, no dependency. The same heart, settings, dial turns and seed give the
//! same events on any machine. It shares no arithmetic with the guide, so it can prove the guide right or wrong.
//!
//! ```
//! use simulator::{Dials, Generator, Heart, Patient};
//!
//! let dials = Dials { rate_per_min: 80, output_micro: 10_000, sensitivity_uv: Some(2_000) };
//! let mut patient = Patient::new(Heart::default(), Generator::ventricular(dials), 7)?;
//! let ten_seconds = patient.run(10_000_000);
//! assert!(!ten_seconds.is_empty());
//! # Ok::<(), simulator::Fault>(())
//! ```

#![deny(clippy::float_arithmetic, reason = "the same bytes on every machine")]

mod course;
mod event;
mod fault;
mod front_end;
mod generator;
mod heart;
mod living;
mod patient;
mod random;
mod recording;
mod strength;
pub mod strip;
mod truth;

pub use course::{Course, Fate};
pub use event::{Chamber, Event, Mark, MarkKind, Origin, SpikeOutcome, What};
pub use fault::Fault;
pub use front_end::FrontEnd;
pub use generator::{Dials, Generator, Power, Sense, Timer, interval_us};
pub use heart::{
    AtrialRhythm, Capture, Conduction, Escape, ExtraBeats, Heart, Lead, Noise, Pressure, Signal, Standstill,
    Suppression, Vulnerable,
};
pub use patient::Patient;
pub use random::SplitMix64;
pub use recording::{NoRhythm, RecordedBeat, Recording};
pub use strength::{energy_nj, rescaled_threshold, threshold_at};
pub use truth::{OwnRhythm, Truth};
