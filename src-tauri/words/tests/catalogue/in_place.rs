//! The words read where they stand: on the cards themselves.

use std::collections::BTreeSet;
use std::convert::Infallible;

use domain::contract::{Shape, View, Watch};
use domain::say::{Arg, SENTENCES, Say};
use domain::state::screen::Screen;
use words::Language;

use crate::handed_in::every_answer_to_a_file;
use crate::handed_over::every_card_of_a_handover;
use crate::said::kebab;
use crate::staged::every_card;
use crate::staged_swap::{every_swap_card, every_transport_card};
use crate::taught::every_card_of_sign_off;
use crate::tree::english;
use crate::wander::Walk;

const WALKS: u64 = 6;
const TAPS: usize = 250;
/// Instruction, question, reason, watch of a card that touches a dial, in English.
const WORDS_MOST: usize = 32;
/// Larger views take a slower way to the page.
const BYTES_MOST: usize = 8_000;

/// What a terminal says beside the cards stands on none; practice needs a patient that no walk of these has.
const BESIDE: [&str; 3] = ["terminal.ftl", "practice.ftl", "practising.ftl"];

/// What has been read so far: cards by their shape, sentences by name.
#[derive(Default)]
struct Read {
    shapes: BTreeSet<String>,
    met: BTreeSet<&'static str>,
}

impl Read {
    fn card(&mut self, view: &View<Say>) {
        if self.shapes.insert(format!("{:?} {:?}", view.shape, view.notice)) {
            read(view);
        }
        note(view, &mut self.met);
    }
}

#[test]
fn every_card_can_be_said_and_a_dial_card_is_read_in_one_look() {
    let mut cards = Read::default();
    every_card(&mut |view| cards.card(view));
    every_answer_to_a_file(&mut |view| cards.card(view));
    every_card_of_sign_off(&mut |view| cards.card(view));
    every_card_of_a_handover(&mut |view| cards.card(view));
    every_swap_card(&mut |view| cards.card(view));
    every_transport_card(&mut |view| cards.card(view));
    for walk in (0..WALKS).flat_map(|seed| [Walk::new(seed), Walk::steady(seed)]) {
        let mut walk = walk;
        for _ in 0..TAPS {
            cards.card(&walk.view());
            walk.go_on();
        }
        for screen in [Screen::Rules, Screen::Settings, Screen::Welcome, Screen::Beds] {
            walk.go(screen);
            cards.card(&walk.view());
        }
    }
    let beside: BTreeSet<String> = english()
        .into_iter()
        .filter(|message| BESIDE.contains(&message.room.as_str()))
        .map(|message| message.name)
        .collect();
    let unmet: Vec<_> = SENTENCES
        .iter()
        .map(|(name, _)| *name)
        .filter(|name| !cards.met.contains(name) && !beside.contains(&kebab(name)))
        .collect();
    println!("{} cards read; sentences met on none: {unmet:?}", cards.shapes.len());
    assert!(cards.shapes.len() > 1_000, "only {} different cards met", cards.shapes.len());
    assert!(unmet.len() * 5 < SENTENCES.len(), "{} sentences met on no card", unmet.len());
}

fn read(view: &View<Say>) {
    let say = |language| words::render(view, language).unwrap_or_else(|fault| panic!("{fault}"));
    let (english, pseudo) = (say(Language::English), say(Language::Pseudo));
    check(&english);
    assert!(bytes(&pseudo) <= BYTES_MOST, "{} bytes: {pseudo:#?}", bytes(&pseudo));
    if std::env::var_os("SHOW_CARDS").is_some() {
        show(&english);
    }
}

/// Which sentences the card holds.
fn note(view: &View<Say>, met: &mut BTreeSet<&'static str>) {
    let noted = view.try_map(&mut |sentence| {
        inside(sentence, met);
        Ok::<(), Infallible>(())
    });
    assert!(noted.is_ok());
}

fn inside(sentence: &Say, met: &mut BTreeSet<&'static str>) {
    let (name, args) = sentence.parts();
    met.insert(name);
    for (_, arg) in args {
        if let Arg::Said(said) = arg {
            inside(&said, met);
        }
    }
}

fn check(view: &View<String>) {
    for text in body(view) {
        assert!(!text.contains("  ") && !text.contains(" ."), "a gap: {text:?}");
        assert!(!text.contains(['{', '$']), "not filled: {text:?}");
    }
    let count = body(view)
        .iter()
        .flat_map(|text| text.split_whitespace())
        .filter(|word| word.contains(char::is_alphabetic))
        .count();
    let is_read_at_a_dial = view.safety.is_some() && !matches!(view.shape, Shape::List(_));
    assert!(!is_read_at_a_dial || count <= WORDS_MOST, "{count} words: {:#?}", body(view));
}

/// What a person reads to act: not the head, the marks, the figure, the restore strip, the scale.
fn body(view: &View<String>) -> Vec<String> {
    let watch = |watch: &Option<Watch<String>>| watch.as_ref().map(|watch| watch.label.clone());
    let mut texts = match &view.shape {
        Shape::Turn(turn) => [
            vec![turn.instruction.clone(), turn.question.clone()],
            turn.reason.iter().cloned().chain(watch(&turn.watch)).collect(),
        ]
        .concat(),
        Shape::Ask(ask) => [
            vec![ask.question.clone()],
            ask.lines.clone(),
            ask.reason.iter().cloned().chain(watch(&ask.watch)).collect(),
        ]
        .concat(),
        Shape::List(list) => [
            vec![list.instruction.clone()],
            list.items.iter().map(|item| item.text.clone()).collect(),
            list.note.iter().cloned().collect(),
        ]
        .concat(),
        Shape::Form(form) => [vec![form.question.clone()], form.lines.clone()].concat(),
        Shape::Result(result) => [vec![result.headline.clone()], result.flags.clone()].concat(),
        Shape::Code(code) => vec![code.note.clone()],
        Shape::Chart(chart) => vec![chart.headline.clone()],
        Shape::Beds(beds) => beds.rows.iter().flat_map(|row| row.lines.clone()).collect(),
    };
    texts.retain(|text| !text.is_empty());
    texts
}

fn bytes(view: &View<String>) -> usize {
    serde_json::to_string(view).unwrap().len()
}

/// SHOW_CARDS=1 … -- --nocapture: for a person to read.
fn show(view: &View<String>) {
    println!("== {} / {}", view.head.title, view.head.subtitle.as_deref().unwrap_or_default());
    println!("   {}", body(view).join("\n   "));
    if let Shape::Turn(turn) = &view.shape {
        let beside = [&turn.from, &turn.hint].map(|text| text.as_deref().unwrap_or_default());
        let others: Vec<_> =
            turn.others.iter().map(|other| format!("{} {}", other.label, other.value)).collect();
        println!("   {} {} ({}; {}) {}", turn.figure, turn.unit, beside[0], beside[1], others.join(" · "));
    }
    if let Shape::Result(result) = &view.shape {
        for row in &result.rows {
            println!("   {}: {} ({})", row.label, row.value, row.note.as_deref().unwrap_or_default());
        }
    }
    let labels: Vec<_> =
        view.answers.iter().chain(&view.aside).map(|act| format!("[{}]", act.label)).collect();
    println!("   {}", labels.join(" "));
    if let Some(strip) = view.safety.as_ref().and_then(|safety| safety.strip.as_ref()) {
        let dials: Vec<_> = strip.dials.iter().map(|dial| format!("{} {}", dial.label, dial.value)).collect();
        println!("   {} {} {}", strip.label, dials.join(" "), strip.note.as_deref().unwrap_or_default());
    }
    if let Some(notice) = &view.notice {
        println!("   ! {notice}");
    }
}
