//! What each key does on the card in front: numbers for the answers, letters for what is always there.

use std::fmt::Write as _;

use domain::contract::{Act, Field, Shape, View};
use domain::say::Say;

use crate::spoken::spoken;

pub enum Key<'v> {
    Act(&'v Act<String>),
    Unknown,
}

/// Letters that stay the same on every card.
const ALWAYS: [char; 4] = ['n', 'w', 's', 'r'];

pub fn key<'v>(view: &'v View<String>, typed: &str) -> Key<'v> {
    let numbered = typed.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
    let by_number = numbered.and_then(|at| numbered_acts(view).nth(at));
    let letter = typed.chars().next().filter(|_| typed.chars().count() == 1);
    let by_letter =
        letter.and_then(|letter| always(view).find(|(key, _)| *key == letter).map(|(_, act)| act));
    by_number.or(by_letter).map_or(Key::Unknown, Key::Act)
}

/// One line a key.
pub fn menu(view: &View<String>) -> String {
    let mut text = String::new();
    for (act, number) in numbered_acts(view).zip(1_usize..) {
        let _ = writeln!(text, "  {number}  {}", act.label);
    }
    for (letter, act) in always(view) {
        let _ = writeln!(text, "  {letter}  {}", act.label);
    }
    let _ = write!(text, "  q  {}", spoken(&Say::LeaveTerminal));
    text
}

/// The label, the unit, and what may be chosen.
pub fn prompt(field: &Field<String>) -> String {
    let unit = field.unit.as_ref().map(|unit| format!(" ({unit})")).unwrap_or_default();
    let choices: Vec<String> = field
        .choices
        .iter()
        .zip(1_usize..)
        .map(|(choice, number)| format!("{number} = {}", choice.label))
        .collect();
    let choices = if choices.is_empty() { String::new() } else { format!(" [{}]", choices.join(", ")) };
    format!("{}{unit}{choices}:", field.label)
}

/// A number picks a choice, where nothing else can be typed.
pub fn choice(field: &Field<String>, typed: &str) -> String {
    let only_choices = !field.choices.is_empty() && field.max_chars == 0;
    let picked = typed.parse::<usize>().ok().and_then(|number| field.choices.get(number.checked_sub(1)?));
    match picked.filter(|_| only_choices) {
        Some(choice) => choice.value.clone(),
        None => typed.to_owned(),
    }
}

/// Answers, rows that open, choices that act, and lesser acts.
fn numbered_acts(view: &View<String>) -> impl Iterator<Item = &Act<String>> {
    let (rows, fields): (&[_], &[_]) = match &view.shape {
        Shape::Beds(beds) => (beds.rows.as_slice(), &[]),
        Shape::Form(form) => (&[], form.fields.as_slice()),
        Shape::Turn(_)
        | Shape::Ask(_)
        | Shape::List(_)
        | Shape::Result(_)
        | Shape::Code(_)
        | Shape::Chart(_) => (&[], &[]),
    };
    let opens = rows.iter().map(|row| &row.open);
    let choices =
        fields.iter().flat_map(|field| field.choices.iter().filter_map(|choice| choice.act.as_ref()));
    opens.chain(choices).chain(&view.answers).chain(&view.aside)
}

fn always(view: &View<String>) -> impl Iterator<Item = (char, &Act<String>)> {
    let acts = view.safety.iter().flat_map(|safety| {
        [Some(&safety.no_beats), safety.wrong.as_ref(), safety.slip.as_ref(), Some(&safety.stop)]
    });
    ALWAYS.into_iter().zip(acts).filter_map(|(letter, act)| Some((letter, act?)))
}
