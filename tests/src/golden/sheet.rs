//! All cards as one text, as a person reads them: this is what is looked over when something changed.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use domain::contract::{Act, Field, Item, Scale, Shape, Small, Tick, TickRole, View};

pub fn sheet(views: &BTreeMap<String, View<String>>) -> String {
    let mut text = String::new();
    for (name, view) in views {
        let _ = writeln!(text, "== {name}\n{}", card(view).join("\n"));
        text.push('\n');
    }
    text
}

fn card(view: &View<String>) -> Vec<String> {
    let clock = view.head.clock.as_ref().map(|clock| clock.label.as_str());
    let head =
        [Some(view.head.title.as_str()), view.head.subtitle.as_deref(), clock, view.head.wall.as_deref()];
    let mut lines = vec![head.into_iter().flatten().collect::<Vec<_>>().join(" | ")];
    lines.extend(shape(&view.shape));
    lines.extend(view.notice.iter().map(|notice| format!("! {notice}")));
    lines.push(labels("answers", &view.answers));
    lines.extend((!view.aside.is_empty()).then(|| labels("aside", &view.aside)));
    lines.extend(safety(view));
    lines
}

fn safety(view: &View<String>) -> Option<String> {
    let safety = view.safety.as_ref()?;
    let strip = safety.strip.as_ref().map(|strip| {
        let note = strip.note.as_deref().unwrap_or_default();
        format!("{}: {} {note}", strip.label, smalls(&strip.dials))
    });
    let exposed = safety.exposed.as_ref().map(|clock| format!("({}) ", clock.label)).unwrap_or_default();
    Some(
        format!("always: {exposed}{}", strip.unwrap_or_else(|| "no restore strip".to_owned()))
            .trim_end()
            .to_owned(),
    )
}

fn labels(name: &str, acts: &[Act<String>]) -> String {
    let all: Vec<_> = acts.iter().map(|act| format!("[{}]", act.label)).collect();
    format!("{name}: {}", all.join(" "))
}

fn smalls(dials: &[Small<String>]) -> String {
    dials.iter().map(|dial| format!("{} {}", dial.label, dial.value)).collect::<Vec<_>>().join(", ")
}

fn shape(shape: &Shape<String>) -> Vec<String> {
    match shape {
        Shape::Turn(turn) => {
            let from = turn.from.as_deref().unwrap_or_default();
            let mut lines = vec![format!("{} {} {} {from}", turn.instruction, turn.figure, turn.unit)];
            lines.extend(turn.hint.iter().map(|hint| format!("  {hint}")));
            lines.extend(turn.reason.iter().map(|reason| format!("  because: {reason}")));
            lines.extend(turn.scale.as_ref().map(scale));
            lines.extend((!turn.others.is_empty()).then(|| format!("  {}", smalls(&turn.others))));
            lines.push(format!("  ? {}", turn.question));
            lines.extend(turn.watch.iter().map(|watch| format!("  {}", watch.label)));
            lines
        }
        Shape::Ask(ask) => {
            let mut lines = vec![format!("? {}", ask.question)];
            lines.extend(ask.lines.iter().chain(&ask.reason).map(|line| format!("  {line}")));
            lines.extend(ask.watch.iter().map(|watch| format!("  {}", watch.label)));
            lines
        }
        Shape::List(list) => {
            let mut lines = vec![list.instruction.clone()];
            lines.extend(list.items.iter().map(item));
            lines.extend(list.note.iter().map(|note| format!("  {note}")));
            lines
        }
        Shape::Form(form) => {
            let mut lines = vec![format!("? {}", form.question)];
            lines.extend(form.lines.iter().map(|line| format!("  {line}")));
            lines.extend(form.fields.iter().map(field));
            lines
        }
        Shape::Result(outcome) => {
            let mut lines = vec![outcome.headline.clone()];
            lines.extend(outcome.flags.iter().map(|flag| format!("  ! {flag}")));
            lines.extend(outcome.rows.iter().map(row));
            lines.extend(outcome.scales.iter().map(scale));
            lines.extend(outcome.note.iter().map(|note| format!("  {note}")));
            lines
        }
        Shape::Code(code) => {
            let mut lines = vec![code.note.clone(), format!("  a code of {} rows", code.modules.len())];
            lines.extend(code.rows.iter().map(row));
            lines
        }
        Shape::Chart(trend) => {
            let mut lines = vec![trend.headline.clone()];
            lines.extend(trend.charts.iter().map(|chart| format!("  {}: {}", chart.title, chart.words)));
            lines.extend(trend.rows.iter().map(row));
            lines
        }
        Shape::Beds(beds) if beds.rows.is_empty() => vec![beds.empty.clone()],
        Shape::Beds(beds) => beds
            .rows
            .iter()
            .map(|row| {
                let due = row.due.as_deref().unwrap_or_default();
                let urgent = if row.urgent { "!" } else { " " };
                format!("{urgent} {} | {due} | {} [{}]", row.title, row.lines.join(" / "), row.open.label)
            })
            .collect(),
    }
}

fn item(item: &Item<String>) -> String {
    let number = item.number.map(|number| format!("{number} ")).unwrap_or_default();
    let figure = item.figure.as_deref().unwrap_or_default();
    format!("  {number}{} {figure} {}", item.text, item.unit.as_deref().unwrap_or_default())
        .trim_end()
        .to_owned()
}

fn field(field: &Field<String>) -> String {
    let choices: Vec<_> = field.choices.iter().map(|choice| choice.label.as_str()).collect();
    let unit = field.unit.as_deref().unwrap_or_default();
    let error = field.error.as_deref().unwrap_or_default();
    format!("  {} __ {unit} {error} {}", field.label, choices.join(" / ")).trim_end().to_owned()
}

fn row(row: &domain::contract::Row<String>) -> String {
    let note = row.note.as_ref().map(|note| format!(" ({note})")).unwrap_or_default();
    format!("  {}: {}{note}", row.label, row.value)
}

/// Positions as marks, labels after their own: o held, x missed, ^ present, | threshold, = set, . plain.
fn scale(scale: &Scale<String>) -> String {
    let ticks: String = scale.ticks.iter().map(tick).collect();
    format!("  scale {ticks} {} ({})", scale.unit, scale.words)
}

fn tick(tick: &Tick<String>) -> String {
    let mark = match tick.role {
        TickRole::Plain => ".",
        TickRole::Held => "o",
        TickRole::Missed => "x",
        TickRole::Present => "^",
        TickRole::Threshold => "|",
        TickRole::Set => "=",
    };
    format!("{mark}{}", tick.label.as_deref().unwrap_or_default())
}
