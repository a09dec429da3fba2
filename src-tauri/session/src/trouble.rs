//! What can go wrong below the domain.

use std::path::Path;

use domain::say::{Say, figure};
use journal::{Break, Fault};

/// Why an act could not be done although the domain agreed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    Record(Fault),
    /// An event could not be put into bytes.
    Unwritable(String),
    /// The device gave no random bytes.
    NoRandomness,
}

impl From<Fault> for Trouble {
    fn from(fault: Fault) -> Trouble {
        Trouble::Record(fault)
    }
}

/// Why a session did not start.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OpenFault {
    Record(Fault),
    /// The device gave neither a boot name nor random bytes.
    NoClock,
    /// The system gave no thread.
    NoThread(String),
}

impl From<Fault> for OpenFault {
    fn from(fault: Fault) -> OpenFault {
        OpenFault::Record(fault)
    }
}

impl From<Trouble> for OpenFault {
    fn from(trouble: Trouble) -> OpenFault {
        OpenFault::Record(match trouble {
            Trouble::Record(fault) => fault,
            Trouble::Unwritable(why) => Fault::Device(why),
            Trouble::NoRandomness => Fault::Randomness,
        })
    }
}

impl std::fmt::Display for OpenFault {
    /// For logs; a person reads [`OpenFault::say`] in words.
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{self:?}")
    }
}

impl std::error::Error for OpenFault {}

impl OpenFault {
    /// Why it did not start, on which folder, and who does what next.
    pub fn say(&self, folder: &Path) -> Say {
        match self {
            OpenFault::Record(Fault::Device(why)) | OpenFault::NoThread(why) => not_started(why),
            OpenFault::Record(fault) => of_record(fault, &figure(folder.display().to_string())),
            OpenFault::NoClock => Say::RecordNoClock,
        }
    }
}

fn not_started(why: &str) -> Say {
    Say::RecordNotStarted { why: why.to_owned() }
}

impl Trouble {
    /// What stands against the act, and the next one.
    pub(crate) fn say(&self) -> Say {
        match self {
            // On a tablet there is one; whoever looks for it by name finds it where it is set up.
            Trouble::Record(fault) => of_record(fault, &Say::TheDataFolder),
            Trouble::Unwritable(_) | Trouble::NoRandomness => Say::JournalFault,
        }
    }
}

fn of_record(fault: &Fault, folder: &Say) -> Say {
    let place = Box::new(folder.clone());
    match fault {
        Fault::InUse => Say::RecordInUse,
        Fault::Held => Say::RecordHeld,
        Fault::DiskFull => Say::RecordDiskFull,
        Fault::ReadOnly => Say::RecordReadOnly { folder: place },
        Fault::NoFolder(why) => Say::RecordNoFolder { folder: place, why: why.clone() },
        Fault::Missing => Say::RecordMissing { folder: place },
        Fault::NoRecord => Say::RecordNone { folder: place },
        Fault::NotAJournal => Say::RecordNotOurs { folder: place },
        Fault::Newer { found, known } => {
            Say::RecordNewer { folder: place, found: found.to_string(), known: known.to_string() }
        }
        Fault::UnknownVersion { found, .. } => {
            Say::RecordUnknownVersion { folder: place, found: found.to_string() }
        }
        Fault::Altered(what) => Say::RecordAltered { folder: place, what: what.clone() },
        Fault::Broken(broken) => of_break(*broken, place),
        Fault::Damaged(_) => Say::RecordDamaged { folder: place },
        Fault::Latched(first) => of_record(first, folder),
        Fault::NotErasable { .. } | Fault::AliveTooLong { .. } | Fault::Randomness | Fault::Device(_) => {
            Say::JournalFault
        }
    }
}

fn of_break(broken: Break, folder: Box<Say>) -> Say {
    match broken {
        Break::Shortened { had, has } => {
            Say::RecordShortened { folder, had: had.to_string(), has: has.to_string() }
        }
        Break::Gap { seq }
        | Break::Link { seq }
        | Break::Body { seq }
        | Break::BodyMissing { seq }
        | Break::BodyReturned { seq }
        | Break::Unreadable { seq }
        | Break::Replaced { seq } => Say::RecordBroken { folder, entry: seq.to_string() },
    }
}
