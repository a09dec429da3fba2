//! From a view in sayings to a view in words, to whoever watches.

use std::sync::Arc;

use domain::contract::{Shape, View};
use domain::say::Say;
use words::Language;

use crate::attention::Attention;
use crate::input::Sink;

/// Above this the channel to the page takes a slower way.
const VIEW_BYTES: usize = 8_000;

pub(crate) struct Screen {
    pub(crate) sink: Option<Sink>,
    pub(crate) attention: Arc<Attention>,
}

impl Screen {
    pub(crate) fn push(&mut self, view: &View<Say>, language: Language) {
        match words::render(view, language) {
            Ok(rendered) => self.send(rendered),
            // The catalogue's tests keep this from happening; the card before stays, with its restore.
            Err(fault) => eprintln!("Holdfast: card {} has no words: {fault}", view.card),
        }
    }

    fn send(&mut self, view: View<String>) {
        let Some(sink) = &mut self.sink else { return };
        let card = view.card;
        log_if_long(&view);
        self.attention.pushed(card);
        if !sink(view) {
            self.sink = None;
            self.attention.reset();
        }
    }
}

fn log_if_long(view: &View<String>) {
    match serde_json::to_vec(view) {
        Ok(json) if json.len() <= VIEW_BYTES => {}
        Ok(json) => eprintln!("Holdfast: card {} is {} bytes; {VIEW_BYTES} at most", view.card, json.len()),
        Err(error) => eprintln!("Holdfast: card {} cannot be sent: {error}", view.card),
    }
}

/// Nobody at a bedside is offered the longer words for tests; who has them already can choose English.
pub(crate) fn without_test_language(view: &mut View<Say>) {
    if let Shape::Form(form) = &mut view.shape {
        form.fields.retain(|field| field.id != domain::LANGUAGE_FIELD);
    }
}
