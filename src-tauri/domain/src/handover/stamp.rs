//! Times in a code: whole minutes, written in the local time of the check.

use chrono::{DateTime, NaiveDateTime};
use serde::{Deserialize, Serialize};

const FORM: &str = "%Y-%m-%d %H:%M";

/// Minutes since 1970-01-01T00:00 UTC.
pub type Minute = u32;

/// Offset of local time from UTC in minutes east, -14 h to +14 h.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Place(i16);

impl Place {
    const MOST: i16 = 14 * 60;

    /// `None` beyond what any place on earth uses.
    pub fn new(offset_min: i16) -> Option<Place> {
        (-Self::MOST..=Self::MOST).contains(&offset_min).then_some(Place(offset_min))
    }

    pub fn offset_min(self) -> i16 {
        self.0
    }

    /// "2026-11-24 21:40"; dashes outside the range of calendar dates.
    pub fn stamp(self, minute: Minute) -> String {
        let local = (i64::from(minute) + i64::from(self.0)) * 60;
        DateTime::from_timestamp(local, 0)
            .map_or_else(|| "-".to_owned(), |time| time.format(FORM).to_string())
    }

    /// The minute of which `stamp` makes this text.
    pub fn minute(self, text: &str) -> Option<Minute> {
        let local = NaiveDateTime::parse_from_str(text, FORM).ok()?.and_utc().timestamp() / 60;
        Minute::try_from(local - i64::from(self.0)).ok()
    }

    /// "+01:00", as RFC 3339 writes it.
    pub fn text(self) -> String {
        let sign = if self.0 < 0 { '-' } else { '+' };
        let minutes = self.0.unsigned_abs();
        format!("{sign}{:02}:{:02}", minutes / 60, minutes % 60)
    }

    /// The place of which `text` makes this text.
    pub fn read(text: &str) -> Option<Place> {
        let (hours, minutes) = text.get(1..)?.split_once(':')?;
        let east = hours.parse::<i16>().ok()?.checked_mul(60)?.checked_add(minutes.parse().ok()?)?;
        Place::new(if text.starts_with('-') { -east } else { east })
    }
}

/// The whole minute of a wall clock in milliseconds; before 1970 it is minute 0.
pub fn minute_of(wall_ms: i64) -> Minute {
    Minute::try_from(wall_ms / 60_000).unwrap_or(if wall_ms < 0 { 0 } else { Minute::MAX })
}
