//! Integer quantities. Output in µA or µV, sensitivity in µV, rate per minute; no floats decide.

use serde::{Deserialize, Serialize};

/// Micro-units in one milli-unit: the scale of a dial in mA or mV.
pub const MICRO_PER_MILLI: u32 = 1_000;
/// Micro-units in one whole unit: the scale of a dial in volts.
pub const MICRO_PER_WHOLE: u32 = 1_000_000;

/// From one beat to the next at so many a minute, ms, rounded up: a watch is never too short. 0 counts as 1.
pub fn interval_ms(per_minute: u16) -> i64 {
    i64::from(60_000_u32.div_ceil(u32::from(per_minute.max(1))))
}

/// What an output dial is marked in. The two are different scales and never compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum OutputUnit {
    MilliAmp,
    Volt,
}

impl OutputUnit {
    pub fn symbol(self) -> &'static str {
        match self {
            Self::MilliAmp => "mA",
            Self::Volt => "V",
        }
    }

    /// µA in one mA, µV in one V.
    pub fn scale(self) -> u32 {
        match self {
            Self::MilliAmp => MICRO_PER_MILLI,
            Self::Volt => MICRO_PER_WHOLE,
        }
    }
}

/// The exact value of "12", "0.8" or "2.50" in 1/`scale`; `None` when it is no plain decimal,
/// is finer than `scale`, or does not fit.
pub fn scaled(text: &str, scale: u32) -> Option<u32> {
    let (whole, fraction) = text.split_once('.').unwrap_or((text, "0"));
    let whole = digits(whole)? * u64::from(scale);
    let tenths = 10_u64.pow(u32::try_from(fraction.len()).ok()?.min(9));
    let part = digits(fraction)? * u64::from(scale);
    let exact = part.is_multiple_of(tenths).then_some(whole + part / tenths)?;
    u32::try_from(exact).ok()
}

/// Up to nine ASCII digits.
fn digits(text: &str) -> Option<u64> {
    let plain = (1..=9).contains(&text.len()) && text.bytes().all(|b| b.is_ascii_digit());
    plain.then(|| text.parse().ok()).flatten()
}

/// Digits after the point: 0 in "10", 1 in "2.0".
pub fn decimals(text: &str) -> usize {
    text.split_once('.').map_or(0, |(_, fraction)| fraction.len())
}

/// `value` in 1/`scale`, written with exactly `places` digits after the point (those beyond are cut).
pub fn printed(value: u32, scale: u32, places: usize) -> String {
    let scale = scale.max(1);
    if places == 0 {
        return (value / scale).to_string();
    }
    let width = scale.ilog10() as usize;
    let fraction = format!("{:0width$}", value % scale);
    format!("{}.{:0<places$.places$}", value / scale, fraction)
}

/// `value` in 1/`scale` without trailing zeros.
pub fn shortest(value: u32, scale: u32) -> String {
    let full = printed(value, scale, 6);
    full.trim_end_matches('0').trim_end_matches('.').to_owned()
}
