//! Time and chance as arguments: the domain reads no clock and draws no random number.

use serde::{Deserialize, Serialize};

/// One instant, as the session saw it when it took a command.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Moment {
    /// Wall clock, milliseconds since 1970-01-01T00:00:00 UTC. May jump.
    pub wall_ms: i64,
    /// Offset of local time from UTC, minutes east.
    pub offset_min: i16,
    /// Milliseconds since this boot, sleep included. Never jumps within one boot.
    pub boot_ms: i64,
    /// Names the boot: `boot_ms` of two moments compare only when this is equal.
    pub boot: u64,
    /// Random bytes for identifiers made at this moment.
    pub fresh: [u8; 16],
}

impl Moment {
    /// Local wall clock as "21:44".
    pub fn clock(self) -> String {
        clock_text(self.wall_ms, self.offset_min)
    }

    /// Milliseconds from `earlier` to `self`, by the boot clock; `None` across a reboot.
    pub fn since(self, earlier: Moment) -> Option<i64> {
        (self.boot == earlier.boot).then(|| self.boot_ms - earlier.boot_ms)
    }
}

/// Local time of day, "21:44"; "--:--" outside the range of calendar dates.
pub fn clock_text(wall_ms: i64, offset_min: i16) -> String {
    local(wall_ms, offset_min).map_or_else(|| "--:--".to_owned(), |t| t.format("%H:%M").to_string())
}

/// Local date, "2026-11-24"; dashes outside the range of calendar dates.
pub fn date_text(wall_ms: i64, offset_min: i16) -> String {
    local(wall_ms, offset_min).map_or_else(|| "----------".to_owned(), |t| t.format("%Y-%m-%d").to_string())
}

fn local(wall_ms: i64, offset_min: i16) -> Option<chrono::DateTime<chrono::Utc>> {
    chrono::DateTime::from_timestamp_millis(wall_ms + i64::from(offset_min) * 60_000)
}
