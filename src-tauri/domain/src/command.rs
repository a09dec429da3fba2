//! Everything that can be asked of Holdfast: by a person, by the session, by time.

use serde::{Deserialize, Serialize};

use crate::check::answer::Answer;
use crate::contract::{Hand, Light};
use crate::library::HandedIn;
use crate::moment::Moment;
use crate::state::bed::DueNow;
use crate::state::screen::Screen;
use crate::teaching::ask::Ask;

/// One request. The page sends back, unread, the one its button carries.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Command {
    // ---- by the session
    /// The app has started on this journal; `alive` is the last sign of life before.
    Started {
        alive: Option<Moment>,
    },
    /// The tablet slept.
    Woke {
        alive: Moment,
    },
    /// The instant that `due` named has come.
    TimePassed,
    /// A file for the card that asks for one.
    HandedIn(HandedIn),
    // ---- the tablet
    Welcomed,
    SetLight(Light),
    SetText(u16),
    SetHand(Hand),
    SetStill(bool),
    SetLanguage(Language),
    // ---- beds, patients, wires
    Go(Screen),
    /// Field `label`.
    AddBed,
    NewPatient {
        bed: u32,
    },
    /// Fields `chamber`, `kind`, `polarity`, `generator`.
    AddWire {
        bed: u32,
    },
    /// The bed keeps its label and loses its patient.
    EmptyBed {
        bed: u32,
    },
    RemoveBed {
        bed: u32,
    },
    /// Field `wire`.
    RemoveWire {
        bed: u32,
    },
    /// Field `generator`.
    PlugInto {
        bed: u32,
        wire: u32,
    },
    /// Something that makes a check due now.
    Happened {
        bed: u32,
        why: DueNow,
    },
    /// Fields `output`, `rate`, `mv`: a reading that a check left owed.
    ReadOwed {
        bed: u32,
        wire: u32,
    },
    // ---- the unit's rules and generators
    /// Fields `name`, `role`.
    ApproveOffered,
    PutAside,
    // ---- educators and sign-off
    Teach(Ask),
    // ---- a check
    Begin {
        bed: u32,
        wire: u32,
    },
    Resume {
        bed: u32,
        wire: u32,
    },
    Answer(Answer),
    /// An answer with a name typed beside it: field `name`, and `reason` where asked.
    Named(Answer),
    /// Fields `output`, `rate`, `mv`.
    TypedDials,
    /// Fields `slowest`, `fastest`.
    TypedOwnRate,
    /// Field `where`.
    TypedOneDial,
}

/// The languages Holdfast speaks. Pseudo is English, a third longer, to prove the layout.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Language {
    #[default]
    English,
    Pseudo,
}
