//! The one way in. Nothing of a refused code is given out, and nothing that is given out is trusted before the
//! dials have been compared.

use std::collections::BTreeSet;

use seal::{KnownKeys, PublicKey, TokenFault, Writer};

use crate::copy::{self, CopyFault};
use crate::lines::{self, TornEnvelope};
use domain::handover::arrived::{Form, Remark};
use domain::handover::stamp::Minute;
use domain::handover::summary::{Next, Origin, Summary};

/// Longer input is refused unread. The longest code that is written has 703 letters.
pub const MOST_BYTES: usize = 1_024;
/// A check at least every 24 hours (NK, read): an older one is history, whatever its own next check says.
const OLD_AFTER_MIN: Minute = 24 * 60;
/// Two tablets' clocks may differ by so much before it is said (common practice, no source).
const CLOCK_SLACK_MIN: Minute = 5;

/// What became of a code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Nothing of it is taken.
    Refused(Refused),
    /// Unchanged since a tablet wrote it.
    Read(Box<Loaded>),
}

/// Each is its own sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// Some other text: no code of ours.
    NotACode,
    /// More than any code holds.
    TooLong,
    /// Begins like one of ours, but is cut or not readable.
    Damaged,
    /// Whole in form, but not as the tablet wrote it.
    Altered,
    /// Written by a newer version than this one, or in a language it does not have.
    NewerVersion,
    /// Made in practice and loaded for a patient.
    Practice,
    /// Of a patient and loaded in practice.
    Care,
}

/// A code that was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loaded {
    pub summary: Summary,
    pub form: Form,
    pub key: PublicKey,
    pub tablet: Tablet,
    /// What the receiver is told beside it; each is its own sentence.
    pub remarks: Vec<Remark>,
}

/// A signature names a tablet, not a truth.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tablet {
    /// Paired before, under this name.
    Known { name: String },
    /// The normal case between units.
    Unknown,
}

/// What makes two codes the same check.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Identity {
    pub key: PublicKey,
    pub check: u32,
    pub ended: Minute,
}

impl Loaded {
    pub fn identity(&self) -> Identity {
        Identity { key: self.key, check: self.summary.newest.id, ended: self.summary.newest.ended }
    }
}

/// Reads what a camera, a scanner, a picture or the clipboard gave. `wanted` says whether it is for a patient or
/// for practice; `seen` are the checks already here; `now` is this tablet's clock.
pub fn load(
    code: &[u8],
    wanted: Origin,
    known: &KnownKeys,
    seen: &BTreeSet<Identity>,
    now: Minute,
) -> Outcome {
    match opened(code).and_then(|opened| meant_for(wanted, opened)) {
        Err(refused) => Outcome::Refused(refused),
        Ok((form, key, summary)) => {
            let tablet = match known.writer(&key) {
                Writer::Known(name) => Tablet::Known { name: name.to_owned() },
                Writer::Unknown => Tablet::Unknown,
            };
            let mut loaded = Loaded { summary, form, key, tablet, remarks: Vec::new() };
            loaded.remarks = remarks(&loaded, seen, now);
            Outcome::Read(Box::new(loaded))
        }
    }
}

type Opened = (Form, PublicKey, Summary);

fn opened(code: &[u8]) -> Result<Opened, Refused> {
    if code.len() > MOST_BYTES {
        return Err(Refused::TooLong);
    }
    let text = str::from_utf8(code).ok().filter(|text| text.is_ascii()).ok_or(Refused::NotACode)?;
    if let Some((version, letters)) = copy::head(text) {
        return opened_copy(version, letters);
    }
    let (version, language) = lines::head(text).ok_or(Refused::NotACode)?;
    opened_lines(text, version, language)
}

fn opened_lines(text: &str, version: u32, language: &str) -> Result<Opened, Refused> {
    let envelope = lines::opened(text).map_err(|torn| match torn {
        TornEnvelope::Form => unreadable(version > lines::VERSION),
        TornEnvelope::Key => Refused::Altered,
    })?;
    if !envelope.holds {
        return Err(Refused::Altered);
    }
    let table = lines::table(version, language).ok_or(Refused::NewerVersion)?;
    let summary = lines::read(envelope.text, table).ok_or(Refused::Damaged)?;
    if lines::version_for(&summary.newest) != version {
        return Err(Refused::Damaged);
    }
    Ok((Form::Lines, envelope.key, summary))
}

fn opened_copy(version: u32, letters: &str) -> Result<Opened, Refused> {
    let opened = copy::opened(letters).map_err(|fault| match fault {
        CopyFault::Token(TokenFault::Altered) => Refused::Altered,
        CopyFault::Token(TokenFault::TooLong | TokenFault::Form)
        | CopyFault::Content
        | CopyFault::TooLong => unreadable(version > copy::VERSION),
    })?;
    if !(1..=copy::VERSION).contains(&version) {
        return Err(Refused::NewerVersion);
    }
    let summary = copy::read(&opened.content).ok_or(Refused::Damaged)?;
    if copy::version_for(&summary) != version {
        return Err(Refused::Damaged);
    }
    Ok((Form::Copy, opened.key, summary))
}

/// A newer version may sign in another form.
fn unreadable(by_a_newer_version: bool) -> Refused {
    if by_a_newer_version { Refused::NewerVersion } else { Refused::Damaged }
}

fn meant_for(wanted: Origin, opened: Opened) -> Result<Opened, Refused> {
    match (wanted, opened.2.origin) {
        (Origin::Care, Origin::Practice) => Err(Refused::Practice),
        (Origin::Practice, Origin::Care) => Err(Refused::Care),
        (Origin::Care, Origin::Care) | (Origin::Practice, Origin::Practice) => Ok(opened),
    }
}

fn remarks(loaded: &Loaded, seen: &BTreeSet<Identity>, now: Minute) -> Vec<Remark> {
    let summary = &loaded.summary;
    let age_min = now.saturating_sub(summary.newest.ended);
    let overdue = matches!(summary.next, Next::At(due) if due < now);
    let by_min = summary.written().saturating_sub(now);
    [
        (loaded.tablet == Tablet::Unknown, Remark::UnknownTablet),
        (seen.contains(&loaded.identity()), Remark::Duplicate),
        (overdue || age_min > OLD_AFTER_MIN, Remark::Expired { age_min }),
        (by_min > CLOCK_SLACK_MIN, Remark::AheadOfClock { by_min }),
        (summary.left_out > 0, Remark::Shortened { facts: summary.left_out }),
        (summary.newest.example_rules, Remark::ExampleRules),
        (!summary.newest.read && summary.newest.read_later.is_none(), Remark::DialsNotRead),
        (!summary.others.is_empty(), Remark::UnknownLines),
    ]
    .into_iter()
    .filter_map(|(is_so, remark)| is_so.then_some(remark))
    .collect()
}
