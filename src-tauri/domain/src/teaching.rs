//! Who may sign for a learner, what has been signed, and what is half filled. Pure: keys and signatures are made
//! elsewhere and come in as finished texts; a PIN never comes in at all.

pub mod ask;
pub mod draft;
pub mod educator;
pub mod item;
pub mod paper;
pub mod pin;
pub mod place;
pub mod roster;
pub mod taught;

use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::moment::Moment;
use crate::state::screen::Screen;
use ask::NotWritten;
use draft::Draft;
use educator::Educator;
use paper::{Paper, Says};

/// A fold of the journal like everything else. Educators and entries are never removed: a place is a name.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Teaching {
    pub educators: Vec<Educator>,
    /// Oldest first.
    pub entries: Vec<Kept>,
    /// Half filled, until it is signed or put aside.
    pub draft: Option<Draft>,
    /// A PIN is being tried.
    pub wanted: Option<Wanted>,
    /// What was wanted when the PIN was wrong, so that nothing must be typed twice.
    pub tried: Option<Tried>,
    /// A file handed in, looked at, not kept.
    pub read: Option<Read>,
    /// The last file that could not be written, by the place of its entry.
    pub not_written: Option<(u32, NotWritten)>,
}

/// One signed paper.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kept {
    pub paper: Paper,
    /// Public key of who signed, in hexadecimal digits.
    pub key: String,
    /// The whole token, in hexadecimal digits: what leaves as a file.
    pub token: String,
    /// SHA-256 of the token's bytes: how other papers name this one.
    pub hash: String,
    /// Signed on another tablet, and handed in here.
    pub elsewhere: bool,
    /// Where it was last written to.
    pub file: Option<String>,
}

/// What a PIN shall open, complete before the PIN is tried: exactly this is signed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Wanted {
    pub task: Task,
    /// Where a wrong PIN leads back to.
    pub back: Screen,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tried {
    pub wanted: Wanted,
    pub why: Why,
}

/// Why a PIN came to nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Why {
    Wrong,
    /// The device could not.
    NotDone,
    /// The app ended meanwhile.
    CutOff,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Task {
    /// A new key, locked by the new PIN.
    Enrol { name: String, key: String },
    /// The key of the educator at this place signs.
    Sign { by: u32, paper: Box<Paper> },
    /// The same, and a new key for the educator at `place`, locked by the new PIN.
    Renew { by: u32, paper: Box<Paper>, place: u32, key: String },
}

impl Task {
    /// The educator whose PIN is tried.
    pub fn by(&self) -> Option<u32> {
        match self {
            Task::Enrol { .. } => None,
            Task::Sign { by, .. } | Task::Renew { by, .. } => Some(*by),
        }
    }
}

/// How the work with a PIN ended.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum PinDone {
    /// `token`: the signed paper; `locked`: the new key behind its PIN. Hexadecimal digits.
    Opened {
        token: Option<String>,
        locked: Option<String>,
    },
    Wrong,
    /// The device could not: no memory, no random bytes.
    Failed,
}

/// A file as it was handed in, after its signature was looked at.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ReadFile {
    /// Apart: every button of a card has room for it.
    Sound(Box<Read>),
    TooLong,
    /// No file of this kind, cut, or damaged in form.
    NotOurs,
    /// The signature does not fit what stands there.
    Altered,
    /// Unchanged, and of a newer format.
    Newer,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Read {
    pub paper: Paper,
    pub key: String,
    pub token: String,
    pub hash: String,
}

impl Teaching {
    pub fn educator(&self, place: u32) -> Option<&Educator> {
        self.educators.get(place as usize)
    }

    /// By public key, those with an older key too.
    pub fn with_key(&self, key: &str) -> Option<&Educator> {
        self.educators.iter().find(|educator| educator.key == key)
    }

    /// Those who can sign on this tablet now, with their places.
    pub fn signing(&self) -> impl Iterator<Item = (u32, &Educator)> {
        (0..).zip(&self.educators).filter(|(_, educator)| educator.can_sign())
    }

    /// Nobody is believed by being there: a second educator or the unit's approver stands for each.
    pub fn is_vouched(&self, key: &str) -> bool {
        self.with_key(key).is_some_and(|educator| educator.vouched.is_some())
    }

    /// While nobody is vouched for, anybody may begin; after that only who is vouched for.
    pub fn may_vouch(&self, by: &Educator) -> bool {
        by.vouched.is_some() || self.educators.iter().all(|educator| educator.vouched.is_none())
    }

    pub fn entry(&self, place: u32) -> Option<&Kept> {
        self.entries.get(place as usize)
    }

    /// The newer paper that takes this one back.
    pub fn revoked_by(&self, hash: &str) -> Option<&Kept> {
        self.entries
            .iter()
            .find(|kept| matches!(&kept.paper.says, Says::Revoked { entry, .. } if entry == hash))
    }
}

impl Kept {
    /// Dated before its educator was enrolled: a clock stood wrong.
    pub fn is_before_enrolment(&self) -> bool {
        self.paper.at_ms < self.paper.enrolled_ms
    }
}

/// The date of a paper, on the clock of the tablet that signed it.
pub fn date_of(paper: &Paper) -> String {
    crate::moment::date_text(paper.at_ms, paper.offset_min)
}

/// As hexadecimal digits.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// SHA-256 of a token's bytes, the token given in hexadecimal digits; `None` where it is none.
pub fn token_hash(token: &str) -> Option<String> {
    Some(hex(&Sha256::digest(unhex(token)?)))
}

/// Back from hexadecimal digits; `None` for anything else.
pub fn unhex(text: &str) -> Option<Vec<u8>> {
    let digits: Vec<u8> = text.chars().map(digit).collect::<Option<_>>()?;
    digits.len().is_multiple_of(2).then(|| digits.chunks(2).map(|two| two[0] << 4 | two[1]).collect())
}

fn digit(letter: char) -> Option<u8> {
    match letter {
        '0'..='9' | 'a'..='f' => letter.to_digit(16).and_then(|digit| u8::try_from(digit).ok()),
        _ => None,
    }
}

/// The instant at which something said at `at_ms` for `months` runs out; `None` outside the calendar.
pub fn months_after(at_ms: i64, months: u16) -> Option<i64> {
    let from = chrono::DateTime::from_timestamp_millis(at_ms)?;
    from.checked_add_months(chrono::Months::new(months.into())).map(|end| end.timestamp_millis())
}

/// The version of the app, as papers name it.
pub const APP: &str = env!("CARGO_PKG_VERSION");

/// The paper that this educator would sign now.
pub fn paper(by: &Educator, says: Says, now: Moment) -> Paper {
    Paper {
        format: paper::FORMAT,
        app: APP.to_owned(),
        educator: by.name.clone(),
        enrolled_ms: by.enrolled.wall_ms,
        at_ms: now.wall_ms,
        offset_min: now.offset_min,
        says,
    }
}
