//! The rule behind a figure, and why a test was not done.

use super::Card;
use crate::check::facts::{ASYNCHRONOUS, Dial, Dials, Facts, Found, Known, Marks, NONE, Why};
use crate::check::sensing;
use crate::check::setup::Setup;
use crate::check::step::Step;
use crate::check::target::{number_by_rule, output_by_rule};
use crate::moment::Moment;
use crate::plan::{MvPlan, OutputPlan, multiple_text};
use crate::say::Say;
use crate::view::why::Looked;
use crate::view::{figures, rule_names};

pub fn reason(card: &Card<'_>) -> Option<Say> {
    use Step as S;
    let rules = card.setup.rules;
    let facts = card.facts;
    if is_off_course(facts) {
        return Some(Say::OffCourseReason);
    }
    Some(match facts.step {
        S::FirstMaximum => Say::FirstMaximumReason,
        S::AsynchronousOff => Say::AsynchronousOffReason,
        S::AsynchronousOn => Say::AsynchronousOnReason,
        S::OwnDown => {
            Say::OwnDownReason { step: rules.own_step.to_string(), limit: rules.own_limit.to_string() }
        }
        S::BlindRateUp => Say::BlindRateReason,
        S::BlindMvDown if is_too_fast(card) => Say::BlindNumberFastReason,
        S::BlindMvDown => Say::BlindNumberReason,
        S::OwnBack => {
            Say::OwnBackReason { why: Box::new(why(card.setup, facts, facts.why_capture, card.now)?) }
        }
        S::SenseRate => sense_rate(card),
        S::SenseMinimum => Say::SenseMinimumReason,
        S::SenseUp => Say::SenseUpReason,
        S::SenseDown => Say::SenseDownReason,
        S::SenseMvOut => Say::SenseMvOutReason,
        S::SenseOutputOut => Say::SenseOutputOutReason,
        S::CaptureRate => Say::CaptureRateReason {
            offset: rules.capture_offset.to_string(),
            own: facts.own_fastest.to_string(),
        },
        S::CaptureDown => Say::CaptureDownReason,
        S::CaptureBack => Say::CaptureBackReason,
        S::CaptureUp => Say::CaptureUpReason,
        S::CaptureRestore => Say::CaptureRestoreReason,
        S::CaptureOut => Say::CaptureOutReason,
        S::CaptureMaximum => Say::CaptureMaximumReason,
        S::CaptureRateDown if facts.to >= facts.stand.rate => Say::BlockAtFoundRateReason,
        S::CaptureRateDown => Say::CaptureRateDownReason,
        S::MarginOne => Say::MarginOneReason,
        S::MarginHalf => {
            let restore = crate::check::restore::target(card.setup, facts).output;
            Say::MarginHalfReason { restore: figures::text(card.setup.profile, Dial::Output, restore) }
        }
        S::MarginBack => Say::MarginBackReason,
        S::SetOutput => set_output(card),
        S::SetRate if facts.emergency_rate != NONE => Say::SetRateEmergency,
        S::SetRate => Say::SetRateReason,
        S::SetMv => set_mv(card),
        S::NoBeats => Say::NoBeatsReason,
        S::AfterShock => Say::AfterShockReason,
        _ => return None,
    })
}

/// RATE was not raised above own beats that it cannot be raised above.
fn is_too_fast(card: &Card<'_>) -> bool {
    card.facts.own_faster_than(card.setup.profile.rate_at(card.facts.stand.rate))
}

/// The dial stood elsewhere, beyond the position of this card: it turns the other way than its stage.
fn is_off_course(facts: &Facts) -> bool {
    use Step as S;
    let (from, to) = (facts.stand.at(facts.dial), facts.to);
    if from == ASYNCHRONOUS || to == ASYNCHRONOUS {
        return false;
    }
    match facts.step {
        S::OwnDown | S::BlindMvDown | S::SenseMinimum | S::SenseDown => to > from,
        S::CaptureDown | S::CaptureRateDown => to > from,
        S::MarginOne | S::MarginHalf => to > from,
        S::BlindRateUp | S::OwnBack | S::SenseUp | S::SenseOutputOut | S::CaptureBack => to < from,
        S::CaptureUp | S::CaptureRestore | S::CaptureOut | S::MarginBack => to < from,
        S::SetMv => to > from && !facts.marks.has(Marks::PAUSES),
        _ => false,
    }
}

/// Lower than the unit's offset asks for: said why.
fn sense_rate(card: &Card<'_>) -> Say {
    let (setup, facts) = (card.setup, card.facts);
    match sensing::highest_rate(setup, facts) {
        Some(highest) if facts.to < highest && setup.minimum_may_surprise(facts) => Say::SenseRateLateReason,
        _ => Say::SenseRateReason {
            offset: setup.rules.sensing_offset.to_string(),
            own: facts.own_slowest.to_string(),
        },
    }
}

fn set_output(card: &Card<'_>) -> Say {
    let (setup, facts) = (card.setup, card.facts);
    let rule = Box::new(rule_names::output(setup.rules, setup.profile.output_unit()));
    let multiple = multiple_text(setup.profile, facts.to, facts.capture_at);
    let threshold = figures::text(setup.profile, Dial::Output, facts.capture_at);
    match output_by_rule(setup, facts) {
        Some(OutputPlan::Maximum) => {
            Say::SetOutputNoPosition { figure: figures::text(setup.profile, Dial::Output, facts.to) }
        }
        Some(OutputPlan::OtherUnit) => Say::SetOutputOtherUnit,
        Some(OutputPlan::At { position, .. }) if position != facts.to => Say::SetOutputNotBelowRestore,
        Some(OutputPlan::At { flagged: true, .. }) => Say::SetOutputFlagged { rule },
        _ if facts.is_wide_bracket() => Say::SetOutputBracket { multiple, threshold, rule },
        _ if facts.capture == Found::AtMost => Say::SetOutputAtMost { multiple, threshold, rule },
        _ => Say::SetOutputReason { multiple, threshold, rule },
    }
}

fn set_mv(card: &Card<'_>) -> Say {
    let (setup, facts) = (card.setup, card.facts);
    if facts.stand.mv == ASYNCHRONOUS && facts.to != ASYNCHRONOUS {
        return Say::SetMvOwnBack;
    }
    // The plan only lowers: it is pauses that lead up.
    if facts.to > facts.stand.mv && facts.marks.has(Marks::PAUSES) {
        return Say::SetMvPauses;
    }
    match number_by_rule(setup, facts) {
        Some(MvPlan::Down { .. }) => Say::SetMvByRule {
            threshold: figures::text(setup.profile, Dial::Mv, facts.sensing_at),
            rule: Box::new(rule_names::sensing(setup.rules)),
        },
        Some(MvPlan::Stays) => Say::SetMvStays,
        Some(MvPlan::BelowLowest) => Say::SetMvBelowLowest,
        Some(MvPlan::Refused) => Say::SetMvRefused,
        None if facts.to < facts.stand.mv && facts.missed == facts.stand.mv => Say::SetMvMissed,
        None if facts.found_sees == Known::No => Say::SetMvDidNotSee,
        None => Say::SetMvNothingTested,
    }
}

/// Where restore differs from what was found, the strip says so.
pub fn restore_note(card: &Card<'_>, target: Dials) -> Option<Say> {
    let found = card.facts.found;
    let profile = card.setup.profile;
    if card.facts.found_sees == Known::No && found.mv != ASYNCHRONOUS && target.mv < found.mv {
        return Some(Say::RestoreNumberNote {
            restore: figures::text(profile, Dial::Mv, target.mv),
            found: figures::text(profile, Dial::Mv, found.mv),
        });
    }
    (card.facts.found_captures == Known::No && target.output == card.setup.maximum())
        .then_some(Say::RestoreAtMaximum)
}

/// Why a test was not done, in words that are no fault.
pub fn why(setup: &Setup<'_>, facts: &Facts, why: Why, now: Moment) -> Option<Say> {
    let looked = Looked {
        limit: setup.rules.own_limit.to_string(),
        time: now.clock(),
        slowest: facts.own_slowest,
        fastest: facts.own_fastest,
        highest: setup.rules.highest_test_rate.to_string(),
    };
    crate::view::why::why(&looked, why)
}
