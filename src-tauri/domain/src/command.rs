//! Everything that can be asked of Holdfast: by a person, by the session, by time.

use serde::{Deserialize, Serialize};

use uuid::Uuid;

use crate::check::answer::Answer;
use crate::check::facts::{Dial, Dials};
use crate::contract::{Hand, Light};
use crate::handover::arrived::{Arrived, NotLoaded};
use crate::handover::code::MadeCode;
use crate::handover::tablet::{KeyLost, Tablet};
use crate::leaving::{NotRestorable, Restorable, Written};
use crate::library::HandedIn;
use crate::moment::Moment;
use crate::practice::{ExerciseId, Happened, Judgement, Pause, Staged};
use crate::profile::Position;
use crate::state::bed::DueNow;
use crate::state::screen::Screen;
use crate::swap::{self, facts::Work};
use crate::teaching::ask::Ask;
use crate::transport;

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
    /// This tablet's key is there; only what others may know of it.
    KeyFound(Tablet),
    KeyNotFound(KeyLost),
    /// The codes of a wire were signed.
    CodeMade {
        bed: u32,
        wire: u32,
        code: Box<MadeCode>,
    },
    /// A picture for the card that asks for one: so many bytes.
    PictureHandedIn {
        bytes: u32,
    },
    /// The camera saw a code.
    CodeSeen(String),
    /// What became of the code being loaded.
    CodeRead {
        load: u32,
        outcome: Result<Vec<Arrived>, NotLoaded>,
    },
    /// Files lie in the Exports folder, or do not.
    Wrote {
        name: String,
        written: Written,
    },
    /// A backup file was read.
    ReadBackup(Result<Restorable, NotRestorable>),
    /// The record is another one now.
    Restored(Result<Restorable, NotRestorable>),
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
    // ---- handed over
    /// Field `code`.
    LoadTyped {
        bed: Option<u32>,
    },
    /// Fields `label` (from the bed list), `patient` (a bed that is there), `generator`.
    TakeIn {
        at: u32,
    },
    /// Fields `output`, `rate`, `mv`.
    CompareDials {
        bed: u32,
        wire: u32,
    },
    /// Field `name`.
    NameTablet {
        at: u32,
    },
    ForgetTablet {
        at: u32,
    },
    /// A new key in the place of one that is lost.
    MakeKey,
    // ---- another generator or battery
    BeginSwap {
        bed: u32,
        wire: u32,
        work: Work,
    },
    Swap(swap::answer::Answer),
    /// An answer with a clinician's name: field `name`.
    SwapNamed(swap::answer::Answer),
    /// Fields `output`, `rate`, `mv`.
    SwapTypedDials,
    /// Field `generator`.
    SwapPicked,
    // ---- a patient on the way
    BeginTransport {
        bed: u32,
    },
    Transport(transport::answer::Answer),
    /// Fields `destination`, `target`.
    TransportGoing,
    /// Fields `output`, `rate`, `mv`: of the wire the card names.
    TransportTypedDials,
    /// Fields `from`, `to`: initials.
    TransportSigned,
    // ---- the unit's rules and generators
    /// Fields `name`, `role`.
    ApproveOffered,
    PutAside,
    // ---- educators and sign-off
    Teach(Ask),
    // ---- what leaves, what is erased
    /// CSV, FHIR and PDF of this wire.
    Export {
        bed: u32,
        wire: u32,
    },
    BackUp,
    Restore,
    /// Field `name`.
    Erase {
        at: u32,
    },
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
    // ---- practice
    /// The session answers it with `Staged`.
    Practise {
        exercise: ExerciseId,
        guided: bool,
    },
    /// Asked for at this instant of the simulated patient, µs: the session adds it to whatever is asked while a
    /// practice is open.
    AtStrip {
        at_us: u64,
        asked: Box<Command>,
    },
    TurnDial {
        dial: Dial,
        to: Position,
    },
    /// Lays the hand on a dial: it is drawn large.
    TakeDial(Dial),
    PausePractice,
    GoOn,
    /// Fields `capture`, `capture-how`, `capture-low`, `sensing`, `sensing-how`: what was found, empty where not
    /// tested.
    SaidFound,
    /// Fields `output`, `rate`, `mv`: how the dials read. Ends the run.
    SaidDials,
    /// Ends the run as it stands.
    EndPractice,
    /// Leaves it unjudged.
    BreakOff,
    // ---- practice, by the session
    /// The exercise with all that its run depends on.
    Staged(Box<Staged>),
    /// The patient has stood still by itself for so long.
    StoodStill {
        why: Pause,
        for_ms: i64,
    },
    /// Something befell the patient; where the dials stand then.
    Befell {
        happened: Happened,
        dials: Dials,
    },
    Judged {
        run: Uuid,
        judgement: Box<Judgement>,
    },
    /// This version cannot play the run again, be it open or ended.
    NotJudged {
        run: Uuid,
    },
}

impl Command {
    /// Asked by no card, and known to the session alone: no page may send it.
    pub fn is_by_session(&self) -> bool {
        if self.is_of_a_worker() {
            return true;
        }
        let of_time = matches!(
            self,
            Command::Started { .. } | Command::Woke { .. } | Command::TimePassed | Command::HandedIn(_)
        );
        of_time || self.is_of_the_strip() || self.is_of_a_code()
    }

    /// Known only to whoever holds the key and reads codes.
    fn is_of_a_code(&self) -> bool {
        matches!(
            self,
            Command::KeyFound(_)
                | Command::KeyNotFound(_)
                | Command::CodeMade { .. }
                | Command::PictureHandedIn { .. }
                | Command::CodeSeen(_)
                | Command::CodeRead { .. }
        )
    }

    /// What came of a PIN, of files or of a backup: nobody but the session says it.
    fn is_of_a_worker(&self) -> bool {
        let kept = matches!(self, Command::Wrote { .. } | Command::ReadBackup(_) | Command::Restored(_));
        kept || matches!(self, Command::Teach(ask) if ask.is_by_session())
    }

    /// Known only to whoever runs the simulated patient.
    pub fn is_of_the_strip(&self) -> bool {
        matches!(
            self,
            Command::AtStrip { .. }
                | Command::Staged(_)
                | Command::StoodStill { .. }
                | Command::Befell { .. }
                | Command::Judged { .. }
                | Command::NotJudged { .. }
        )
    }
}

/// The languages Holdfast speaks. Pseudo is English, a third longer, to prove the layout.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Language {
    #[default]
    English,
    Pseudo,
}
