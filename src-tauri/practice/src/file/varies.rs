//! How far the seed of a run may move its patient's numbers.

use domain::profile::Profile;
use serde::{Deserialize, Serialize};
use simulator::{Heart, SplitMix64};

use super::heart::{micro, milli};
use crate::fault::Fault;

/// Each by a whole number of steps, the same in every heart of the run.
#[derive(Clone, Copy, Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct VariesFile {
    /// Both thresholds together, in steps of the unit of the OUTPUT dial.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub capture: Option<StepsFile>,
    /// The signal of own beats, in steps of mV.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub signal: Option<StepsFile>,
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct StepsFile {
    pub step: f64,
    /// So many steps down at most.
    pub lower: u16,
    /// So many steps up at most.
    pub higher: u16,
}

/// As read: whatever is drawn of it, the hearts can beat.
#[derive(Clone, Copy, Debug, Default)]
pub struct Varies {
    capture: Steps,
    signal: Steps,
}

/// In the simulator's units.
#[derive(Clone, Copy, Debug, Default)]
struct Steps {
    size: i32,
    lower: u16,
    higher: u16,
}

/// What one seed has drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Moved {
    capture_micro: i32,
    signal_uv: i32,
}

/// The simulated patient draws from the same seed.
const OF_ITS_OWN: u64 = 0x5eed_0f7e_50a7_1e47;
/// Larger ones, or more of them, are a slip of whoever wrote the file.
const LARGEST_STEP: u32 = 1_000_000;
const MOST_STEPS: u16 = 1_000;

impl VariesFile {
    /// # Errors
    /// A step that is none, or so many of them that a heart could not beat: `beats` tells of each.
    pub(crate) fn read(self, generator: &Profile, beats: impl Fn(Moved) -> bool) -> Result<Varies, Fault> {
        let unit = generator.output_unit();
        let capture = self.capture.map_or(Ok(Steps::default()), |steps| {
            let figure = |micro| domain::units::shortest(micro, unit.scale());
            let size = |step| micro(step, generator);
            let of = |by| Moved { capture_micro: by, ..Moved::default() };
            steps.read("capture", (size, figure, unit.symbol()), |by| beats(of(by)))
        })?;
        let signal = self.signal.map_or(Ok(Steps::default()), |steps| {
            let figure = |uv| domain::units::shortest(uv, domain::units::MICRO_PER_MILLI);
            let of = |by| Moved { signal_uv: by, ..Moved::default() };
            steps.read("signal", (milli, figure, "mV"), |by| beats(of(by)))
        })?;
        Ok(Varies { capture, signal })
    }
}

impl StepsFile {
    /// `written` is the size of a step in the simulator's unit, such a size as a figure, and the file's unit.
    fn read(
        self,
        place: &str,
        written: (impl Fn(f64) -> u32, impl Fn(u32) -> String, &'static str),
        beats: impl Fn(i32) -> bool,
    ) -> Result<Steps, Fault> {
        let (size, figure, unit) = written;
        let at = |field: &str| format!("{place}.{field}");
        Fault::unless_figure(&at("step"), self.step)?;
        let size = i32::try_from(size(self.step)).unwrap_or(i32::MAX);
        if !(1..=LARGEST_STEP as i32).contains(&size) {
            let found = self.step.to_string();
            let (least, greatest) = (figure(1), figure(LARGEST_STEP));
            return Err(Fault::NoStep { place: at("step"), found, least, greatest, unit });
        }
        for (field, wanted, way) in [("lower", self.lower, -size), ("higher", self.higher, size)] {
            let possible = |steps: &u16| beats(i32::from(*steps) * way);
            let most = (0..=wanted.min(MOST_STEPS)).rev().find(possible).unwrap_or(0);
            if wanted > most {
                return Err(Fault::TooManySteps { place: at(field), found: wanted, most });
            }
        }
        Ok(Steps { size, lower: self.lower, higher: self.higher })
    }
}

impl Varies {
    /// The same for the same seed.
    pub(crate) fn drawn(self, seed: u64) -> Moved {
        let mut chance = SplitMix64::new(seed ^ OF_ITS_OWN);
        Moved { capture_micro: self.capture.drawn(&mut chance), signal_uv: self.signal.drawn(&mut chance) }
    }
}

impl Steps {
    fn drawn(self, chance: &mut SplitMix64) -> i32 {
        let steps = chance.below(u64::from(self.lower) + u64::from(self.higher) + 1);
        (i32::try_from(steps).unwrap_or(0) - i32::from(self.lower)) * self.size
    }
}

impl Moved {
    /// What would lie below zero wraps to a figure that no heart may have.
    pub(super) fn heart(self, mut heart: Heart) -> Heart {
        let capture = &mut heart.capture;
        for threshold in [&mut capture.going_down_micro, &mut capture.going_up_micro] {
            *threshold = threshold.wrapping_add_signed(self.capture_micro);
        }
        heart.signal.own_uv = heart.signal.own_uv.wrapping_add_signed(self.signal_uv);
        heart
    }
}
