//! What leaves the tablet, and what is erased on it: asked for, done, and kept as a proof.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::moment::Moment;

/// The kind under which the page hands a backup in.
pub const BACKUP_KIND: &str = "backup";

/// A clock that stands a little behind another is no remark.
const CLOCKS_APART_MS: i64 = 10 * 60 * 1_000;

/// How something left the tablet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Way {
    /// A code on the screen: any phone may have kept it.
    Code,
    /// CSV, FHIR and PDF of one wire.
    Files,
    /// The whole record in one file.
    Backup,
}

/// Something that left, as often as it did.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Left {
    pub way: Way,
    /// Under the Exports folder; `None` for a code, and for backups, which go all together.
    pub name: Option<String>,
    pub first: Moment,
    pub last: Moment,
    pub times: u32,
}

impl Left {
    /// Once more: codes and backups count on, each folder of files is a line of its own.
    pub fn note(list: &mut Vec<Left>, way: Way, name: Option<&str>, at: Moment) {
        let known = list.iter_mut().find(|left| left.way == way && left.name.as_deref() == name);
        match known {
            Some(left) => (left.last, left.times) = (at, left.times.saturating_add(1)),
            None => {
                let name = name.map(str::to_owned);
                list.push(Left { way, name, first: at, last: at, times: 1 });
            }
        }
    }
}

/// Files asked for and not yet there. The name is of the instant, not of the bed.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Writing {
    Files { bed: u32, wire: u32, name: String },
    Backup { name: String },
}

impl Writing {
    pub fn name(&self) -> &str {
        match self {
            Writing::Files { name, .. } | Writing::Backup { name } => name,
        }
    }
}

/// How the last writing ended.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Written {
    /// Where it lies, as the system names the place.
    At(String),
    Not(NotWritten),
}

/// Why nothing was written. What was begun has been taken away again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NotWritten {
    DiskFull,
    /// The folder does not take files.
    Refused,
    /// The files could not be made.
    NotMade,
}

/// A patient who has left a bed of this tablet: waits until the unit's rule lets the record go.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Closed {
    pub patient: Uuid,
    /// As it stood on the bed.
    pub label: String,
    pub at: Moment,
    pub left: Vec<Left>,
}

/// An erasure that has been confirmed and is not done yet; it is gone on with after any interruption.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Erasing {
    pub patient: Uuid,
    pub closed: Moment,
    pub left: Vec<Left>,
    pub by: String,
    pub after_days: u16,
    pub rules: String,
}

impl Erasing {
    /// The proof, once it is done.
    pub fn done(self, entries: u32, at: Moment) -> Erasure {
        let Erasing { patient, closed, left, by, after_days, rules } = self;
        Erasure { patient, closed, by, after_days, rules, entries, left, at }
    }
}

/// What stays: that something was erased, when, by whom, by which rule, and what had left the tablet before.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Erasure {
    pub patient: Uuid,
    pub closed: Moment,
    pub by: String,
    pub after_days: u16,
    /// The hash of the rule file; the name of rules that nobody has let in.
    pub rules: String,
    /// Entries of the record whose bodies went.
    pub entries: u32,
    pub left: Vec<Left>,
    pub at: Moment,
}

/// What a backup file holds, read and verified, and not yet in force.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Restorable {
    pub entries: u32,
    pub beds: u32,
    /// Wall clock of its last entry, ms, and the offset then.
    pub last_ms: i64,
    pub offset_min: i16,
    /// The hash of its last entry.
    pub head: String,
}

impl Restorable {
    /// Its last entry lies ahead of this clock: one of the two stands wrong.
    pub fn is_ahead_of(&self, now: Moment) -> bool {
        self.last_ms > now.wall_ms + CLOCKS_APART_MS
    }
}

/// Why a file is not restored from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NotRestorable {
    NotABackup,
    Newer,
    CutShort,
    /// The page hands in no more of a file; in a terminal it is restored all the same.
    TooLong,
    Altered,
    /// Whole, but what it holds does not verify.
    DoesNotHold,
    DiskFull,
    Refused,
}
