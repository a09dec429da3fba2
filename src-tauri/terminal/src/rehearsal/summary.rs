//! A record in the words a scenario expects, and in numbers.

use domain::check::facts::{Found, Own, Why};
use domain::record::Record;
use serde_json::Value;

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
    match (record.own, record.facts.own) {
        (Some((slowest, fastest)), _) if slowest == fastest => slowest.to_string(),
        (Some((slowest, fastest)), _) => format!("{slowest} to {fastest}"),
        (None, Own::NotSeen) => format!("not seen down to {}", record.limit),
        (None, Own::NotLooked | Own::Shown | Own::Cleared) => "not looked for".to_owned(),
    }
}

pub fn sensing(record: &Record) -> String {
    let at = record.sensing_text.as_deref().unwrap_or_default();
    match record.sensing {
        Found::Exact | Found::AtMost | Found::Bracket => format!("{at} mV"),
        Found::AtLeast => format!("at least {at} mV"),
        Found::SeenWhereItStood => format!("seen at {at} mV"),
        Found::SeenAtNone => "not seen at any number".to_owned(),
        Found::Nothing => format!("not tested: {}", why_code(record.why_sensing)),
    }
}

pub fn capture(record: &Record) -> String {
    let unit = record.unit.symbol();
    let at = record.capture_text.as_deref().unwrap_or_default();
    let low = record.capture_low_text.as_deref();
    match (record.capture, low) {
        (Found::Bracket, Some(low)) => format!("{low} to {at} {unit}"),
        (Found::AtMost, _) => format!("at most {at} {unit}"),
        (Found::Nothing, _) => format!("not tested: {}", why_code(record.why_capture)),
        (Found::Exact | Found::Bracket | Found::AtLeast | Found::SeenWhereItStood | Found::SeenAtNone, _) => {
            format!("{at} {unit}")
        }
    }
}

/// The flags by their names, most urgent first.
pub fn flags(record: &Record) -> Vec<String> {
    record.flags.iter().map(|flag| kebab(flag.say().parts().0.trim_start_matches("Flag"))).collect()
}
