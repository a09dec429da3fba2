//! The same in words, for a reader who has no use for codes.

use domain::check::facts::Found;
use domain::flags::Flag;
use serde_json::{Value, json};
use words::Language;

use super::codes;
use crate::care::{Care, chamber_word, kind_word, polarity_word};

/// `Narrative` of the Observation.
pub fn of(check: &Care<'_>, notes: &[String]) -> Value {
    div(&lines(check, notes))
}

/// That of the Procedure.
pub fn of_act(check: &Care<'_>) -> Value {
    div(&[check_line(check)])
}

pub fn div(lines: &[String]) -> Value {
    let lines: String = lines.iter().map(|line| format!("<p>{}</p>", escaped(line))).collect();
    json!({ "status": "generated", "div": format!("<div xmlns=\"http://www.w3.org/1999/xhtml\">{lines}</div>") })
}

/// What must not be overlooked, and what somebody must act on. `None` where a flag cannot be said.
pub fn notes(check: &Care<'_>) -> Option<Vec<String>> {
    let record = check.record();
    let notes = [
        (record.example_rules, "Example rules: local rules and the responsible clinician come first."),
        (!record.read, "The dials were not read at the end of this check."),
        (record.sensing == Found::SeenAtNone, "No number of the dial saw every own beat."),
    ];
    let notes = notes.into_iter().filter(|(is_so, _)| *is_so).map(|(_, note)| Some(note.to_owned()));
    // That the dials were not read is said already.
    let flags = record.flags.iter().filter(|flag| record.read || **flag != Flag::NotRead);
    notes.chain(flags.map(|flag| words::say(&flag.say(), Language::English).ok())).collect()
}

fn lines(check: &Care<'_>, notes: &[String]) -> Vec<String> {
    let record = check.record();
    let (chamber, unit) = (check.chamber(), record.unit);
    let mut lines = vec![check_line(check)];
    lines.extend(notes.iter().cloned());
    if let Some(stays) = &record.stays {
        lines.push(format!("{}: {}", codes::MODE.text(), codes::mode(chamber, stays.mv.is_none()).text()));
        lines.push(format!("{}: {} /min", codes::RATE.text(), stays.rate));
        lines.push(format!("{}: {} {}", codes::output(chamber, unit).text(), stays.output, unit.symbol()));
        let number = stays.mv.as_ref().map(|mv| format!("{}: {mv} mV", codes::sensitivity(chamber).text()));
        lines.extend(number);
    }
    lines.push(format!("{}: {}", codes::SENSING.text(), sensing(check)));
    lines.push(format!("{}: {}", codes::capture(chamber, unit).text(), capture(check)));
    let margin = record.multiple.as_ref().map(|multiple| format!("{}: {multiple}", codes::MARGIN.text()));
    lines.extend(margin);
    lines
}

fn check_line(check: &Care<'_>) -> String {
    let wire = check.wire();
    let (chamber, kind, polarity) = (chamber_word(wire), kind_word(wire), polarity_word(wire));
    format!("{}: {chamber}, {kind}, {polarity}", codes::CHECK)
}

fn sensing(check: &Care<'_>) -> String {
    let record = check.record();
    let at = record.sensing_text.as_deref().unwrap_or_default();
    match record.sensing {
        Found::Exact => format!("{at} mV"),
        Found::AtLeast | Found::SeenWhereItStood => format!("at least {at} mV"),
        Found::SeenAtNone => "no number saw".to_owned(),
        Found::Nothing | Found::AtMost | Found::Bracket => "not tested".to_owned(),
    }
}

fn capture(check: &Care<'_>) -> String {
    let record = check.record();
    let unit = record.unit.symbol();
    let at = record.capture_text.as_deref().unwrap_or_default();
    match (record.capture, record.capture_low_text.as_deref()) {
        (Found::Exact, _) => format!("{at} {unit}, going up"),
        (Found::Bracket, Some(low)) => format!("{low} to {at} {unit}, going down"),
        (Found::AtMost | Found::Bracket, _) => format!("at most {at} {unit}, going down"),
        _ => "not tested".to_owned(),
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
