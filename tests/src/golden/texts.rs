//! A view as its sentences: their names, for telling cards apart; their words, for counting.

use std::convert::Infallible;

use domain::contract::{Shape, View};
use domain::say::{Arg, Say};

/// The names of all sentences of a view, nested ones too, in drawing order; and the length of what is
/// put into them: figures, units, names.
pub fn names(view: &View<Say>) -> (Vec<&'static str>, usize) {
    let (mut names, mut length) = (Vec::new(), 0);
    let said: Result<View<()>, Infallible> = view.try_map(&mut |say| {
        name(say, &mut names, &mut length);
        Ok(())
    });
    match said {
        Ok(_) => (names, length),
    }
}

fn name(say: &Say, names: &mut Vec<&'static str>, length: &mut usize) {
    let (own, args) = say.parts();
    names.push(own);
    for (_, arg) in args {
        match arg {
            Arg::Said(inner) => name(&inner, names, length),
            Arg::Text(text) => *length += text.chars().count(),
            Arg::Count(count) => *length += count.to_string().len(),
        }
    }
}

/// Every text of a view, in drawing order.
pub fn all(view: &View<String>) -> Vec<String> {
    let mut texts = Vec::new();
    let said: Result<View<()>, Infallible> = view.try_map(&mut |text| {
        texts.push(text.clone());
        Ok(())
    });
    match said {
        Ok(_) => texts,
    }
}

/// What a person must read on a card: instruction, lines, question, reason, watch; no head, mark, strip or scale.
pub fn to_read(view: &View<String>) -> Vec<&str> {
    let mut texts: Vec<Option<&str>> = Vec::new();
    match &view.shape {
        Shape::Turn(turn) => {
            texts.extend([Some(turn.instruction.as_str()), Some(&turn.question)]);
            texts.extend([turn.reason.as_deref(), turn.watch.as_ref().map(|watch| watch.label.as_str())]);
        }
        Shape::Ask(ask) => {
            texts.push(Some(&ask.question));
            texts.extend(ask.lines.iter().map(|line| Some(line.as_str())));
            texts.extend([ask.reason.as_deref(), ask.watch.as_ref().map(|watch| watch.label.as_str())]);
        }
        Shape::List(list) => {
            texts.push(Some(&list.instruction));
            texts.extend(list.items.iter().map(|item| Some(item.text.as_str())));
            texts.push(list.note.as_deref());
        }
        Shape::Form(form) => {
            texts.push(Some(&form.question));
            texts.extend(form.lines.iter().map(|line| Some(line.as_str())));
        }
        Shape::Result(_) | Shape::Code(_) | Shape::Chart(_) | Shape::Beds(_) => {}
    }
    texts.into_iter().flatten().collect()
}

pub fn words(texts: &[&str]) -> usize {
    let is_word = |word: &&str| word.chars().any(char::is_alphabetic);
    texts.iter().flat_map(|text| text.split_whitespace()).filter(is_word).count()
}
