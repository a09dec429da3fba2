//! English. Frozen: once released, a table is never edited, only followed by the next.

use super::Phrase;

/// Format version 1.
pub fn version_1(phrase: Phrase) -> &'static str {
    match phrase {
        Phrase::LabelHead => "HOLDFAST 1 en",
        Phrase::LabelPractice => "PRACTICE",
        Phrase::LabelExampleRules => "EXAMPLE RULES",
        Phrase::LabelCheck => "Check",
        Phrase::LabelDials => "Dials",
        Phrase::LabelWritten => "Written",
        Phrase::LabelRate => "RATE",
        Phrase::LabelOutput => "OUTPUT",
        Phrase::LabelNumber => "mV",
        Phrase::LabelCapture => "Capture threshold",
        Phrase::LabelMargin => "Margin",
        Phrase::LabelSensing => "Sensing threshold",
        Phrase::LabelOwn => "Own beats",
        Phrase::LabelPulseWidth => "Pulse width",
        Phrase::LabelNext => "Next check",
        Phrase::LabelFlags => "Flags",
        Phrase::LabelShortened => "SHORTENED",
        Phrase::Wire => "{} {}, {}",
        Phrase::Atrial => "atrial",
        Phrase::Ventricular => "ventricular",
        Phrase::Epicardial => "epicardial wire",
        Phrase::Transvenous => "transvenous lead",
        Phrase::Bipolar => "bipolar",
        Phrase::Unipolar => "unipolar",
        Phrase::NotAPatient => "not a patient",
        Phrase::LocalRulesFirst => "local rules first",
        Phrase::DialsRead => "read {} {}",
        Phrase::DialsNotRead => "NOT read {} {}",
        // Not said in this version: nothing that is written matches it.
        Phrase::DialsReadLater
        | Phrase::FlagLeftAsRead
        | Phrase::FlagCaptureAboveLimit
        | Phrase::FlagMarksWithoutBeats
        | Phrase::FlagFibrillation
        | Phrase::FlagLostUnsought
        | Phrase::FlagNotPacedOver
        | Phrase::FlagNumberBelowLowest
        | Phrase::OwnUnmeasured
        | Phrase::CaptureHeld
        | Phrase::FlagSeesNothing
        | Phrase::FlagSignalBelowLimit => "",
        Phrase::AgeMinutes => "{} min later",
        Phrase::AgeHours => "{} h {} min later",
        Phrase::PerMinute => "{} /min",
        Phrase::Asynchronous => "asynchronous",
        Phrase::NotTested => "not tested",
        Phrase::CaptureExact => "{} {}, going up",
        Phrase::CaptureBracket => "{} to {} {}, going down",
        Phrase::CaptureAtMost => "at most {} {}, going down",
        Phrase::Margin => "{} x",
        Phrase::MarginAtLeast => "at least {} x",
        Phrase::SensingExact => "{} mV",
        Phrase::SensingAtLeast => "at least {} mV",
        Phrase::SensingAsFound => "at least {} mV, as found",
        Phrase::SensingNone => "no number saw",
        Phrase::OwnNotLooked => "not looked for",
        Phrase::OwnNoneSeen => "none seen down to {} /min",
        Phrase::OwnSeen => "{} /min",
        Phrase::OwnRange => "{} to {} /min",
        Phrase::OwnLost => "{} /min, then lost",
        Phrase::OwnRangeLost => "{} to {} /min, then lost",
        Phrase::Milliseconds => "{} ms",
        Phrase::NextNow => "now",
        Phrase::NextAt => "{}",
        Phrase::LeftOut => "{} facts left out",
        Phrase::FlagNoCaptureAtMaximum => "no capture at maximum",
        Phrase::FlagNoRuleSatisfied => "no position fits the rule",
        Phrase::FlagStillBlind => "own beats not seen",
        Phrase::FlagWrongChamber => "atrial spike, wide beat",
        Phrase::FlagNoBeats => "no beats in check",
        Phrase::FlagShock => "shock given",
        Phrase::FlagFoundDidNotCapture => "found output failed",
        Phrase::FlagDidNotSeeAsFound => "found mV did not see",
        Phrase::FlagNumberRefused => "no lower mV allowed",
        Phrase::FlagFoundMargin => "found at {} x",
        Phrase::FlagBlockFromRate => "block at faster rate",
        Phrase::FlagPauses => "pauses seen",
        Phrase::FlagExtraBeatUnmarked => "extra beats not seen",
        Phrase::FlagDoubled => "threshold doubled from {} {}",
        Phrase::FlagSignalHalved => "signal halved from {} mV",
        Phrase::FlagFoundAsynchronous => "found asynchronous",
        Phrase::FlagNotTolerated => "not tolerated",
        Phrase::FlagSpikeAtMinimum => "captures at minimum",
    }
}

/// Format version 2: version 1, a reading that came after the check, and a dial that was left where it was read.
/// Written only where there was one.
pub fn version_2(phrase: Phrase) -> &'static str {
    const OTHERWISE: [(Phrase, &str); 3] = [
        (Phrase::LabelHead, "HOLDFAST 2 en"),
        (Phrase::DialsReadLater, "NOT read {} {}, read {} min later"),
        (Phrase::FlagLeftAsRead, "dial left as read"),
    ];
    otherwise(&OTHERWISE, phrase).unwrap_or_else(|| version_1(phrase))
}

/// Format version 3: version 2, the limits that a unit may set, and marks without beats. Written only where one was
/// passed, or they came.
pub fn version_3(phrase: Phrase) -> &'static str {
    const OTHERWISE: [(Phrase, &str); 4] = [
        (Phrase::LabelHead, "HOLDFAST 3 en"),
        (Phrase::FlagCaptureAboveLimit, "threshold above limit {} {}"),
        (Phrase::FlagSignalBelowLimit, "signal below limit {} mV"),
        (Phrase::FlagMarksWithoutBeats, "marks without beats"),
    ];
    otherwise(&OTHERWISE, phrase).unwrap_or_else(|| version_2(phrase))
}

/// Format version 4: version 3, fibrillation, a spike without a beat where none was sought, and a generator left so
/// that it sees nothing. Written only where one was.
pub fn version_4(phrase: Phrase) -> &'static str {
    const OTHERWISE: [(Phrase, &str); 4] = [
        (Phrase::LabelHead, "HOLDFAST 4 en"),
        (Phrase::FlagFibrillation, "fast wide rhythm or no pulse"),
        (Phrase::FlagLostUnsought, "a spike made no beat"),
        (Phrase::FlagSeesNothing, "left so that it sees nothing"),
    ];
    otherwise(&OTHERWISE, phrase).unwrap_or_else(|| version_3(phrase))
}

/// Format version 5: version 4, own beats that were seen and not measured, and among spikes at every RATE; a number
/// below the unit's lowest; what held going down where no threshold was found. Written only where they were.
pub fn version_5(phrase: Phrase) -> &'static str {
    const OTHERWISE: [(Phrase, &str); 5] = [
        (Phrase::LabelHead, "HOLDFAST 5 en"),
        (Phrase::CaptureHeld, "not tested, held at {} {} going down"),
        (Phrase::OwnUnmeasured, "seen, not measured"),
        (Phrase::FlagNotPacedOver, "own beats among spikes"),
        (Phrase::FlagNumberBelowLowest, "mV below the lowest"),
    ];
    otherwise(&OTHERWISE, phrase).unwrap_or_else(|| version_4(phrase))
}

fn otherwise(said: &[(Phrase, &'static str)], phrase: Phrase) -> Option<&'static str> {
    said.iter().find(|(one, _)| *one == phrase).map(|(_, words)| *words)
}
