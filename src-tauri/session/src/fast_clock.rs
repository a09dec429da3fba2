//! A clock that runs faster than the world, for tests of the real app.

use std::time::Duration;

use crate::clock::{Clock, Reading, SystemClock};

/// Starts with the device's clocks and runs `factor` times as fast.
#[derive(Clone, Copy, Debug)]
pub struct FastClock {
    inner: SystemClock,
    start: Reading,
    factor: i64,
    ahead_ms: i64,
    true_taps: bool,
}

impl FastClock {
    pub fn new(factor: u16) -> Result<FastClock, getrandom::Error> {
        let inner = SystemClock::new()?;
        Ok(FastClock {
            inner,
            start: inner.read(),
            factor: i64::from(factor.max(1)),
            ahead_ms: 0,
            true_taps: false,
        })
    }

    /// The same with a wall clock that was set ahead.
    pub fn set_ahead(self, ahead_ms: i64) -> FastClock {
        FastClock { ahead_ms, ..self }
    }

    /// The same, but a double tap is as short as in the world.
    pub fn with_true_taps(self, true_taps: bool) -> FastClock {
        FastClock { true_taps, ..self }
    }
}

impl Clock for FastClock {
    fn read(&self) -> Reading {
        let real = self.inner.read();
        let ahead = (real.boot_ms - self.start.boot_ms) * (self.factor - 1);
        Reading { wall_ms: real.wall_ms + ahead + self.ahead_ms, boot_ms: real.boot_ms + ahead, ..real }
    }

    fn wait(&self, ms: i64) -> Duration {
        let rounded_up = (ms.max(0) + self.factor - 1) / self.factor;
        Duration::from_millis(rounded_up.unsigned_abs())
    }

    fn of_world_ms(&self, ms: u32) -> u32 {
        u32::try_from(i64::from(ms) * self.factor).unwrap_or(u32::MAX)
    }

    fn of_standing_ms(&self, ms: u32) -> u32 {
        if self.true_taps { ms } else { self.of_world_ms(ms) }
    }

    fn is_for_tests(&self) -> bool {
        true
    }

    /// Pages hang in the world's time.
    fn pulse_ms(&self) -> i64 {
        2_000 * self.factor
    }

    /// It is tried on machines that compile meanwhile.
    fn silence(&self) -> Duration {
        Duration::from_secs(10)
    }

    /// The machine's own hiccups look `factor` times as long.
    fn patience_ms(&self) -> i64 {
        5_000 * self.factor
    }
}
