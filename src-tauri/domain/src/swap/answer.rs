//! Everything a person, or time, can say to a card of a swap.

use serde::{Deserialize, Serialize};

use crate::check::facts::Dials;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Answer {
    // On every card that touches a connection
    NoBeats,
    Stop,
    Wrong,
    Slip,
    // Acts
    Yes,
    No,
    AllTrue,
    /// The dial stands where the card asked.
    Stands,
    Back,
    Close,
    OtherBox,
    /// Another generator was chosen from the list.
    Picked,
    Read(Dials),
    // What was seen
    Paced,
    OnlyOwn,
    SpikesWithoutBeats,
    NoSpikesCame,
    EverySpikeMadeABeat,
    SpikeWithoutABeat,
    BeatsAgain,
    StillNoBeats,
    // Trouble
    NoPulse,
    FastWide,
    ShockGiven,
    StandbyLost,
    // After a break: where the pins are
    PinsOld,
    PinsNew,
    PinsNeither,
    // Time
    Time(TimeUp),
    Woke(Gap),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum TimeUp {
    /// The watch of this card has passed.
    Watch,
    /// Own beats were seen too long ago.
    OwnOld,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Gap {
    /// Under a minute.
    Short,
    /// A minute and more, or unknown with a changed clock.
    Long,
}
