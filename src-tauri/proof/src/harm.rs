//! What must not have happened, by the heart's own numbers.

use domain::check::facts::{ASYNCHRONOUS, Found, NONE};
use domain::flags::Flag;
use domain::practice::Said;
use domain::record::Record;
use observer::{Dial, Reading};
use simulator::{AtrialRhythm, Chamber};

use crate::bystander::{ACT_US, Gap, LONGEST_GAP_US, SpikeOnT};
use crate::case::Case;
use crate::play::{End, Played};
use practice::truth::{capture_is_untrue, least_by_rule, sensing_is_untrue};

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Harm {
    /// The threshold said is not the heart's.
    CaptureUntrue,
    SensingUntrue,
    /// OUTPUT does not satisfy the rule on the true threshold, nor stand at maximum with a call.
    OutputBelowRule,
    /// OUTPUT stands lower than it was found, and no threshold was measured.
    OutputBelowFound,
    /// The generator does not see the own beats the check met, and the record does not say so.
    BlindUnsaid,
    RateBelowFound,
    /// The record says the dials stand elsewhere than they do.
    StaysElsewhere,
    WithoutBeats(Gap),
    /// Without beats, something else than OUTPUT was turned first.
    OutputNotFirst(Gap),
    /// A captured spike on a T wave, at a number the check had raised; but for the first acts for a heart without
    /// beats, which are counted beside the harms.
    SpikeOnTByCard(SpikeOnT),
    /// Help was called, and OUTPUT is not at its maximum.
    EmergencyBelowMaximum,
}

/// Nothing is left out: every harm of a run, each with its evidence.
pub fn harms(case: &Case, played: &Played) -> Vec<Harm> {
    let mut harms = on_the_way(case, played);
    match (&played.record, &played.end) {
        (Some(record), _) => harms.extend(at_the_end(case, played, record)),
        (None, End::HandedOver) if !is_at_maximum(case, &played.stays) => {
            harms.push(Harm::EmergencyBelowMaximum)
        }
        (None, _) => {}
    }
    harms
}

fn on_the_way(case: &Case, played: &Played) -> Vec<Harm> {
    let gaps = played.bystander.gaps.iter().filter(|gap| !gap.fibrillating);
    // Where noise holds the spikes, OUTPUT alone brings no beat: asynchronous is one act more.
    let acts = if case.heart.noise.is_some() { 2 } else { 1 };
    let bound = if may_stand_still(case) {
        longest_escape(case).max(LONGEST_GAP_US) + acts * ACT_US
    } else {
        LONGEST_GAP_US
    };
    // Where the highest output does not capture, no dial helps; nor does the check in a gap that it came to.
    let helpless = case.profile.output_at(case.profile.output_last()) < case.truth().going_up_micro;
    let too_long = |gap: &&Gap| gap.us > bound && !gap.from.stage.is_empty() && !helpless;
    let unattended = |gap: &&Gap| {
        gap.then.as_ref().is_some_and(|(dial, dials)| *dial != Dial::Output && !is_at_maximum(case, dials))
    };
    let raised = |spike: &&SpikeOnT| number(case, &spike.place.dials) > number(case, &case.found);
    let harms = gaps.clone().filter(too_long).cloned().map(Harm::WithoutBeats);
    let order = gaps.filter(unattended).cloned().map(Harm::OutputNotFirst);
    let counts = |spike: &&SpikeOnT| !spike.in_first_acts && played.end != End::HandedOver;
    let spikes = played.bystander.spikes_on_t.iter().filter(raised).filter(counts);
    let spikes = spikes.cloned().map(Harm::SpikeOnTByCard);
    harms.chain(order).chain(spikes).collect()
}

fn at_the_end(case: &Case, played: &Played, record: &Record) -> Vec<Harm> {
    let truth = case.truth();
    let said = Said::of(&record.facts, None);
    let checks = [
        (case.plain && capture_is_untrue(said.capture, &truth, &case.profile), Harm::CaptureUntrue),
        (case.plain && sensing_is_untrue(said.sensing, &truth, &case.profile), Harm::SensingUntrue),
        (case.plain && output_below_rule(case, record), Harm::OutputBelowRule),
        (output_below_found(record), Harm::OutputBelowFound),
        (case.plain && blind_unsaid(case, record), Harm::BlindUnsaid),
        (
            record.facts.found.rate != NONE && record.stays_at.rate < record.facts.found.rate,
            Harm::RateBelowFound,
        ),
        (record.stays.as_ref().is_some_and(|said| differs(said, &played.stays)), Harm::StaysElsewhere),
    ];
    checks.into_iter().filter_map(|(so, harm)| so.then_some(harm)).collect()
}

fn measured(record: &Record) -> bool {
    matches!(record.capture, Found::Exact | Found::AtMost | Found::Bracket)
}

fn output_below_rule(case: &Case, record: &Record) -> bool {
    if !measured(record) {
        return false;
    }
    // "At most" was never lost: nobody has seen what it takes going up.
    let lowest = case.profile.output_at(0);
    let truth = if record.capture == Found::AtMost { lowest } else { case.truth().going_up_micro };
    let least = least_by_rule(&case.rules, record.unit, truth);
    let enough = least.is_some_and(|least| u64::from(record.output_micro) * 100 >= least);
    let called =
        record.flags.iter().any(|flag| matches!(flag, Flag::NoRuleSatisfied | Flag::NoCaptureAtMaximum));
    let at_maximum = record.stays_at.output == case.profile.output_last();
    !(enough || called && at_maximum)
}

fn output_below_found(record: &Record) -> bool {
    let found = record.facts.found.output;
    !measured(record) && found != NONE && record.stays_at.output < found
}

fn blind_unsaid(case: &Case, record: &Record) -> bool {
    let met_own = record.facts.saw != NONE || record.facts.missed != NONE;
    let asynchronous = record.stays_at.mv == ASYNCHRONOUS;
    let sees = !asynchronous && case.profile.mv_at(record.stays_at.mv) <= case.truth().smallest_signal_uv;
    let said = record.flags.iter().any(|flag| {
        matches!(
            flag,
            Flag::StillBlind | Flag::DidNotSeeAsFound | Flag::NumberRefused | Flag::FoundAsynchronous
        )
    });
    met_own && !sees && !said
}

fn is_at_maximum(case: &Case, reading: &Reading) -> bool {
    reading.output == case.profile.output_text(case.profile.output_last())
}

pub fn is_at_minimum(case: &Case, reading: &Reading) -> bool {
    reading.output == case.profile.output_text(0)
}

fn differs(said: &domain::record::Printed, stands: &Reading) -> bool {
    said.output != stands.output || said.rate != stands.rate || said.mv != stands.mv
}

/// Asynchronous counts above every number.
fn number(case: &Case, reading: &Reading) -> u32 {
    let at = reading.mv.as_ref().and_then(|text| case.profile.read_mv(text).ok());
    at.map_or(u32::MAX, |at| case.profile.mv_at(at))
}

/// The heart never escapes, or not in time: then four seconds may pass, and the next act must be restore.
fn may_stand_still(case: &Case) -> bool {
    longest_escape(case) > LONGEST_GAP_US || case.heart.standstill.is_some()
}

/// How long this heart can be without a beat of its own, µs. A ventricle that stops by itself is not helped by
/// an atrial wire without conduction.
fn longest_escape(case: &Case) -> u64 {
    let heart = &case.heart;
    let out_of_reach = heart.wire == Chamber::Atrium && heart.conduction.is_none();
    if let Some(standstill) = heart.standstill.filter(|_| out_of_reach) {
        return standstill.lasts_us.into();
    }
    if let Some(escape) = heart.escape {
        let slept = escape.suppression.map_or(0, |habit| habit.longest_us);
        return u64::from(escape.interval_us) + u64::from(escape.scatter_us) + u64::from(slept);
    }
    if let (AtrialRhythm::Recorded(recording), Chamber::Ventricle) = (&heart.atrium, heart.wire) {
        return recording.slowest_us();
    }
    let conducted = heart.conduction.is_some() && heart.atrium != AtrialRhythm::Silent;
    let usual = if conducted && heart.wire == Chamber::Ventricle { 2_000_000 } else { u64::from(u32::MAX) };
    if heart.vulnerable.is_some() { u64::from(u32::MAX) } else { usual }
}
