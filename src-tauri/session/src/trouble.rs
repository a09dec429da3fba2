//! What can go wrong below the domain.

use domain::say::Say;
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
    /// Why it did not start, and who does what next.
    pub fn say(&self) -> Say {
        match self {
            OpenFault::Record(Fault::Device(why)) | OpenFault::NoThread(why) => not_started(why),
            OpenFault::Record(fault) => of_record(fault),
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
            Trouble::Record(fault) => of_record(fault),
            Trouble::Unwritable(_) | Trouble::NoRandomness => Say::JournalFault,
        }
    }
}

fn of_record(fault: &Fault) -> Say {
    match fault {
        Fault::InUse => Say::RecordInUse,
        Fault::Held => Say::RecordHeld,
        Fault::DiskFull => Say::RecordDiskFull,
        Fault::ReadOnly => Say::RecordReadOnly,
        Fault::NoFolder(why) => Say::RecordNoFolder { why: why.clone() },
        Fault::Missing => Say::RecordMissing,
        Fault::NotAJournal => Say::RecordNotOurs,
        Fault::Newer { found, known } => {
            Say::RecordNewer { found: found.to_string(), known: known.to_string() }
        }
        Fault::UnknownVersion { found, .. } => Say::RecordUnknownVersion { found: found.to_string() },
        Fault::Altered(what) => Say::RecordAltered { what: what.clone() },
        Fault::Broken(broken) => of_break(*broken),
        Fault::Damaged(_) => Say::RecordDamaged,
        Fault::Latched(first) => of_record(first),
        Fault::NotErasable { .. } | Fault::AliveTooLong { .. } | Fault::Randomness | Fault::Device(_) => {
            Say::JournalFault
        }
    }
}

fn of_break(broken: Break) -> Say {
    match broken {
        Break::Shortened { had, has } => Say::RecordShortened { had: had.to_string(), has: has.to_string() },
        Break::Gap { seq }
        | Break::Link { seq }
        | Break::Body { seq }
        | Break::BodyMissing { seq }
        | Break::BodyReturned { seq }
        | Break::Unreadable { seq }
        | Break::Replaced { seq } => Say::RecordBroken { entry: seq.to_string() },
    }
}
