//! Everything the lines can say, and how a pattern is filled and matched.

/// From a phrase to its pattern; `{}` stands for a figure, a time or another phrase.
pub type Table = fn(Phrase) -> &'static str;

/// The closed list. A variant's meaning never changes; another meaning is another variant and another version.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phrase {
    LabelHead,
    LabelPractice,
    LabelExampleRules,
    LabelCheck,
    LabelDials,
    LabelWritten,
    LabelRate,
    LabelOutput,
    LabelNumber,
    LabelCapture,
    LabelMargin,
    LabelSensing,
    LabelOwn,
    LabelPulseWidth,
    LabelNext,
    LabelFlags,
    LabelShortened,
    /// Chamber and kind, polarity.
    Wire,
    Atrial,
    Ventricular,
    Epicardial,
    Transvenous,
    Bipolar,
    Unipolar,
    NotAPatient,
    LocalRulesFirst,
    DialsRead,
    DialsNotRead,
    /// From version 2 on.
    DialsReadLater,
    AgeMinutes,
    AgeHours,
    PerMinute,
    Asynchronous,
    NotTested,
    CaptureExact,
    CaptureBracket,
    CaptureAtMost,
    /// From version 5 on.
    CaptureHeld,
    Margin,
    MarginAtLeast,
    SensingExact,
    SensingAtLeast,
    SensingAsFound,
    SensingNone,
    OwnNotLooked,
    OwnUnmeasured,
    OwnNoneSeen,
    OwnSeen,
    OwnRange,
    OwnLost,
    OwnRangeLost,
    Milliseconds,
    NextNow,
    NextAt,
    LeftOut,
    FlagNoCaptureAtMaximum,
    FlagNoRuleSatisfied,
    FlagStillBlind,
    FlagWrongChamber,
    FlagNoBeats,
    FlagShock,
    FlagFoundDidNotCapture,
    FlagDidNotSeeAsFound,
    FlagNumberRefused,
    /// From version 3 on.
    FlagCaptureAboveLimit,
    FlagSignalBelowLimit,
    FlagFoundMargin,
    /// From version 2 on.
    FlagLeftAsRead,
    FlagBlockFromRate,
    FlagPauses,
    FlagExtraBeatUnmarked,
    /// From version 3 on.
    FlagMarksWithoutBeats,
    FlagFibrillation,
    FlagLostUnsought,
    FlagNotPacedOver,
    FlagNumberBelowLowest,
    FlagSeesNothing,
    FlagDoubled,
    FlagSignalHalved,
    FlagFoundAsynchronous,
    FlagNotTolerated,
    FlagSpikeAtMinimum,
}

/// The pattern with its places filled in order.
pub fn filled(pattern: &str, with: &[&str]) -> String {
    let mut given = with.iter();
    let mut text = String::with_capacity(pattern.len());
    for (index, piece) in pattern.split("{}").enumerate() {
        if index > 0 {
            text.push_str(given.next().copied().unwrap_or_default());
        }
        text.push_str(piece);
    }
    text
}

/// What stands in the places of the pattern, if the text follows it. Each place ends where the next fixed
/// piece first appears; whoever reads checks by writing again.
pub fn matched<'a, const N: usize>(pattern: &str, text: &'a str) -> Option<[&'a str; N]> {
    let mut pieces = pattern.split("{}");
    let mut rest = text.strip_prefix(pieces.next()?)?;
    let mut places = Vec::with_capacity(N);
    let pieces: Vec<&str> = pieces.collect();
    for (index, piece) in pieces.iter().enumerate() {
        let last = index + 1 == pieces.len();
        let (place, after) = if last { (rest.strip_suffix(piece)?, "") } else { rest.split_once(piece)? };
        places.push(place);
        rest = after;
    }
    if rest.is_empty() { places.try_into().ok() } else { None }
}
