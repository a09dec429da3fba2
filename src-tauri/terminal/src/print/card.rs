//! One card as text.

use std::fmt::Write as _;

use domain::contract::{Act, Ask, Code, Form, List, Outcome, Shape, Small, Turn, View};
use domain::handover::drawing::unpacked;
use domain::say::Say;
use serde_json::{Value, json};

use super::qr::half_blocks;
use crate::rehearsal::{CardSeen, kebab};
use crate::spoken::spoken;

/// A card of a rehearsal, with what was done about it.
pub fn card(seen: &CardSeen) -> String {
    let seconds = seen.at_ms / 1000;
    let mut text = format!("── card {} · {}:{:02} ", seen.view.card, seconds / 60, seconds % 60);
    text.push_str("─────────────────────\n");
    text.push_str(&screen(&seen.view));
    done(&mut text, seen);
    text
}

/// What the person turned, typed and answered.
fn done(text: &mut String, seen: &CardSeen) {
    let mut say = |what: Say, said: &str| line(text, &format!("    {}", spoken(&what)), said);
    for turned in &seen.turned {
        say(Say::RehearsedTurned, turned);
    }
    for (field, typed) in &seen.typed {
        say(Say::RehearsedTyped { field: field.clone() }, typed);
    }
    match &seen.answered {
        Some(key) => say(Say::RehearsedAnswered, label_of(&seen.view, key)),
        None => say(Say::RehearsedByTime, ""),
    }
    if let Some(refused) = &seen.refused {
        say(Say::RehearsedNotTaken, refused);
    }
}

/// As one object a line.
pub fn card_json(seen: &CardSeen) -> Result<Value, serde_json::Error> {
    Ok(json!({
        "card": seen.view.card,
        "at_s": seen.at_ms / 1000,
        "stage": kebab(seen.stage.trim_start_matches("Stage")),
        "asks": kebab(seen.asks),
        "turned": seen.turned,
        "typed": seen.typed,
        "answered": seen.answered,
        "refused": seen.refused,
        "view": serde_json::to_value(&seen.view)?,
    }))
}

/// Everything on the screen.
fn screen(view: &View<String>) -> String {
    let mut text = body(view);
    buttons(&mut text, &view.answers);
    buttons(&mut text, &view.aside);
    if let Some(safety) = &view.safety {
        let labels: Vec<&str> = safety.acts().map(|act| act.label.as_str()).collect();
        let labels = labels.join(" · ");
        let _ = writeln!(text, "  {}: {labels}", spoken(&Say::RehearsedAlways));
    }
    text
}

/// Everything on the screen but its buttons.
pub fn body(view: &View<String>) -> String {
    let mut text = String::new();
    let head = &view.head;
    let wall = head.wall.as_ref().map(|wall| format!(" · {wall}")).unwrap_or_default();
    let subtitle = head.subtitle.as_ref().map(|below| format!(" · {below}")).unwrap_or_default();
    let _ = writeln!(text, "{}{subtitle}{wall}", head.title);
    for mark in &view.marks {
        let _ = writeln!(text, "[{mark}]");
    }
    shape(&mut text, &view.shape);
    if let Some(notice) = &view.notice {
        line(&mut text, "  !", notice);
    }
    let strip = view.safety.as_ref().and_then(|safety| safety.strip.as_ref());
    if let Some(strip) = strip {
        let dials: Vec<String> = strip.dials.iter().map(small).collect();
        let note = strip.note.as_ref().map(|note| format!(" ({note})")).unwrap_or_default();
        let _ = writeln!(text, "  {} {}{note}", strip.label, dials.join(" · "));
    }
    text
}

fn shape(text: &mut String, shape: &Shape<String>) {
    match shape {
        Shape::Turn(turn) => turn_lines(text, turn),
        Shape::Ask(ask) => ask_lines(text, ask),
        Shape::List(list) => list_lines(text, list),
        Shape::Form(form) => form_lines(text, form),
        Shape::Result(result) => result_lines(text, result),
        Shape::Code(code) => code_lines(text, code),
        Shape::Chart(chart) => {
            let _ = writeln!(text, "  {}", chart.headline);
            chart.charts.iter().for_each(|chart| line(text, "   ", &chart.words));
            chart.rows.iter().for_each(|row| line(text, &format!("  {}:", row.label), &row.value));
        }
        Shape::Beds(beds) if beds.rows.is_empty() => line(text, " ", &beds.empty),
        Shape::Beds(beds) => {
            for row in &beds.rows {
                let due = row.due.as_deref().unwrap_or_default();
                let _ = writeln!(text, "  {} · {due}", row.title);
                row.lines.iter().for_each(|said| line(text, "   ", said));
            }
        }
    }
}

fn turn_lines(text: &mut String, turn: &Turn<String>) {
    let from = turn.from.as_ref().map(|from| format!(" ({from})")).unwrap_or_default();
    let _ = writeln!(text, "  {} {} {}{from}", turn.instruction, turn.figure, turn.unit);
    for said in [&turn.hint, &turn.reason].into_iter().flatten() {
        line(text, "   ", said);
    }
    if let Some(scale) = &turn.scale {
        line(text, "   ", &scale.words);
    }
    for other in &turn.others {
        let _ = writeln!(text, "    {}", small(other));
    }
    line(text, "  ?", &turn.question);
    turn.watch.iter().for_each(|watch| line(text, "  …", &watch.label));
}

fn ask_lines(text: &mut String, ask: &Ask<String>) {
    line(text, "  ?", &ask.question);
    ask.lines.iter().chain(&ask.reason).for_each(|said| line(text, "   ", said));
    ask.watch.iter().for_each(|watch| line(text, "  …", &watch.label));
}

fn list_lines(text: &mut String, list: &List<String>) {
    line(text, " ", &list.instruction);
    for item in &list.items {
        let number = item.number.map(|number| format!("{number}. ")).unwrap_or_default();
        let figure = item.figure.as_ref().map(|figure| format!(" {figure}")).unwrap_or_default();
        // "mV 2.0", not "mV 2.0 mV".
        let unit = item.unit.as_ref().filter(|unit| **unit != item.text);
        let unit = unit.map(|unit| format!(" {unit}")).unwrap_or_default();
        let _ = writeln!(text, "    {number}{}{figure}{unit}", item.text);
    }
    list.note.iter().for_each(|note| line(text, "   ", note));
}

fn form_lines(text: &mut String, form: &Form<String>) {
    line(text, "  ?", &form.question);
    form.lines.iter().for_each(|said| line(text, "   ", said));
    for field in &form.fields {
        let unit = field.unit.as_deref().unwrap_or_default();
        let _ = writeln!(text, "    {} ____ {unit}", field.label);
    }
}

fn result_lines(text: &mut String, result: &Outcome<String>) {
    line(text, " ", &result.headline);
    for row in &result.rows {
        let note = row.note.as_ref().map(|note| format!(" ({note})")).unwrap_or_default();
        let _ = writeln!(text, "    {}: {}{note}", row.label, row.value);
    }
    result.flags.iter().for_each(|flag| line(text, "  !", flag));
    result.note.iter().for_each(|note| line(text, "   ", note));
}

fn code_lines(text: &mut String, code: &Code<String>) {
    line(text, " ", &code.note);
    for row in &code.rows {
        line(text, &format!("    {}:", row.label), &row.value);
    }
    half_blocks(&unpacked(code.across, &code.modules)).iter().for_each(|drawn| line(text, "", drawn));
}

fn buttons(text: &mut String, acts: &[Act<String>]) {
    if !acts.is_empty() {
        let labels: Vec<String> = acts.iter().map(|act| format!("[{}]", act.label)).collect();
        let _ = writeln!(text, "  {}", labels.join(" "));
    }
}

fn small(small: &Small<String>) -> String {
    format!("{} {}", small.label, small.value)
}

fn line(text: &mut String, before: &str, said: &str) {
    let _ = writeln!(text, "{before} {said}");
}

/// The words on a button; its key where it is not on the card any more.
fn label_of<'v>(view: &'v View<String>, key: &'v str) -> &'v str {
    let always = view.safety.iter().flat_map(|safety| safety.acts());
    let mut acts = view.answers.iter().chain(&view.aside).chain(always);
    acts.find(|act| act.key == key).map_or(key, |act| &act.label)
}
