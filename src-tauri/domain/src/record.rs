//! What one ended check leaves: results as numbers in named units, never re-computed.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::check::facts::{ASYNCHRONOUS, Dials, Facts, Found, NONE, Why};
use crate::flags::Flag;
use crate::moment::Moment;
use crate::profile::{Position, Profile};
use crate::state::bed::Names;
use crate::units::OutputUnit;

/// Where the three dials stood, as the generator prints them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Printed {
    pub output: String,
    pub rate: String,
    /// `None` = asynchronous.
    pub mv: Option<String>,
}

impl Printed {
    pub fn of(profile: &Profile, dials: Dials) -> Printed {
        Printed {
            output: profile.output_text(dials.output).to_owned(),
            rate: profile.rate_text(dials.rate).to_owned(),
            mv: (dials.mv != ASYNCHRONOUS).then(|| profile.mv_text(dials.mv).to_owned()),
        }
    }
}

/// How a capture threshold was approached. Only figures of one direction are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    GoingUp,
    GoingDown,
}

/// One ended check. Times are of the tablet's clock.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Record {
    pub id: Uuid,
    pub opened: Moment,
    pub ended: Moment,
    pub rules_id: String,
    /// SHA-256 of the rule file; the name of rules that nobody has let in.
    #[serde(default)]
    pub rules_hash: String,
    pub example_rules: bool,
    pub practice: bool,
    pub generator: String,
    pub unit: OutputUnit,
    pub found: Option<Printed>,
    pub stays: Option<Printed>,
    pub stays_at: Dials,
    /// Dials read back at the end; `false` = a reason and a name instead.
    pub read: bool,
    pub sensing: Found,
    /// µV.
    pub sensing_uv: Option<u32>,
    pub sensing_text: Option<String>,
    pub why_sensing: Why,
    pub capture: Found,
    /// µA or µV by `unit`; of a bracket its upper end.
    pub capture_micro: Option<u32>,
    pub capture_text: Option<String>,
    /// The lower end of a bracket: the highest output at which a spike made no beat.
    pub capture_low_text: Option<String>,
    pub held_down_text: Option<String>,
    pub why_capture: Why,
    /// Beats per minute; slowest and fastest.
    pub own: Option<(u8, u8)>,
    /// The lowest rate at which own beats were to be looked for, as the dial prints it.
    pub limit: String,
    /// Beats per minute: RATE does not go above it to test capture. 0 in records of before.
    #[serde(default)]
    pub highest_test_rate: u16,
    /// µA or µV by `unit`: the output that stays.
    pub output_micro: u32,
    /// µV; `None` = asynchronous.
    pub mv_uv: Option<u32>,
    /// Set output divided by the capture threshold, rounded down: "3" or "2.8".
    pub multiple: Option<String>,
    /// The same before the check, from the found output.
    pub found_multiple: Option<String>,
    /// Positions between which the unit's rule allows OUTPUT, and mV, on these thresholds.
    pub output_band: Option<(Position, Position)>,
    pub mv_band: Option<(Position, Position)>,
    /// Beats watched at the threshold, all of them captured.
    pub beats: u8,
    pub pulse_width_us: u32,
    pub flags: Vec<Flag>,
    pub names: Names,
    /// Wall clock, ms; when the next check is due.
    pub due_ms: i64,
    pub facts: Facts,
}

impl Record {
    /// How this check came to its capture threshold; `None` when it has none.
    pub fn direction(&self) -> Option<Direction> {
        match self.capture {
            Found::Exact => Some(Direction::GoingUp),
            Found::Bracket | Found::AtMost => Some(Direction::GoingDown),
            Found::Nothing | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone => None,
        }
    }

    /// The lowest output that was seen to hold going down, as the dial prints it. Without a threshold it is half of
    /// OUTPUT in a margin check, or the last position of a search that was broken off; then it is worth nothing where
    /// spikes made no beats there or above, or the heart was shaken since.
    pub fn held_going_down(&self) -> Option<&str> {
        let facts = &self.facts;
        let lost = facts.lost != NONE && facts.lost >= facts.held_down;
        let doubtful = lost || self.flags.iter().any(Flag::makes_earlier_capture_doubtful);
        self.held_down_text.as_deref().filter(|_| self.capture != Found::Nothing || !doubtful)
    }

    /// Both hold a capture threshold, of one unit, one direction and one pulse width.
    pub fn compares_with(&self, other: &Record) -> bool {
        self.direction().is_some()
            && self.direction() == other.direction()
            && self.unit == other.unit
            && self.pulse_width_us == other.pulse_width_us
    }

    /// The signal was measured: to a threshold, or to the last number that the search reached.
    pub fn signal_uv(&self) -> Option<u32> {
        matches!(self.sensing, Found::Exact | Found::AtLeast).then_some(self.sensing_uv).flatten()
    }
}
