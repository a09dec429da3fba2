//! The slow part: a PIN opens a key, the key signs; a new key goes behind a new PIN.

use domain::teaching::paper::Paper;
use domain::teaching::{PinDone, Task, hex, unhex};
use seal::{Effort, LockFault, LockedKey, Secret, TabletKey};

/// What a person typed, and a key drawn for it. Cannot be printed, copied or written anywhere.
#[derive(Default)]
pub struct Pins {
    pub pin: Option<Secret>,
    pub new_pin: Option<Secret>,
    pub new_key: Option<TabletKey>,
}

/// Slow on purpose: a worker's job. `locked`: the key of whoever signs, as it is kept; `fresh`: 40 random bytes
/// never used before.
pub fn carry_out(
    task: &Task,
    locked: Option<&str>,
    pins: &Pins,
    effort: Effort,
    fresh: &[u8; 40],
) -> PinDone {
    let done = match task {
        Task::Enrol { key, .. } => lock(key, pins, effort, fresh).map(|locked| (None, Some(locked))),
        Task::Sign { paper, .. } => sign(paper, locked, pins).map(|token| (Some(token), None)),
        Task::Renew { paper, key, .. } => sign(paper, locked, pins)
            .and_then(|token| Ok((Some(token), Some(lock(key, pins, effort, fresh)?)))),
    };
    match done {
        Ok((token, locked)) => PinDone::Opened { token, locked },
        Err(NotDone::WrongPin) => PinDone::Wrong,
        Err(NotDone::Device) => PinDone::Failed,
    }
}

enum NotDone {
    WrongPin,
    Device,
}

impl From<LockFault> for NotDone {
    fn from(fault: LockFault) -> NotDone {
        match fault {
            LockFault::WrongPin => NotDone::WrongPin,
            LockFault::Form | LockFault::Effort | LockFault::Device => NotDone::Device,
        }
    }
}

fn sign(paper: &Paper, locked: Option<&str>, pins: &Pins) -> Result<String, NotDone> {
    let pin = pins.pin.as_ref().ok_or(NotDone::Device)?;
    let locked = locked.and_then(unhex).ok_or(NotDone::Device)?;
    let key = LockedKey::from_bytes(&locked)?.unlock(pin)?;
    crate::sign(&key, paper).map(|token| hex(&token)).ok_or(NotDone::Device)
}

/// The key that was drawn is the one that was recorded.
fn lock(public: &str, pins: &Pins, effort: Effort, fresh: &[u8; 40]) -> Result<String, NotDone> {
    let (pin, key) = pins.new_pin.as_ref().zip(pins.new_key.as_ref()).ok_or(NotDone::Device)?;
    if hex(key.public().bytes()) != public {
        return Err(NotDone::Device);
    }
    Ok(hex(&LockedKey::lock(key, pin, effort, fresh)?.to_bytes()))
}
