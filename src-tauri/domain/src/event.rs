//! What has happened. Events are results: applying one computes nothing clinical, so that newer code
//! never changes an old record.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::check::answer::Answer;
use crate::check::facts::{Dial, Dials, Facts};
use crate::command::Language;
use crate::contract::{Hand, Light};
use crate::handover::arrived::{Arrived, NotLoaded, Source};
use crate::handover::code::MadeCode;
use crate::handover::compare::Compared;
use crate::handover::history::{Arrival, HandedCheck};
use crate::handover::tablet::{KeyLost, Tablet};
use crate::leaving::{Erasing, Erasure, NotRestorable, Restorable, Way, Writing, Written};
use crate::library::{LetIn, Offered};
use crate::moment::Moment;
use crate::practice::{Entry, Happened, Judgement, Paused, Staged};
use crate::profile::Profile;
use crate::record::Record;
use crate::rules::{Chamber, Rules};
use crate::state::State;
use crate::state::bed::{DueNow, Names, Polarity, Standing, WireKind};
use crate::state::screen::Screen;
use crate::state::swap::SwapRecord;
use crate::state::times::Times;
use crate::state::transport::{Reading, Told, TransportRecord};
use crate::teaching::taught::Taught;

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
    /// Read without a fault; `hash` is of the text. Nothing is in force by it.
    Offered(Offered),
    OfferPutAside,
    /// In force from here on, for checks that open from here on.
    RulesApproved {
        rules: Box<Rules>,
        let_in: LetIn,
    },
    GeneratorApproved {
        profile: Box<Profile>,
        let_in: LetIn,
    },
    /// With educators and sign-off.
    Taught(Taught),
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
    /// The patient has left; `patient` names whoever comes next.
    BedEmptied {
        bed: u32,
        patient: Uuid,
    },
    BedRemoved {
        bed: u32,
    },
    WireRemoved {
        bed: u32,
        wire: u32,
    },
    /// Plugged into another generator; `due` where a check is due by it.
    WirePlugged {
        bed: u32,
        wire: u32,
        generator: String,
        due: Option<DueNow>,
    },
    /// A check is due now on each wire of the bed.
    MadeDue {
        bed: u32,
        why: DueNow,
    },
    /// A reading unlike what the last check left was asked for once more.
    OwedAskedAgain {
        bed: u32,
        wire: u32,
        dials: crate::check::facts::Dials,
    },
    /// The reading that a check left owed; `due` where the dials stood elsewhere.
    OwedRead {
        bed: u32,
        wire: u32,
        standing: Standing,
        due: Option<DueNow>,
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
        /// By what this check has shown, or by what was known before and it has not answered.
        #[serde(default)]
        due: Option<DueNow>,
    },
    /// A check that touched no dial was left.
    CheckLeft {
        bed: u32,
        wire: u32,
        check: Uuid,
    },
    /// The first reading was asked for once more: far from the last set, or with nothing to set it beside.
    AskedAgain {
        bed: u32,
        wire: u32,
        dials: crate::check::facts::Dials,
    },
    /// The reading with which a swap or a transport begins was asked for once more, by the same rule.
    ReadingAskedAgain {
        bed: u32,
        wire: u32,
        dials: crate::check::facts::Dials,
    },
    /// The session is to make this tablet a key.
    KeyWanted,
    /// This tablet's key from here on: only what others may know of it.
    KeyKnown(Tablet),
    /// Nothing can be signed.
    KeyLost(KeyLost),
    CodeMade {
        bed: u32,
        wire: u32,
        code: Box<MadeCode>,
    },
    LoadBegun {
        load: u32,
        bed: Option<u32>,
        source: Source,
    },
    /// Read, or refused; nothing of it is on a wire yet.
    LoadEnded {
        load: u32,
        outcome: Result<Vec<Arrived>, NotLoaded>,
    },
    /// Now history of this wire, by somebody who named the patient; `due` by it.
    HandoverTaken {
        bed: u32,
        wire: u32,
        arrival: Box<Arrival>,
        checks: Vec<HandedCheck>,
        due: DueNow,
    },
    DialsCompared {
        bed: u32,
        wire: u32,
        compared: Box<Compared>,
        /// Where they stand otherwise than the last check on this tablet left them.
        standing: Option<Standing>,
    },
    TabletNamed {
        tablet: Tablet,
        name: String,
    },
    TabletForgotten {
        tablet: Tablet,
    },
    SwapOpened {
        bed: u32,
        wire: u32,
        swap: Uuid,
        facts: crate::swap::facts::Facts,
    },
    SwapAnswered(Box<SwapAnswered>),
    /// `standing`: as read at its end; `None` where nothing was unplugged, or nothing read.
    SwapEnded {
        bed: u32,
        wire: u32,
        record: Box<SwapRecord>,
        standing: Option<Standing>,
        owed: bool,
        due: Option<DueNow>,
        /// Wires that may be in the same box: their dials are owed, and a check is due.
        #[serde(default)]
        others: Vec<u32>,
    },
    TransportOpened {
        bed: u32,
        transport: Uuid,
        facts: crate::transport::facts::Facts,
        /// Compared for this change of hands before it was opened.
        readings: Vec<Reading>,
    },
    TransportAnswered(Box<TransportAnswered>),
    /// `due`: on each wire of the bed.
    TransportEnded {
        bed: u32,
        record: Box<TransportRecord>,
        due: Option<DueNow>,
    },
    /// The wall clock moved against the boot clock by this much.
    ClockJumped {
        by_ms: i64,
    },
    Started,
    PracticeBegan {
        practice: Uuid,
        staged: Box<Staged>,
    },
    /// What the learner did, at its instant of the simulated patient.
    Practised(Entry),
    DialTaken(Dial),
    /// By itself, or by somebody else's hand.
    Befell {
        happened: Happened,
        dials: Dials,
    },
    PracticePaused(Paused),
    /// The instants of its check, moved by the pause.
    PracticeWentOn {
        times: Times,
    },
    PracticeEnded {
        record: Option<Box<Record>>,
        broken_off: bool,
    },
    PracticeJudged {
        run: Uuid,
        judgement: Box<Judgement>,
    },
    /// Nobody will: another version made the run.
    PracticeNotJudged {
        run: Uuid,
    },
    /// Files are asked for.
    WritingAsked(Writing),
    /// They lie in the Exports folder, or nothing does.
    Wrote {
        writing: Writing,
        written: Written,
    },
    /// By the terminal, with the app closed: files or codes of every wire, or a backup.
    TakenOut(Way),
    BackupRead(Restorable),
    /// A person wants the backup in the place of this record.
    RestoreAsked,
    /// This record came from a backup, or did not.
    Restored(Result<Restorable, NotRestorable>),
    /// A person has confirmed it; from here on it is gone on with.
    EraseAsked(Erasing),
    /// All that is known, in the place of entries that go: what stands before adds nothing any more.
    Folded(Box<State>),
    /// The bodies of a patient's entries went with this entry.
    Erased(Erasure),
}

impl What {
    /// The bed whose patient it says something of; `None` where it holds nothing of any, or says not of whom: a code
    /// that is being loaded is nobody's until it is taken in.
    pub fn bed(&self) -> Option<u32> {
        match self {
            What::BedAdded { bed, .. }
            | What::PatientArrived { bed, .. }
            | What::BedEmptied { bed, .. }
            | What::WireAdded { bed, .. }
            | What::WireRemoved { bed, .. }
            | What::WirePlugged { bed, .. }
            | What::MadeDue { bed, .. }
            | What::OwedAskedAgain { bed, .. }
            | What::OwedRead { bed, .. }
            | What::CheckOpened { bed, .. }
            | What::CheckEnded { bed, .. }
            | What::CheckLeft { bed, .. }
            | What::AskedAgain { bed, .. }
            | What::ReadingAskedAgain { bed, .. }
            | What::CodeMade { bed, .. }
            | What::HandoverTaken { bed, .. }
            | What::DialsCompared { bed, .. }
            | What::SwapOpened { bed, .. }
            | What::SwapEnded { bed, .. }
            | What::TransportOpened { bed, .. }
            | What::TransportEnded { bed, .. } => Some(*bed),
            What::Answered(answered) => Some(answered.bed),
            What::SwapAnswered(answered) => Some(answered.bed),
            What::TransportAnswered(answered) => Some(answered.bed),
            What::LibraryAdopted { .. }
            | What::Offered(_)
            | What::OfferPutAside
            | What::RulesApproved { .. }
            | What::GeneratorApproved { .. }
            | What::Welcomed
            | What::LightSet(_)
            | What::TextSet(_)
            | What::HandSet(_)
            | What::StillSet(_)
            | What::LanguageSet(_)
            | What::Went(_)
            | What::BedRemoved { .. }
            | What::KeyWanted
            | What::KeyKnown(_)
            | What::KeyLost(_)
            | What::LoadBegun { .. }
            | What::LoadEnded { .. }
            | What::TabletNamed { .. }
            | What::TabletForgotten { .. }
            | What::ClockJumped { .. }
            | What::Started
            | What::Taught(_)
            | What::PracticeBegan { .. }
            | What::Practised(_)
            | What::DialTaken(_)
            | What::Befell { .. }
            | What::PracticePaused(_)
            | What::PracticeWentOn { .. }
            | What::PracticeEnded { .. }
            | What::PracticeJudged { .. }
            | What::PracticeNotJudged { .. }
            | What::WritingAsked(_)
            | What::Wrote { .. }
            | What::TakenOut(_)
            | What::BackupRead(_)
            | What::RestoreAsked
            | What::Restored(_)
            | What::EraseAsked(_)
            | What::Folded(_)
            | What::Erased(_) => None,
        }
    }
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

/// One answer to a card of a swap and all that follows from it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SwapAnswered {
    pub bed: u32,
    pub wire: u32,
    pub answer: crate::swap::answer::Answer,
    pub facts: crate::swap::facts::Facts,
    pub before: Option<crate::swap::facts::Facts>,
    pub times: crate::swap::times::Times,
    pub names: crate::state::swap::Names,
    /// The generator that takes over, by profile id.
    pub new: Option<String>,
    pub away_ms: i64,
    pub new_card: bool,
    pub good_opened: bool,
}

/// One answer to a card of a transport and all that follows from it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TransportAnswered {
    pub bed: u32,
    pub answer: crate::transport::answer::Answer,
    pub facts: crate::transport::facts::Facts,
    pub before: Option<crate::transport::facts::Facts>,
    pub told: Told,
    /// The dials of one wire, read, and seen by both teams with this answer.
    pub reading: Option<Reading>,
    pub away_ms: i64,
    pub new_card: bool,
}
