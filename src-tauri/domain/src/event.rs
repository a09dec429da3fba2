//! What has happened. Events are results: applying one computes nothing clinical, so that newer code
//! never changes an old record.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::check::answer::Answer;
use crate::check::facts::Facts;
use crate::command::Language;
use crate::contract::{Hand, Light};
use crate::moment::Moment;
use crate::profile::Profile;
use crate::record::Record;
use crate::rules::{Chamber, Rules};
use crate::state::bed::{Names, Polarity, WireKind};
use crate::state::screen::Screen;
use crate::state::times::Times;

/// One journal entry.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Event {
    pub at: Moment,
    pub what: What,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum What {
    /// The rules and generators in force from here on, with the hash of their text.
    LibraryAdopted {
        rules: Box<Rules>,
        generators: Vec<Profile>,
        hash: String,
    },
    Welcomed,
    LightSet(Light),
    TextSet(u16),
    HandSet(Hand),
    StillSet(bool),
    LanguageSet(Language),
    Went(Screen),
    BedAdded {
        bed: u32,
        label: String,
        patient: Uuid,
    },
    /// The bed's wires and history are closed; the patient in it is a new one.
    PatientArrived {
        bed: u32,
        patient: Uuid,
    },
    WireAdded {
        bed: u32,
        wire: u32,
        chamber: Chamber,
        kind: WireKind,
        polarity: Polarity,
        generator: String,
    },
    CheckOpened {
        bed: u32,
        wire: u32,
        check: Uuid,
        facts: Facts,
    },
    Answered(Box<Answered>),
    CheckEnded {
        bed: u32,
        wire: u32,
        record: Box<Record>,
    },
    /// A check that touched no dial was left.
    CheckLeft {
        bed: u32,
        wire: u32,
        check: Uuid,
    },
    /// The reading far from the last set was asked for once more.
    AskedAgain {
        bed: u32,
        wire: u32,
        dials: crate::check::facts::Dials,
    },
    /// The wall clock moved against the boot clock by this much.
    ClockJumped {
        by_ms: i64,
    },
    Started,
}

/// One answer and all that follows from it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Answered {
    pub bed: u32,
    pub wire: u32,
    pub answer: Answer,
    pub facts: Facts,
    pub before: Option<Facts>,
    pub times: Times,
    pub names: Names,
    /// How long nobody looked, where this says that the tablet woke.
    pub away_ms: i64,
    /// The answer opens another card; time that only opens an answer does not.
    pub new_card: bool,
    /// The good answer opened.
    pub good_opened: bool,
}
