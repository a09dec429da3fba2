//! A record in the words a scenario expects, and in numbers.

use domain::check::facts::{Found, Own, Why};
use domain::record::Record;
use domain::say::{Say, figure};
use domain::units::OutputUnit;
use serde_json::Value;

use crate::spoken::spoken;

/// "OwnTooFast" → "own-too-fast".
pub fn kebab(name: &str) -> String {
    let mut kebab = String::new();
    for letter in name.chars() {
        if letter.is_ascii_uppercase() && !kebab.is_empty() {
            kebab.push('-');
        }
        kebab.push(letter.to_ascii_lowercase());
    }
    kebab
}

/// A printed figure as a JSON number; null where it is none.
pub fn number(text: &str) -> Value {
    let whole = text.parse::<u64>().map(Value::from);
    whole.or_else(|_| text.parse::<f64>().map(Value::from)).unwrap_or(Value::Null)
}

pub fn why_code(why: Why) -> String {
    kebab(&format!("{why:?}"))
}

pub fn own(record: &Record) -> String {
    spoken(&match (record.own, record.facts.own) {
        (Some((slowest, fastest)), _) if slowest == fastest => figure(slowest.to_string()),
        (Some((slowest, fastest)), _) => {
            Say::FoundRange { low: slowest.to_string(), high: Box::new(figure(fastest.to_string())) }
        }
        (None, Own::NotSeen) => Say::FoundOwnNotSeen { limit: record.limit.clone() },
        (None, Own::NotLooked | Own::Shown | Own::Cleared) => Say::FoundNotLookedFor,
    })
}

pub fn sensing(record: &Record) -> String {
    let at = record.sensing_text.clone().unwrap_or_default();
    let figure = Box::new(Say::FigureUnit { figure: at, unit: Box::new(Say::MilliVolt) });
    spoken(&match record.sensing {
        Found::Exact | Found::AtMost | Found::Bracket => *figure,
        Found::AtLeast => Say::FoundAtLeast { figure },
        Found::SeenWhereItStood => Say::FoundSeenAt { figure },
        Found::SeenAtNone => Say::FoundSeenAtNone,
        Found::Nothing => Say::FoundNotTested { why: why_code(record.why_sensing) },
    })
}

pub fn capture(record: &Record) -> String {
    let unit = Box::new(match record.unit {
        OutputUnit::MilliAmp => Say::MilliAmp,
        OutputUnit::Volt => Say::Volt,
    });
    let at = record.capture_text.clone().unwrap_or_default();
    let figure = Box::new(Say::FigureUnit { figure: at, unit });
    spoken(&match (record.capture, record.capture_low_text.clone()) {
        (Found::Bracket, Some(low)) => Say::FoundRange { low, high: figure },
        (Found::AtMost, _) => Say::FoundAtMost { figure },
        (Found::Nothing, _) => Say::FoundNotTested { why: why_code(record.why_capture) },
        (Found::Exact | Found::Bracket | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone, _) => {
            *figure
        }
    })
}

/// The flags by their names, most urgent first.
pub fn flags(record: &Record) -> Vec<String> {
    record.flags.iter().map(|flag| kebab(flag.say().name().trim_start_matches("Flag"))).collect()
}
