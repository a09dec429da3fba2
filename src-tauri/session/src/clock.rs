//! The clocks, as the session reads them.

mod shared;

use std::time::Duration;

pub(crate) use shared::SharedClock;

/// One look at all clocks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reading {
    /// Milliseconds since 1970-01-01T00:00:00 UTC. May jump.
    pub wall_ms: i64,
    /// Local time, minutes east of UTC.
    pub offset_min: i16,
    /// Milliseconds since boot, sleep included. Never goes back.
    pub boot_ms: i64,
    /// Names the boot.
    pub boot: u64,
}

/// Where the session's time comes from.
pub trait Clock: Send {
    fn read(&self) -> Reading;

    /// How long to wait for `ms` of this clock to pass.
    fn wait(&self, ms: i64) -> Duration {
        Duration::from_millis(ms.max(0).unsigned_abs())
    }

    /// This clock's milliseconds in so many of the world's.
    fn of_world_ms(&self, ms: u32) -> u32 {
        ms
    }

    /// The same of how long something stood on the glass before it was tapped.
    fn of_standing_ms(&self, ms: u32) -> u32 {
        self.of_world_ms(ms)
    }

    /// Not the world's time: every screen says so.
    fn is_for_tests(&self) -> bool {
        false
    }

    /// While a check is open a view goes out at least this often: a page that hangs cannot say so,
    /// it can only fail to draw the next one.
    fn pulse_ms(&self) -> i64 {
        2_000
    }

    /// A page that owes a drawing for longer, in the world's time, shows a strip to nobody.
    fn silence(&self) -> Duration {
        Duration::from_secs(2)
    }

    /// A silence of the session's own thread longer than this is a sleep, not a slow disk.
    fn patience_ms(&self) -> i64 {
        5_000
    }
}

/// The device's clocks.
#[derive(Clone, Copy, Debug)]
pub struct SystemClock {
    boot: u64,
}

impl SystemClock {
    /// Fails when the device names no boot and gives no random bytes to name one.
    pub fn new() -> Result<SystemClock, getrandom::Error> {
        named_boot().map_or_else(getrandom::u64, Ok).map(|boot| SystemClock { boot })
    }
}

impl Clock for SystemClock {
    fn read(&self) -> Reading {
        let local = chrono::Local::now();
        Reading {
            wall_ms: local.timestamp_millis(),
            offset_min: i16::try_from(local.offset().local_minus_utc() / 60).unwrap_or(0),
            boot_ms: boot_ms(),
            boot: self.boot,
        }
    }
}

/// The kernel's own name for this boot. Without one each start counts as a new boot, which the
/// resume card takes as the longest gap.
fn named_boot() -> Option<u64> {
    let text = std::fs::read_to_string("/proc/sys/kernel/random/boot_id").ok()?;
    let digits: String = text.chars().filter(char::is_ascii_hexdigit).take(16).collect();
    u64::from_str_radix(&digits, 16).ok()
}

#[cfg(any(target_os = "linux", target_os = "android"))]
fn boot_ms() -> i64 {
    since(rustix::time::ClockId::Boottime)
}

/// Elsewhere on Unix the monotonic clock itself counts sleep.
#[cfg(all(unix, not(any(target_os = "linux", target_os = "android"))))]
fn boot_ms() -> i64 {
    since(rustix::time::ClockId::Monotonic)
}

#[cfg(unix)]
fn since(clock: rustix::time::ClockId) -> i64 {
    let time = rustix::time::clock_gettime(clock);
    time.tv_sec * 1_000 + time.tv_nsec / 1_000_000
}

#[cfg(not(unix))]
fn boot_ms() -> i64 {
    static START: std::sync::OnceLock<std::time::Instant> = std::sync::OnceLock::new();
    let elapsed = START.get_or_init(std::time::Instant::now).elapsed();
    i64::try_from(elapsed.as_millis()).unwrap_or(i64::MAX)
}
