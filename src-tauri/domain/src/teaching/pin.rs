//! What can be said of a PIN without knowing it, and how long wrong ones make everybody wait.

use serde::{Deserialize, Serialize};

use crate::moment::Moment;
use crate::refusal::Refusal;
use crate::say::Say;

/// The fields whose values never reach a decision, a record or a log.
pub const SECRET_FIELDS: [&str; 3] = [PIN, NEW_PIN, NEW_PIN_AGAIN];
pub const PIN: &str = "pin";
pub const NEW_PIN: &str = "new-pin";
pub const NEW_PIN_AGAIN: &str = "new-pin-again";
/// Where the public half of a newly drawn key stands, in hexadecimal digits. Only the session puts it there.
pub const NEW_KEY: &str = "new-key";

/// Digits (M).
pub const LEAST_DIGITS: usize = 6;
pub const MOST_DIGITS: usize = 12;

/// Tries without a wait, then a wait that doubles up to an hour (M).
const FREE_TRIES: u32 = 3;
const FIRST_WAIT_MS: i64 = 30_000;
const LONGEST_WAIT_MS: i64 = 3_600_000;

/// All that a decision learns of a PIN: it stands in the field in the PIN's place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PinShape {
    Missing,
    NotDigits,
    Short,
    Long,
    Good,
    /// Typed a second time, and not the same.
    Other,
}

impl PinShape {
    pub const ALL: [PinShape; 6] = [
        PinShape::Missing,
        PinShape::NotDigits,
        PinShape::Short,
        PinShape::Long,
        PinShape::Good,
        PinShape::Other,
    ];

    pub fn of(typed: &[u8]) -> PinShape {
        match typed.len() {
            0 => PinShape::Missing,
            _ if !typed.iter().all(u8::is_ascii_digit) => PinShape::NotDigits,
            length if length < LEAST_DIGITS => PinShape::Short,
            length if length > MOST_DIGITS => PinShape::Long,
            _ => PinShape::Good,
        }
    }

    pub fn id(self) -> &'static str {
        match self {
            PinShape::Missing => "missing",
            PinShape::NotDigits => "not-digits",
            PinShape::Short => "short",
            PinShape::Long => "long",
            PinShape::Good => "good",
            PinShape::Other => "other",
        }
    }

    /// A field that holds anything else was not filled.
    pub fn of_id(id: &str) -> PinShape {
        PinShape::ALL.into_iter().find(|shape| shape.id() == id).unwrap_or(PinShape::Missing)
    }

    pub fn taken(self) -> Result<(), Refusal> {
        let digits = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        Err(Refusal::said(match self {
            PinShape::Good => return Ok(()),
            PinShape::Missing => Say::NothingTyped { field: Box::new(Say::PinField) },
            PinShape::NotDigits => Say::PinNotDigits,
            PinShape::Short => Say::PinShort { least: digits(LEAST_DIGITS) },
            PinShape::Long => Say::PinLong { most: digits(MOST_DIGITS) },
            PinShape::Other => Say::PinsDiffer,
        }))
    }
}

/// Wrong PINs since the last right one. A try counts from before it is made, so that pulling the plug saves none.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tries {
    pub count: u32,
    /// What the wait counts from.
    pub since: Option<Moment>,
    pub wait_ms: i64,
}

impl Tries {
    pub fn after_one_more(self, now: Moment) -> Tries {
        let count = self.count.saturating_add(1);
        Tries { count, since: Some(now), wait_ms: wait_ms(count) }
    }

    /// By the boot clock, which nobody can set. After a new boot at most as long as that boot has lasted, and
    /// nothing where the wall clock went back.
    pub fn left_ms(self, now: Moment) -> i64 {
        let Some(since) = self.since else { return 0 };
        let across_boots = || (now.wall_ms - since.wall_ms).min(now.boot_ms).max(0);
        let passed = now.since(since).unwrap_or_else(across_boots);
        (self.wait_ms - passed).clamp(0, LONGEST_WAIT_MS)
    }

    /// The same wait counted from this moment of a new boot; `None` where nothing changes by it.
    pub fn moved_to(self, now: Moment) -> Option<Tries> {
        let since = self.since.filter(|since| since.boot != now.boot)?;
        let wait_ms = Tries { since: Some(since), ..self }.left_ms(now);
        (wait_ms > 0).then_some(Tries { count: self.count, since: Some(now), wait_ms })
    }
}

fn wait_ms(tries: u32) -> i64 {
    let Some(doublings) = tries.checked_sub(FREE_TRIES) else { return 0 };
    (FIRST_WAIT_MS << doublings.min(16)).min(LONGEST_WAIT_MS)
}
