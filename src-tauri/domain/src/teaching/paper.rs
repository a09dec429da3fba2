//! What a signature covers, and the one function that writes it as bytes.
//!
//! Frozen: a paper of format 1 has these fields in this order. Anything new is another format; the signed files
//! kept in the tests must open for ever.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::item::{How, Item};
use crate::practice::Verdict;

pub const FORMAT: u8 = 1;
/// A token holds at most 4,096 bytes; key, signature and frame take some 150 of them.
pub const MOST_BYTES: usize = 3_900;

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Paper {
    pub format: u8,
    /// The version of the app that wrote it.
    pub app: String,
    /// Who signs, by name; the key stands beside the signature.
    pub educator: String,
    /// When that educator was enrolled, ms since 1970: nothing of theirs is older.
    pub enrolled_ms: i64,
    pub at_ms: i64,
    pub offset_min: i16,
    pub says: Says,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Says {
    SignedOff(SignOff),
    /// Takes back the paper with this hash; both stay.
    Revoked {
        entry: String,
        reason: String,
    },
    /// Stands for another educator's key.
    Vouched {
        name: String,
        key: String,
    },
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SignOff {
    /// Name or initials, as typed.
    pub learner: String,
    pub work: Work,
    /// In the order of the list; what was not looked at this time is not among them.
    pub marks: Vec<Marked>,
}

/// What the learner did, by hash of the exact record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Work {
    /// A check on a patient, with the educator beside. No bed, no patient.
    Supervised { check: Uuid, record: String, ended_ms: i64 },
    /// A practice run: exercise, seed and engine make it again; `record` is of its entries.
    Practice {
        run: Uuid,
        exercise: String,
        exercise_hash: String,
        seed: u64,
        engine: String,
        record: String,
        judgement: String,
        passed: bool,
        ended_ms: i64,
    },
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Marked {
    pub item: Item,
    pub how: How,
    pub met: bool,
    /// What the judge found, where it had something to say.
    pub judge: Option<Finding>,
    /// Why the educator says otherwise than the judge, or signs what a run that was not passed has shown.
    pub reason: Option<String>,
}

/// What the judge of a practice run found of one item: the worst of the acts that speak to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Finding {
    Done,
    Late,
    Missed,
    Unsafe,
}

impl From<Verdict> for Finding {
    fn from(verdict: Verdict) -> Finding {
        match verdict {
            Verdict::Done => Finding::Done,
            Verdict::Late => Finding::Late,
            Verdict::Missed => Finding::Missed,
            Verdict::Unsafe => Finding::Unsafe,
        }
    }
}

impl Paper {
    /// The bytes that are signed: JSON without spaces, fields as declared. The only writer.
    ///
    /// # Errors
    /// None of these types makes one; the writer can.
    pub fn bytes(&self) -> Result<Vec<u8>, serde_json::Error> {
        serde_json::to_vec(self)
    }
}

impl Work {
    pub fn is_practice(&self) -> bool {
        matches!(self, Work::Practice { .. })
    }

    /// A practice run that the judge did not pass.
    pub fn is_not_passed(&self) -> bool {
        matches!(self, Work::Practice { passed: false, .. })
    }
}
