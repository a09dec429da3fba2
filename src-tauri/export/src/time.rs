//! Times as RFC 3339 writes them.

use chrono::{DateTime, FixedOffset, SecondsFormat};
use domain::moment::Moment;

/// "2026-11-24T21:40:00+01:00"; `None` outside the range of calendar dates.
pub fn stamp(moment: Moment) -> Option<String> {
    stamp_at(moment.wall_ms, moment.offset_min)
}

/// The same of a wall clock in milliseconds, in the local time `offset_min` east of UTC.
pub fn stamp_at(wall_ms: i64, offset_min: i16) -> Option<String> {
    let offset = FixedOffset::east_opt(i32::from(offset_min) * 60)?;
    let time = DateTime::from_timestamp_millis(wall_ms)?.with_timezone(&offset);
    Some(time.to_rfc3339_opts(SecondsFormat::Secs, false))
}
