//! A clock that moves only when it is told to.

use domain::moment::Moment;
use simulator::SplitMix64;

/// 24 November 2026, 21:40 local time, one hour east of UTC.
const START_WALL_MS: i64 = 1_795_552_800_000;
const OFFSET_MIN: i16 = 60;
/// The device has been up for a month.
const START_BOOT_MS: i64 = 30 * 24 * HOUR_MS;
const HOUR_MS: i64 = 60 * 60 * 1000;
/// Names the one boot.
const BOOT: u64 = 1;

#[derive(Clone, Debug)]
pub struct Clock {
    since_start_ms: i64,
    began_ms: i64,
    chance: SplitMix64,
}

impl Clock {
    pub fn new(seed: u64) -> Clock {
        Clock { since_start_ms: 0, began_ms: 0, chance: SplitMix64::new(seed) }
    }

    pub fn set_hours_before(&mut self, hours: u32) {
        self.since_start_ms = -i64::from(hours) * HOUR_MS;
    }

    pub fn pass(&mut self, ms: i64) {
        self.since_start_ms += ms.max(0);
    }

    /// Counts from here what `since_start_ms` tells.
    pub fn begin(&mut self) {
        self.began_ms = self.since_start_ms;
    }

    pub fn since_start_ms(&self) -> i64 {
        self.since_start_ms - self.began_ms
    }

    pub fn boot_ms(&self) -> i64 {
        START_BOOT_MS + self.since_start_ms
    }

    pub fn now(&mut self) -> Moment {
        let (high, low) = (self.chance.next_u64().to_be_bytes(), self.chance.next_u64().to_be_bytes());
        let mut fresh = [0; 16];
        fresh[..8].copy_from_slice(&high);
        fresh[8..].copy_from_slice(&low);
        Moment {
            wall_ms: START_WALL_MS + self.since_start_ms,
            offset_min: OFFSET_MIN,
            boot_ms: self.boot_ms(),
            boot: BOOT,
            fresh,
        }
    }
}
