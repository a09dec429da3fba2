//! Everything a person, or time, can say to a card.

use serde::{Deserialize, Serialize};

use super::facts::Dials;
use crate::profile::Position;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Answer {
    // On every card that touches a dial
    NoBeats,
    Stop,
    Wrong,
    Slip,
    // Acts
    /// The dial stands where the card asked.
    Stands,
    Yes,
    No,
    /// The lines of the list are all true; the dials stand as listed; go on.
    AllTrue,
    Line(Line),
    Back,
    /// "Where does it stand now?" after a slip.
    StandsAt(Position),
    /// The dials as read, position by position.
    Read(Dials),
    /// Own rate typed from the monitor, beats per minute; equal when regular.
    OwnRate {
        slowest: u8,
        fastest: u8,
    },
    /// A reason and who was told, instead of a reading or for a difference.
    ReasonAndName,
    // What was seen
    EveryBeatPaced,
    OnlyOwn,
    BothSeen,
    SpikesWithoutBeats,
    StillPaced,
    OwnHeld,
    EveryBeatMarked,
    BeatNotMarked,
    EverySpikeMadeABeat,
    SpikeWithoutABeat,
    OwnAmongThem,
    PWithoutQrs,
    WideBeat,
    BeatsAgain,
    NoSpikesCame,
    SpikesNoneMadeABeat,
    SpikeMadeABeat,
    Pause,
    ExtraBeatNotMarked,
    /// On a T wave or on nothing: the generator sees what is no beat.
    MarkWithoutBeat,
    NotTolerated,
    PWavesSeen,
    FibrillationOrFlutter,
    NoPWaves,
    /// Steady, with a pulse.
    Fine,
    // Trouble
    SomethingElse,
    NoPulse,
    FastWide,
    ShockGiven,
    DialElsewhere,
    // Time
    Time(TimeUp),
    Woke(Gap),
}

/// What time alone can change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum TimeUp {
    /// The watch of this card has passed.
    Watch,
    /// Own rhythm was shown ten minutes ago.
    OwnOld,
    /// The unit's limit on time at minimum output.
    Minimum,
    /// Since a spike without a beat.
    Loss,
}

/// How long the tablet was away.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Gap {
    /// Under a minute, no limit passed.
    Short,
    /// Under a minute, but a limit passed.
    LimitPassed,
    /// Up to fifteen minutes, or unknown with a changed clock.
    Long,
    /// Over fifteen minutes: commands no dial.
    TooLong,
}

/// A line of the list that was not true.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Line {
    Order,
    Acceptance,
    Mode,
    Age,
    EcgWithPacingDetection,
    ExtraBeats,
    Vehicle,
    Connections,
    Gloves,
    TemperatureAndPotassium,
    PulseTrace,
    Standby,
    WireTraced,
}
