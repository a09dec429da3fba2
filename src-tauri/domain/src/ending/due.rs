//! When the next check is due.

use super::climb::climb;
use crate::check::facts::{Found, Why};
use crate::check::setup::Setup;
use crate::flags::Flag;
use crate::record::Record;
use crate::state::bed::DueNow;

const HOUR_MS: i64 = 60 * 60 * 1000;

/// Wall clock, ms. By the unit's rule; sooner where the margin is narrow or the threshold rises, and before a climb
/// over days has eaten it; now where this check has shown that its own results cannot be trusted to last.
pub fn due_ms(setup: &Setup<'_>, record: &Record, history: &[Record]) -> i64 {
    let ended = record.ended.wall_ms;
    if is_due_now(record) {
        return ended;
    }
    if was_broken_off(record) {
        return history.last().map_or(ended, |last| last.due_ms);
    }
    let by_rule = by_rule_ms(setup, record, history);
    climb(setup, record, history).map_or(by_rule, |climb| by_rule.min(climb.gone_ms))
}

/// Without the slope over days.
pub fn by_rule_ms(setup: &Setup<'_>, record: &Record, history: &[Record]) -> i64 {
    let narrow = is_narrow(setup, record) || is_rising(record, history);
    let hours = if narrow { setup.rules.check_every_narrow_h } else { setup.rules.check_every_h };
    record.ended.wall_ms + i64::from(hours) * HOUR_MS
}

/// Why the next check is due at once: by what this one has shown, else by what made it due, where it was
/// broken off and has answered nothing.
pub fn due_now(record: &Record, before: Option<DueNow>) -> Option<DueNow> {
    let raised = [(Flag::Shock, DueNow::Shock), (Flag::NoBeats, DueNow::NoBeats)];
    let shown = raised.into_iter().find(|(flag, _)| record.flags.contains(flag)).map(|(_, why)| why);
    shown.or(before.filter(|_| was_broken_off(record)))
}

/// After a shock thresholds rise and fall again (SHOCK); after lost beats nothing measured holds.
fn is_due_now(record: &Record) -> bool {
    record.flags.iter().any(|flag| {
        matches!(
            flag,
            Flag::Shock
                | Flag::Fibrillation
                | Flag::NoBeats
                | Flag::NoCaptureAtMaximum
                | Flag::NotPacedOver
                | Flag::LostUnsought
                | Flag::FoundDidNotCapture
        )
    })
}

/// Stopped, or the tablet was away, before any test was done: the check is still owed.
fn was_broken_off(record: &Record) -> bool {
    let left = |why: Why| matches!(why, Why::Stopped | Why::Away);
    record.sensing == Found::Nothing
        && record.capture == Found::Nothing
        && left(record.why_sensing)
        && left(record.why_capture)
}

/// The set output is at or below the unit's narrow multiple of the threshold.
fn is_narrow(setup: &Setup<'_>, record: &Record) -> bool {
    record.capture_micro.is_some_and(|threshold| {
        u64::from(record.output_micro) * 100
            <= u64::from(threshold) * u64::from(setup.rules.narrow_multiple_percent)
    })
}

/// Higher than the last threshold it compares with.
fn is_rising(record: &Record, history: &[Record]) -> bool {
    let last = history.iter().rev().find(|earlier| record.compares_with(earlier));
    last.is_some_and(|last| record.capture_micro > last.capture_micro)
}
