//! What somebody must act on, by names for counting: the sentences may change, these do not.

use domain::flags::Flag;

/// As the record ranks them.
pub fn words(flags: &[Flag]) -> String {
    flags.iter().map(word).collect::<Vec<_>>().join("; ")
}

fn word(flag: &Flag) -> &'static str {
    match flag {
        Flag::NoCaptureAtMaximum => "no_capture_at_maximum",
        Flag::NoRuleSatisfied => "no_rule_satisfied",
        Flag::RuleOfOtherUnit => "rule_of_other_unit",
        Flag::NotPacedOver => "not_paced_over",
        Flag::StillBlind => "own_beats_not_marked",
        Flag::SeesNothing => "sees_nothing",
        Flag::WrongChamber => "wrong_chamber",
        Flag::NoBeats => "no_beats",
        Flag::Shock => "shock",
        Flag::Fibrillation => "fibrillation",
        Flag::LostUnsought => "spike_without_beat",
        Flag::FoundDidNotCapture => "found_did_not_capture",
        Flag::DidNotSeeAsFound => "found_did_not_see",
        Flag::NumberBelowLowest => "number_below_lowest",
        Flag::NumberRefused => "number_refused",
        Flag::NotNarrowed { .. } => "not_narrowed",
        Flag::CaptureAboveLimit { .. } => "capture_above_limit",
        Flag::SignalBelowLimit { .. } => "signal_below_limit",
        Flag::FoundMarginBelowRule { .. } => "found_margin_below_rule",
        Flag::LeftAsRead => "left_as_read",
        Flag::BlockFromRate => "block_at_faster_rate",
        Flag::Pauses => "pauses",
        Flag::ExtraBeatUnmarked => "extra_beat_not_marked",
        Flag::MarksWithoutBeats => "marks_without_beats",
        Flag::Climbs { .. } => "threshold_climbs",
        Flag::Doubled { .. } => "threshold_doubled",
        Flag::HalfSignalGone { .. } => "half_signal_gone",
        Flag::FoundAsynchronous => "found_asynchronous",
        Flag::NotTolerated => "not_tolerated",
        Flag::SpikeAtMinimumMadeABeat => "beat_at_minimum_output",
        Flag::NotRead => "not_read",
        Flag::Away => "away",
        Flag::Slip => "slip",
        Flag::ClockSet { .. } => "clock_set",
    }
}
