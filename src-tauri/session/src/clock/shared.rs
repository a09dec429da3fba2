//! One clock for two threads.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use super::{Clock, Reading};

#[derive(Clone)]
pub(crate) struct SharedClock(Arc<Mutex<Box<dyn Clock>>>);

impl SharedClock {
    pub(crate) fn new(clock: Box<dyn Clock>) -> SharedClock {
        SharedClock(Arc::new(Mutex::new(clock)))
    }

    fn clock(&self) -> MutexGuard<'_, Box<dyn Clock>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Clock for SharedClock {
    fn read(&self) -> Reading {
        self.clock().read()
    }

    fn wait(&self, ms: i64) -> Duration {
        self.clock().wait(ms)
    }

    fn of_world_ms(&self, ms: u32) -> u32 {
        self.clock().of_world_ms(ms)
    }

    fn of_standing_ms(&self, ms: u32) -> u32 {
        self.clock().of_standing_ms(ms)
    }

    fn is_for_tests(&self) -> bool {
        self.clock().is_for_tests()
    }

    fn pulse_ms(&self) -> i64 {
        self.clock().pulse_ms()
    }

    fn silence(&self) -> Duration {
        self.clock().silence()
    }

    fn patience_ms(&self) -> i64 {
        self.clock().patience_ms()
    }
}
