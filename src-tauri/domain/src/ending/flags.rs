//! Which flags a check raises: from what was marked in it, from its plan, and from the record before.

use super::climb::climb;
use super::due::by_rule_ms;
use crate::check::facts::{ASYNCHRONOUS, Facts, Found, Marks, NONE, Why};
use crate::check::setup::Setup;
use crate::check::target::{number_by_rule, output_by_rule};
use crate::flags::Flag;
use crate::plan::{MvPlan, OutputPlan, is_below_rule, output_stride_down};
use crate::profile::Position;
use crate::record::Record;
use crate::units::shortest;

/// Most urgent first, each once.
pub fn flags(setup: &Setup<'_>, record: &Record, facts: &Facts, history: &[Record]) -> Vec<Flag> {
    let mut flags = marked(facts);
    flags.extend(lost_unsought(facts));
    flags.extend(sees_not(setup, record, facts));
    flags.extend(planned(setup, facts));
    flags.extend(above_limit(setup, record, facts));
    flags.extend(below_limit(setup, record, facts));
    flags.extend(found_margin(setup, record, facts));
    flags.extend(not_narrowed(setup, record, facts));
    flags.extend(doubled(record, history).filter(|_| !facts.is_wide_bracket()));
    flags.extend(climbs(setup, record, history));
    flags.extend(half_signal_gone(setup, record, facts, history));
    flags.extend((!record.read).then_some(Flag::NotRead));
    flags.sort();
    flags.dedup();
    flags
}

fn marked(facts: &Facts) -> Vec<Flag> {
    [
        (Marks::STILL_BLIND, Flag::StillBlind),
        (Marks::NOT_PACED_OVER, Flag::NotPacedOver),
        (Marks::WRONG_CHAMBER, Flag::WrongChamber),
        (Marks::NO_BEATS, Flag::NoBeats),
        (Marks::SHOCK, Flag::Shock),
        (Marks::FIBRILLATION, Flag::Fibrillation),
        (Marks::NO_CAPTURE_AT_MAXIMUM, Flag::NoCaptureAtMaximum),
        (Marks::FOUND_DID_NOT_CAPTURE, Flag::FoundDidNotCapture),
        (Marks::DID_NOT_SEE_AS_FOUND, Flag::DidNotSeeAsFound),
        (Marks::LEFT_AS_READ, Flag::LeftAsRead),
        (Marks::BLOCK_FROM_RATE, Flag::BlockFromRate),
        (Marks::PAUSES, Flag::Pauses),
        (Marks::EXTRA_BEAT_UNMARKED, Flag::ExtraBeatUnmarked),
        (Marks::MARKS_WITHOUT_BEATS, Flag::MarksWithoutBeats),
        (Marks::FOUND_ASYNCHRONOUS, Flag::FoundAsynchronous),
        (Marks::NOT_TOLERATED, Flag::NotTolerated),
        (Marks::SPIKE_AT_MINIMUM_MADE_A_BEAT, Flag::SpikeAtMinimumMadeABeat),
        (Marks::AWAY, Flag::Away),
        (Marks::SLIP, Flag::Slip),
    ]
    .into_iter()
    .filter_map(|(mark, flag)| facts.marks.has(mark).then_some(flag))
    .collect()
}

/// Own beats were missed, and the number that stays was not seen to mark them; or an emergency, or pauses, left one that sees none.
fn sees_not(setup: &Setup<'_>, record: &Record, facts: &Facts) -> Option<Flag> {
    let stays = record.stays_at.mv;
    let by_this_check = facts.marks.has(Marks::EMERGENCY) || facts.marks.has(Marks::PAUSES);
    let ordered = facts.marks.has(Marks::ASYNCHRONOUS_ORDERED);
    if stays == setup.blindest() && by_this_check && !ordered {
        return Some(Flag::SeesNothing);
    }
    let seen = facts.saw != NONE && stays <= facts.saw;
    (facts.missed != NONE && stays != ASYNCHRONOUS && !seen).then_some(Flag::StillBlind)
}

/// Said in one flag: at the OUTPUT found it has its own.
fn lost_unsought(facts: &Facts) -> Option<Flag> {
    let said = facts.marks.has(Marks::FOUND_DID_NOT_CAPTURE);
    (facts.marks.has(Marks::LOST_UNSOUGHT) && !said).then_some(Flag::LostUnsought)
}

/// Where the unit's rule on this check's thresholds has no position, or none inside the band.
fn planned(setup: &Setup<'_>, facts: &Facts) -> Vec<Flag> {
    let lost_at_maximum = facts.lost != NONE && facts.lost >= setup.maximum();
    let no_capture = lost_at_maximum || facts.why_capture == Why::NoCaptureAtMaximum;
    let no_position = matches!(
        output_by_rule(setup, facts),
        Some(OutputPlan::Maximum | OutputPlan::At { flagged: true, .. })
    );
    let other_unit = matches!(output_by_rule(setup, facts), Some(OutputPlan::OtherUnit));
    let number = number_by_rule(setup, facts);
    [
        (no_capture, Flag::NoCaptureAtMaximum),
        (no_position, Flag::NoRuleSatisfied),
        (other_unit, Flag::RuleOfOtherUnit),
        (number == Some(MvPlan::BelowLowest), Flag::NumberBelowLowest),
        (number == Some(MvPlan::Refused), Flag::NumberRefused),
    ]
    .into_iter()
    .filter_map(|(raised, flag)| raised.then_some(flag))
    .collect()
}

/// Where the unit has set a limit in the unit of this dial. "At most" says nothing of how low the threshold was, and
/// of a wide bracket counts only what is sure: the threshold lies above the output that lost.
fn above_limit(setup: &Setup<'_>, record: &Record, facts: &Facts) -> Option<Flag> {
    let (limit, text) = setup.rules.capture_limit(record.unit)?;
    let least = match record.capture {
        Found::Exact => facts.capture_at,
        Found::Bracket => facts.capture_at.min(above_loss(setup, facts)),
        Found::Nothing | Found::AtLeast | Found::AtMost | Found::SeenWhereItStood | Found::SeenAtNone => {
            return None;
        }
    };
    (setup.profile.output_at(least) > limit).then(|| Flag::CaptureAboveLimit {
        is: record.capture_text.clone().unwrap_or_default(),
        limit: text,
        unit: record.unit,
    })
}

/// Where the unit has set a limit for this chamber.
fn below_limit(setup: &Setup<'_>, record: &Record, facts: &Facts) -> Option<Flag> {
    let (limit_uv, limit) = setup.rules.signal_limit(setup.chamber)?;
    signal_below(setup, record, facts, limit_uv).map(|is| Flag::SignalBelowLimit { is, limit })
}

/// The signal as it is said, where it is known to lie below. "At least" says nothing of how high it is; where no
/// number saw every beat it lies below the lowest that missed one. Where none has, pauses ended the search.
fn signal_below(setup: &Setup<'_>, record: &Record, facts: &Facts, bound_uv: u32) -> Option<String> {
    let (at, is_below) = match record.sensing {
        Found::Exact => (facts.sensing_at, setup.profile.mv_at(facts.sensing_at) < bound_uv),
        Found::SeenAtNone if facts.missed != NONE => {
            (facts.missed, setup.profile.mv_at(facts.missed) <= bound_uv)
        }
        Found::Nothing
        | Found::AtLeast
        | Found::AtMost
        | Found::Bracket
        | Found::SeenWhereItStood
        | Found::SeenAtNone => return None,
    };
    let number = setup.profile.mv_text(at);
    let said = if record.sensing == Found::Exact { number.to_owned() } else { format!("< {number}") };
    is_below.then_some(said)
}

/// A near miss, said plainly: the output as found was less than the rule asks on today's threshold.
fn found_margin(setup: &Setup<'_>, record: &Record, facts: &Facts) -> Option<Flag> {
    if facts.is_wide_bracket() {
        return None;
    }
    let multiple = record.found_multiple.clone()?;
    let below = is_below_rule(setup.profile, setup.rules, facts.found.output, facts.capture_at);
    below.then_some(Flag::FoundMarginBelowRule { multiple })
}

/// A bracket wider than one stride of the search: OUTPUT is planned on its upper end, which may lie far above the
/// threshold.
fn not_narrowed(setup: &Setup<'_>, record: &Record, facts: &Facts) -> Option<Flag> {
    let (low, high) = record.capture_low_text.clone().zip(record.capture_text.clone())?;
    let a_stride_down = output_stride_down(setup.profile, setup.rules, facts.capture_at)?;
    let wide = facts.capture == Found::Bracket && a_stride_down > facts.capture_low;
    wide.then_some(Flag::NotNarrowed { low, high })
}
/// The lowest position that may be the threshold of a bracket.
fn above_loss(setup: &Setup<'_>, facts: &Facts) -> Position {
    facts.capture_low.saturating_add(1).min(setup.maximum())
}

/// At least twice the last threshold it compares with. "At most" says nothing of how low it was.
fn doubled(record: &Record, history: &[Record]) -> Option<Flag> {
    let measured = matches!(record.capture, Found::Exact | Found::Bracket);
    let last = history.iter().rev().find(|earlier| record.compares_with(earlier)).filter(|_| measured)?;
    let (was, is) = (last.capture_micro?, record.capture_micro?);
    (is >= was.saturating_mul(2)).then(|| Flag::Doubled {
        was: last.capture_text.clone().unwrap_or_default(),
        is: record.capture_text.clone().unwrap_or_default(),
    })
}

/// A climb over days that may eat the margin before the check the rule alone would ask for.
fn climbs(setup: &Setup<'_>, record: &Record, history: &[Record]) -> Option<Flag> {
    let climb = climb(setup, record, history)?;
    let eaten = climb.gone_ms < by_rule_ms(setup, record, history);
    // Upward: a climb is never shown smaller than it is.
    let hundredths = climb.per_day.div_ceil(record.unit.scale() / 100);
    let per_day = shortest(hundredths, 100);
    eaten.then_some(Flag::Climbs { per_day, unit: record.unit })
}

/// Half of the last signal is no longer seen (EGM33: half of the first signal exceeded the later mean).
fn half_signal_gone(setup: &Setup<'_>, record: &Record, facts: &Facts, history: &[Record]) -> Option<Flag> {
    let last = history.iter().rev().find(|earlier| earlier.signal_uv().is_some())?;
    let was = last.signal_uv()?;
    let is = signal_below(setup, record, facts, was.div_ceil(2))?;
    Some(Flag::HalfSignalGone { was: last.sensing_text.clone().unwrap_or_default(), is })
}
