//! A unit's rules: named rules and numbers, each with its source, checked as a whole.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

mod approval;
mod file;
mod named;
mod numbers;
mod source;

pub use approval::Approval;
pub use named::{OutputRule, SensingRule};
pub use numbers::{BAND, NUMBERS, NumberRule, NumberUnit};
pub use source::{Source, Status};

use crate::moment::{Moment, date_text};
use crate::units::OutputUnit;

/// Why a rule file is refused.
pub type RulesFault = crate::document::Fault;

/// The chamber a wire paces.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Chamber {
    Atrium,
    Ventricle,
}

/// Own beats at a lower limit than this are looked for only with a clinician present (ACCCN).
const LIMIT_WITHOUT_CLINICIAN: u16 = 50;

/// What each number is, its range and its source stand in `NUMBERS`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "serde_json::Value", into = "serde_json::Value")]
#[non_exhaustive]
pub struct Rules {
    pub id: String,
    /// Nobody has approved these rules; to be marked wherever they are used.
    pub example: bool,
    pub approval: Option<Approval>,

    pub own_step: u16,
    pub own_watch_s: u16,
    pub own_hold_s: u16,
    pub own_limit: u16,
    pub sensing_offset: u16,
    pub capture_offset: u16,
    pub highest_test_rate: u16,

    pub sensing_rule: SensingRule,
    pub lowest_mv_ventricle_uv: u32,
    pub lowest_mv_atrium_uv: u32,
    pub starting_mv_ventricle_uv: u32,
    pub starting_mv_atrium_uv: u32,
    pub sensing_stride_percent: u8,
    pub capture_stride_percent: u8,
    /// Sensing at half the own rate instead of `sensing_offset` below it: single misses cannot be
    /// seen at that rate, so the generator's marks must be in view.
    pub half_rate_in_sensing: bool,

    pub output_rule: OutputRule,
    /// The clinician who approves a band that begins below double.
    pub band_below_double_by: Option<String>,

    pub beats_down: u8,
    pub beats_threshold: u8,
    pub beats_confirm: u8,
    pub minimum_output_s: u16,
    pub after_loss_ups: u8,
    pub after_loss_s: u16,
    /// Seek the threshold going up after the first loss; else the bracket is the result.
    pub going_up: bool,
    pub margin_check: bool,

    pub age_least: u8,
    pub emergency_rate: u16,
    pub check_every_h: u8,
    pub check_every_narrow_h: u8,
    /// At or below this multiple of the threshold the shorter interval holds.
    pub narrow_multiple_percent: u16,
    /// A sign-off runs out after so many; 0 = these rules name no time.
    pub sign_off_months: u16,
    /// Days after the wires are out until what was kept of a patient may be erased; 0 = the unit has said nothing,
    /// and nothing is erased.
    pub erase_after_days: u16,
    /// A capture threshold above this is told, on a generator of its unit; 0 = the unit has set no limit.
    pub capture_limit_ua: u32,
    pub capture_limit_uv: u32,
    /// A sensing threshold below this is told; 0 = the unit has set no limit.
    pub signal_limit_ventricle_uv: u32,
    pub signal_limit_atrium_uv: u32,
}

impl Rules {
    /// The example rules, the same as the shipped file.
    pub fn example() -> Rules {
        let mut rules = Rules::bare("example");
        for number in &NUMBERS {
            number.store(&mut rules, number.example);
        }
        rules
    }

    /// Reads a rule file and checks all of it.
    pub fn from_json(text: &str) -> Result<Rules, RulesFault> {
        file::read(&crate::document::parse(text)?)
    }

    /// The file that reads back as these rules.
    pub fn to_json(&self) -> String {
        format!("{:#}", file::write(self))
    }

    /// Where the figure or named rule in `field` comes from; `None` for a field with no figure.
    pub fn source_of(&self, field: &str) -> Option<Source> {
        match field {
            "sensing_rule" => Some(self.sensing_rule.source()),
            "output_rule" => Some(self.output_rule.source()),
            _ => NumberRule::named(field).map(|number| number.source),
        }
    }

    pub fn lowest_mv_uv(&self, chamber: Chamber) -> u32 {
        match chamber {
            Chamber::Atrium => self.lowest_mv_atrium_uv,
            Chamber::Ventricle => self.lowest_mv_ventricle_uv,
        }
    }

    pub fn starting_mv_uv(&self, chamber: Chamber) -> u32 {
        match chamber {
            Chamber::Atrium => self.starting_mv_atrium_uv,
            Chamber::Ventricle => self.starting_mv_ventricle_uv,
        }
    }

    /// The unit looks for own beats further down than is done without a clinician.
    pub fn limit_needs_clinician(&self) -> bool {
        self.own_limit < LIMIT_WITHOUT_CLINICIAN
    }

    /// The date of the review, where it has passed by the tablet's clock.
    pub fn review_passed(&self, now: Moment) -> Option<NaiveDate> {
        let approval = self.approval.as_ref()?;
        let today = date_text(now.wall_ms, now.offset_min).parse().ok()?;
        approval.review_overdue(today).then_some(approval.review)
    }

    /// Months after which a sign-off runs out.
    pub fn sign_off_after(&self) -> Option<u16> {
        (self.sign_off_months > 0).then_some(self.sign_off_months)
    }

    /// What a capture threshold may come to, in the parts of a dial of this unit, and as the file says it. mA and
    /// volts are two scales: each has its own limit.
    pub fn capture_limit(&self, unit: OutputUnit) -> Option<(u32, String)> {
        match unit {
            OutputUnit::MilliAmp => limit(self.capture_limit_ua, NumberUnit::MilliAmp),
            OutputUnit::Volt => limit(self.capture_limit_uv, NumberUnit::Volt),
        }
    }

    /// What a sensing threshold must come to, in µV, and as the file says it.
    pub fn signal_limit(&self, chamber: Chamber) -> Option<(u32, String)> {
        match chamber {
            Chamber::Atrium => limit(self.signal_limit_atrium_uv, NumberUnit::MilliVolt),
            Chamber::Ventricle => limit(self.signal_limit_ventricle_uv, NumberUnit::MilliVolt),
        }
    }

    /// The unit wants no check once the review is overdue.
    pub fn blocks_when_overdue(&self) -> bool {
        self.approval.as_ref().is_some_and(|approval| approval.blocks_when_overdue)
    }

    /// The example's named rules and switches, its numbers still zero.
    fn bare(id: &str) -> Rules {
        Rules {
            id: id.to_owned(),
            example: true,
            approval: None,
            own_step: 0,
            own_watch_s: 0,
            own_hold_s: 0,
            own_limit: 0,
            sensing_offset: 0,
            capture_offset: 0,
            highest_test_rate: 0,
            sensing_rule: SensingRule::BelowHalf,
            lowest_mv_ventricle_uv: 0,
            lowest_mv_atrium_uv: 0,
            starting_mv_ventricle_uv: 0,
            starting_mv_atrium_uv: 0,
            sensing_stride_percent: 0,
            capture_stride_percent: 0,
            half_rate_in_sensing: false,
            output_rule: OutputRule::EXAMPLE,
            band_below_double_by: None,
            beats_down: 0,
            beats_threshold: 0,
            beats_confirm: 0,
            minimum_output_s: 0,
            after_loss_ups: 0,
            after_loss_s: 0,
            going_up: true,
            margin_check: false,
            age_least: 0,
            emergency_rate: 0,
            check_every_h: 0,
            check_every_narrow_h: 0,
            narrow_multiple_percent: 0,
            sign_off_months: 0,
            erase_after_days: 0,
            capture_limit_ua: 0,
            capture_limit_uv: 0,
            signal_limit_ventricle_uv: 0,
            signal_limit_atrium_uv: 0,
        }
    }
}

fn limit(value: u32, unit: NumberUnit) -> Option<(u32, String)> {
    (value > 0).then(|| (value, unit.text(value)))
}

impl Default for Rules {
    fn default() -> Self {
        Self::example()
    }
}

impl TryFrom<serde_json::Value> for Rules {
    type Error = RulesFault;

    fn try_from(value: serde_json::Value) -> Result<Self, Self::Error> {
        file::read(&value)
    }
}

impl From<Rules> for serde_json::Value {
    fn from(rules: Rules) -> Self {
        file::write(&rules)
    }
}
