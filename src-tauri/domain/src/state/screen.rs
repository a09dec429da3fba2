//! Where the tablet is.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::practice::ExerciseId;

use crate::teaching::place::Place;

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Screen {
    /// What this is and is not; that the rules are examples.
    Welcome,
    Beds,
    /// The bed list from this place in its order on.
    MoreBeds {
        from: u32,
    },
    NewBed,
    Bed {
        bed: u32,
    },
    /// "A new patient in this bed?"
    NewPatient {
        bed: u32,
    },
    NewWire {
        bed: u32,
    },
    Check {
        bed: u32,
        wire: u32,
    },
    /// The record `back` from the newest (0 = newest).
    Result {
        bed: u32,
        wire: u32,
        back: u32,
    },
    Code {
        bed: u32,
        wire: u32,
    },
    /// The other face of the code: for another tablet.
    CodeCopy {
        bed: u32,
        wire: u32,
    },
    /// Asks for a code that comes from another tablet.
    Load {
        bed: Option<u32>,
    },
    /// It is being read.
    Reading,
    /// Several codes in one picture.
    ArrivedList,
    /// What one code says, by its place.
    Arrived {
        at: u32,
    },
    /// Whose is it?
    TakeIn {
        at: u32,
    },
    /// The dials, read one by one to be set beside a handover.
    Compare {
        bed: u32,
        wire: u32,
    },
    Compared {
        bed: u32,
        wire: u32,
    },
    /// What is that tablet called?
    NameTablet {
        at: u32,
    },
    /// This tablet's key, and the tablets it knows.
    Tablets,
    /// One known tablet, by its place.
    Tablet {
        at: u32,
    },
    History {
        bed: u32,
        wire: u32,
    },
    /// Which generator is the wire plugged into?
    Plug {
        bed: u32,
        wire: u32,
    },
    BedMore {
        bed: u32,
    },
    /// What has happened that makes a check due?
    Happened {
        bed: u32,
    },
    /// Which wire is out?
    WireOut {
        bed: u32,
    },
    EmptyBed {
        bed: u32,
    },
    /// Another generator, or another battery?
    NewSwap {
        bed: u32,
        wire: u32,
    },
    Swap {
        bed: u32,
        wire: u32,
    },
    Transport {
        bed: u32,
    },
    /// The reading that a check left owed.
    ReadOwed {
        bed: u32,
        wire: u32,
    },
    Settings,
    Rules,
    /// Asks for a rule file.
    NewRules,
    /// The rules handed in beside those in force.
    OfferedRules,
    Generators,
    /// One generator, by its place.
    Generator {
        at: u32,
    },
    /// Asks for a generator file.
    NewGenerator,
    OfferedGenerator,
    /// Who approves what was handed in?
    Approve,
    /// Educators and sign-off.
    Teaching(Place),
    /// The exercises.
    Practice,
    /// One exercise, before it begins.
    PracticeBegin {
        exercise: ExerciseId,
    },
    /// The simulated patient, with the cards of the check or without.
    Practising,
    /// What an unguided learner found.
    PracticeFound,
    /// How that learner reads the dials at the end.
    PracticeRead,
    PracticeRuns,
    PracticeResult {
        run: Uuid,
    },
    /// The acts of a run one by one, from this place on.
    PracticeActs {
        run: Uuid,
        from: u8,
    },
    /// The strip at the instant of one act, by its place.
    LookAgain {
        run: Uuid,
        act: u8,
    },
    /// The files of a wire: being written, or where they lie.
    Export {
        bed: u32,
        wire: u32,
    },
    /// A backup: asked for, being written, or where it lies.
    Backup,
    /// Asks for a backup file, on a tablet that holds nothing.
    Restore,
    /// What the backup holds; restore it?
    Restorable,
    /// What is kept of patients who have left: until when, and what may go.
    Erase,
    /// The proofs of what was erased.
    Erased,
    /// Erase this one? By its place among those who left.
    EraseAsk {
        at: u32,
    },
}
