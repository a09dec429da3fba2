//! A clock that stands still until a test moves it.

use std::sync::{Arc, Mutex};
use std::time::Duration;

use session::{Clock, Reading};

#[derive(Clone)]
pub struct HandClock {
    shared: Arc<Mutex<(Reading, i64)>>,
}

impl HandClock {
    /// An evening in November 2026, an hour after boot, one hour east of UTC.
    pub fn new() -> HandClock {
        HandClock::at(3_600_000)
    }

    /// The same evening, this long after boot.
    pub fn at(boot_ms: i64) -> HandClock {
        let reading = Reading { wall_ms: 1_795_549_400_000 + boot_ms, offset_min: 60, boot_ms, boot: 7 };
        HandClock { shared: Arc::new(Mutex::new((reading, i64::MAX / 4))) }
    }

    pub fn boot_ms(&self) -> i64 {
        self.read().boot_ms
    }

    /// Time passes and the session runs.
    pub fn pass(&self, ms: i64) {
        let mut shared = self.shared.lock().unwrap();
        shared.0.wall_ms += ms;
        shared.0.boot_ms += ms;
    }

    pub fn set_wall(&self, by_ms: i64) {
        self.shared.lock().unwrap().0.wall_ms += by_ms;
    }

    pub fn reboot(&self) {
        let mut shared = self.shared.lock().unwrap();
        shared.0.boot += 1;
        shared.0.boot_ms = 9_000;
    }

    /// From here on a silence of 5 s more than a tick is a sleep.
    pub fn be_strict(&self) {
        self.shared.lock().unwrap().1 = 5_000;
    }
}

impl Clock for HandClock {
    fn read(&self) -> Reading {
        self.shared.lock().unwrap().0
    }

    fn wait(&self, ms: i64) -> Duration {
        Duration::from_millis(ms.clamp(0, 2).unsigned_abs())
    }

    fn patience_ms(&self) -> i64 {
        self.shared.lock().unwrap().1
    }
}
