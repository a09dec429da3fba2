//! Everything a person, or time, can say to a card of a transport.

use serde::{Deserialize, Serialize};

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Answer {
    // On every card on which the patient is moved or the dials are read
    NoBeats,
    Stop,
    Wrong,
    Slip,
    // Before leaving
    Going(Target),
    Yes,
    No,
    AllTrue,
    Back,
    Close,
    /// The dials of one wire, read.
    Read,
    /// Both sets of initials were given.
    Signed,
    // On the way
    Changed,
    AnotherBed,
    IntoVehicle,
    OutOfVehicle,
    OtherTeam,
    DialChanged,
    Arrived,
    // Trouble
    NoPulse,
    FastWide,
    ShockGiven,
    SpikesWithoutBeats,
    NoSpikesCame,
    BeatsAgain,
    StillNoBeats,
    EverySpikeMadeABeat,
    SpikeWithoutABeat,
    Woke(Gap),
}

/// Where the patient goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Target {
    Unit,
    Theatre,
    Imaging,
    OtherHospital,
    /// Magnetic resonance: stops, with connected temporary wires.
    Mri,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Gap {
    Short,
    Long,
}
