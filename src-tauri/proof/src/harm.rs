//! What must not have happened, by the heart's own numbers.

mod still;

use domain::check::facts::{ASYNCHRONOUS, Found, Marks, NONE};
use domain::flags::Flag;
use domain::practice::Said;
use domain::record::Record;
use observer::Reading;
use simulator::Chamber;

use crate::bystander::{Fibrillation, Gap, Place, SpikeOnT};
use crate::case::Case;
use crate::played::{End, Played};
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
    /// Without beats, something else was done first than to turn OUTPUT up.
    OutputNotFirst(Gap),
    /// Without beats in a heart that brings none in time by itself, and OUTPUT was not turned up.
    NotRestored(Gap),
    /// A captured spike on a T wave, at a number the check had raised; but for the first acts for a heart without
    /// beats, which are counted beside the harms.
    SpikeOnTByCard(SpikeOnT),
    /// The worst that such a spike can do, told once more: whoever is called then takes over.
    FibrillationByCard(Fibrillation),
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
    let by_card = |in_first_acts: bool, place: &Place| {
        !in_first_acts && number(case, &place.dials) > number(case, &case.found)
    };
    let gaps = still::harms(case, played);
    // A run that is handed over ends in that instant: what comes after it is the help's.
    let spikes =
        played.bystander.spikes_on_t.iter().filter(|spike| by_card(spike.in_first_acts, &spike.place));
    let spikes = spikes.cloned().map(Harm::SpikeOnTByCard);
    let fibrillation = played.bystander.fibrillated.iter();
    let fibrillation = fibrillation.filter(|began| by_card(began.in_first_acts, &began.place));
    let fibrillation = fibrillation.cloned().map(Harm::FibrillationByCard);
    gaps.into_iter().chain(spikes).chain(fibrillation).collect()
}

fn at_the_end(case: &Case, played: &Played, record: &Record) -> Vec<Harm> {
    let truth = case.truth();
    let said = Said::of(&record.facts, None);
    let checks = [
        (case.plain && capture_is_untrue(said.capture, &truth, &case.profile), Harm::CaptureUntrue),
        (case.plain && sensing_is_untrue(said.sensing, &truth, &case.profile), Harm::SensingUntrue),
        (case.has_a_steady_threshold() && output_below_rule(case, record), Harm::OutputBelowRule),
        (output_below_found(record), Harm::OutputBelowFound),
        (case.has_a_steady_signal() && blind_unsaid(case, record), Harm::BlindUnsaid),
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
    let Some(least) = least else {
        // A rule of another unit: OUTPUT stays where it makes beats, and somebody is asked.
        return !record.flags.contains(&Flag::RuleOfOtherUnit) || record.output_micro < truth;
    };
    let enough = u64::from(record.output_micro) * 100 >= least;
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
    let number_uv = case.profile.mv_at(record.stays_at.mv);
    let sees = number_uv <= case.truth().smallest_signal_uv || number_uv <= seen_in_its_stead_uv(case);
    // Flags that tell of the end: "did not see as found" and "found asynchronous" tell of the beginning.
    let flagged = record.flags.iter().any(|flag| {
        matches!(flag, Flag::StillBlind | Flag::SeesNothing | Flag::NumberBelowLowest | Flag::NumberRefused)
    });
    let said = flagged || asynchronous && record.facts.marks.has(Marks::ASYNCHRONOUS_ORDERED);
    met_own && (asynchronous || !sees) && !said
}

/// An atrial wire that sees the QRS of each P wave is held by it, and nobody tells its mark from that of the P wave
/// by eye: no card can ask for it.
fn seen_in_its_stead_uv(case: &Case) -> u32 {
    let conducts = case.heart.conduction.is_some() && case.heart.wire == Chamber::Atrium;
    if conducts { case.heart.signal.far_field_uv } else { 0 }
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
