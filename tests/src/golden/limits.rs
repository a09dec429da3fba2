//! What must hold of every card, whatever it asks.

use std::collections::BTreeSet;

use domain::check::facts::Dial;
use domain::check::offer::{is_always_open, offer};
use domain::check::step::{Stage, Step};
use domain::command::Command;
use domain::contract::{Act, Choice, Practice, Shape, View};
use domain::say::Say;
use words::{Language, render};

use super::search::Met;
use super::texts::{all, to_read, words};

/// Words to read on a card that touches a dial (the product's own bar; a longer language stays under 40).
const WORDS_ENGLISH: usize = 32;
const WORDS_LONGER: usize = 40;
/// A view crosses the bridge in one piece.
const BYTES_MOST: usize = 8_000;

pub fn faults(view: &View<Say>) -> Vec<String> {
    let mut faults = keys(view);
    for (language, most) in [(Language::English, WORDS_ENGLISH), (Language::Pseudo, WORDS_LONGER)] {
        match render(view, language) {
            Ok(said) => faults.extend(rendered(&said, most)),
            Err(fault) => faults.push(fault.to_string()),
        }
    }
    faults
}

fn rendered(view: &View<String>, most: usize) -> Vec<String> {
    let bytes = serde_json::to_vec(view).map_or(usize::MAX, |json| json.len());
    let count = words(&to_read(view));
    let is_plain = |text: &&String| text.is_ascii() || !text.contains('\u{FFFD}');
    let mut faults = Vec::new();
    faults.extend((bytes > BYTES_MOST).then(|| format!("{bytes} bytes")));
    faults.extend((view.safety.is_some() && count > most).then(|| format!("{count} words, {most} at most")));
    faults.extend(empty(view));
    faults.extend(all(view).iter().filter(|text| !is_plain(text)).map(|text| format!("broken text {text}")));
    faults
}

/// A label that says nothing.
fn empty(view: &View<String>) -> Vec<String> {
    let acts = acts(view);
    let labels = acts.iter().filter(|act| act.label.trim().is_empty()).map(|act| act.key.to_string());
    let head = view.head.title.trim().is_empty().then(|| "head".to_owned());
    let spoken = view.spoken.trim().is_empty().then(|| "spoken".to_owned());
    let read = to_read(view).iter().any(|text| text.trim().is_empty()).then(|| "a line".to_owned());
    labels.chain(head).chain(spoken).chain(read).map(|place| format!("nothing said: {place}")).collect()
}

fn keys(view: &View<Say>) -> Vec<String> {
    let mut seen = BTreeSet::new();
    let twice = acts(view).into_iter().filter(|act| !seen.insert(act.key.clone()));
    twice.map(|act| format!("two acts are called {}", act.key)).collect()
}

/// Every button of the view.
pub fn acts<T>(view: &View<T>) -> Vec<&Act<T>> {
    let safety = view.safety.iter().flat_map(|safety| safety.acts());
    let knobs = view.practice.iter().flat_map(|practice| in_practice(practice));
    view.answers.iter().chain(&view.aside).chain(safety).chain(in_shape(&view.shape)).chain(knobs).collect()
}

/// The patient's pause, each dial's hand and keys.
fn in_practice<T>(practice: &Practice<T>) -> Vec<&Act<T>> {
    let pause = practice.monitor.iter().filter_map(|monitor| monitor.pause.as_ref());
    let keys = practice.knobs.iter().filter_map(|knob| knob.keys.as_ref());
    let keys = keys.flat_map(|keys| [&keys.down, &keys.up, &keys.far_down, &keys.far_up]).flatten();
    pause.chain(practice.knobs.iter().map(|knob| &knob.take)).chain(keys).collect()
}

fn in_shape<T>(shape: &Shape<T>) -> Vec<&Act<T>> {
    match shape {
        Shape::Form(form) => form.fields.iter().flat_map(|f| f.choices.iter().filter_map(chosen)).collect(),
        Shape::Beds(beds) => beds.rows.iter().map(|row| &row.open).collect(),
        Shape::Turn(_)
        | Shape::Ask(_)
        | Shape::List(_)
        | Shape::Result(_)
        | Shape::Code(_)
        | Shape::Chart(_) => Vec::new(),
    }
}

fn chosen<T>(choice: &Choice<T>) -> Option<&Act<T>> {
    choice.act.as_ref()
}

/// NO BEATS never lowers OUTPUT, and no card of the search does while a loss is open: what does not capture
/// does not capture lower.
pub fn lowered(met: &Met<'_>) -> Option<String> {
    let facts = met.facts;
    let lost = facts.loss_open && facts.step.stage() == Some(Stage::Capture);
    let asks = facts.step == Step::NoBeats || lost;
    let down = asks && facts.asks(Dial::Output) && facts.to < facts.stand.output;
    down.then(|| format!("OUTPUT down from {} to {}", facts.stand.output, facts.to))
}

/// A button whose answer the card does not take. Stop waits for a reading with a sentence of its own.
pub fn idle(met: &Met<'_>) -> Vec<String> {
    use domain::check::answer::Answer as A;
    let answers = acts(met.view).into_iter().filter_map(|act| match act.command {
        Command::Answer(one) | Command::Named(one) => Some(one),
        _ => None,
    });
    let taken = |one: &A| *one == A::Stop || domain::check::offer::is_open(met.setup, met.facts, *one);
    answers.filter(|one| !taken(one)).map(|one| format!("a button for {one:?}, which is not taken")).collect()
}

/// What the card takes and no button says.
pub fn missing(met: &Met<'_>) -> Vec<String> {
    use domain::check::answer::Answer as A;
    let shown: Vec<_> = acts(met.view).into_iter().map(|act| &act.command).collect();
    let has = |answer: A| {
        shown.iter().any(|command| match command {
            Command::Answer(one) | Command::Named(one) => *one == answer,
            _ => false,
        })
    };
    let offered = offer(met.setup, met.facts);
    let good = offered.good.filter(|good| domain::check::offer::is_open(met.setup, met.facts, *good));
    // A block closes by its own button, which does the same as Stop.
    let closes = |answer: &A| *answer == A::Stop && met.facts.step == Step::Blocked;
    let always = [A::NoBeats, A::Stop, A::Wrong, A::Slip]
        .into_iter()
        .filter(|answer| is_always_open(met.setup, met.facts, *answer) && !closes(answer));
    let stands = domain::check::offer::is_open(met.setup, met.facts, A::Stands).then_some(A::Stands);
    offered
        .free
        .iter()
        .copied()
        .chain(good)
        .chain(always)
        .chain(stands)
        .filter(|answer| !has(*answer))
        .map(|answer| format!("no button for {answer:?}"))
        .collect()
}
