//! What was on the screen and what was done about it.

use std::collections::BTreeMap;
use std::rc::Rc;

use domain::command::Language;
use domain::contract::{Strip, View};
use domain::say::Say;
use observer::{Card, Dial, Reading};

use super::fault::RehearsalFault;

/// One card as it was left.
#[derive(Clone, Debug)]
pub struct CardSeen {
    pub view: View<String>,
    pub stage: &'static str,
    pub asks: &'static str,
    /// Since the check was opened.
    pub at_ms: i64,
    /// As "OUTPUT 4.8".
    pub turned: Vec<String>,
    /// What was typed with the answer.
    pub typed: BTreeMap<String, String>,
    /// The button; `None` where time or sleep changed the card.
    pub answered: Option<String>,
    pub refused: Option<String>,
}

#[derive(Debug, Default)]
struct Open {
    view: Option<Rc<View<Say>>>,
    at_ms: i64,
    turned: Vec<String>,
    typed: BTreeMap<String, String>,
    answered: Option<String>,
    refused: Option<Say>,
}

#[derive(Debug, Default)]
pub struct Log {
    open: Open,
    reading: Option<Reading>,
    pub turns: Vec<String>,
    /// The last restore strip: where the dials are meant to stand.
    pub strip: Option<Strip<Say>>,
    /// What was typed on the last card that reads the dials back.
    pub read_back: Option<BTreeMap<String, String>>,
    /// The lines of the first restore card, as "OUTPUT 6.0".
    pub restore: Option<Vec<String>>,
    pub refused: Vec<(u32, Say)>,
    pub stopped: bool,
    pub blocked: Option<Say>,
}

impl Log {
    /// The card in front; one that has changed is handed over first.
    pub fn see(
        &mut self,
        view: &Rc<View<Say>>,
        at_ms: i64,
        each: &mut dyn FnMut(&CardSeen),
    ) -> Result<(), RehearsalFault> {
        let changed = self.open.view.as_ref().is_none_or(|open| open.card != view.card);
        if changed {
            self.flush(each)?;
            self.open.at_ms = at_ms;
            self.note(view);
        }
        self.open.view = Some(Rc::clone(view));
        Ok(())
    }

    pub fn flush(&mut self, each: &mut dyn FnMut(&CardSeen)) -> Result<(), RehearsalFault> {
        let open = std::mem::take(&mut self.open);
        let Some(view) = open.view else { return Ok(()) };
        let card = Card::read(&view);
        let refused = open.refused.map(|said| words::say(&said, Language::English)).transpose()?;
        each(&CardSeen {
            stage: card.stage(),
            asks: card.asks().name(),
            view: words::render(&view, Language::English)?,
            at_ms: open.at_ms,
            turned: open.turned,
            typed: open.typed,
            answered: open.answered,
            refused,
        });
        Ok(())
    }

    fn note(&mut self, view: &View<Say>) {
        if let Some(strip) = view.safety.as_ref().and_then(|safety| safety.strip.clone()) {
            self.strip = Some(strip);
        }
        let card = Card::read(view);
        if *card.asks() == Say::RestoreTitle && self.restore.is_none() {
            self.restore = Some(lines(view));
        }
        if *card.asks() == Say::Blocked {
            self.blocked = first_line(view);
        }
    }

    pub fn note_turns(&mut self, reading: &Reading) {
        let before = self.reading.replace(reading.clone());
        let Some(before) = before.filter(|before| before != reading) else { return };
        for dial in Dial::ALL {
            let (was, is) = (printed(&before, dial), printed(reading, dial));
            if was != is {
                let turn = format!("{} {is}", dial.name());
                self.turns.push(turn.clone());
                self.open.turned.push(turn);
            }
        }
    }

    pub fn answered(&mut self, key: &str, values: &BTreeMap<String, String>) {
        self.stopped |= key == "stop" || key == "leave";
        self.open.answered = Some(key.to_owned());
        self.open.typed.clone_from(values);
        let reads =
            self.open.view.as_ref().is_some_and(|view| {
                matches!(Card::read(view).asks(), Say::ReadBackTitle | Say::ReadAfterTitle)
            });
        if reads && values.contains_key("output") {
            self.read_back = Some(values.clone());
        }
    }

    pub fn refused(&mut self, card: u32, said: Say) {
        self.open.refused = Some(said.clone());
        self.refused.push((card, said));
    }

    pub fn refusals(&self) -> usize {
        self.refused.len()
    }
}

pub fn printed(reading: &Reading, dial: Dial) -> &str {
    match dial {
        Dial::Output => &reading.output,
        Dial::Rate => &reading.rate,
        Dial::Mv => reading.mv.as_deref().unwrap_or("asynchronous"),
    }
}

fn lines(view: &View<Say>) -> Vec<String> {
    let domain::contract::Shape::List(list) = &view.shape else { return Vec::new() };
    let line = |item: &domain::contract::Item<Say>| {
        let figure = if let Say::Figure { text } = item.figure.as_ref()? { text } else { "asynchronous" };
        Some(format!("{} {figure}", Dial::named(&item.text)?.name()))
    };
    list.items.iter().filter_map(line).collect()
}

fn first_line(view: &View<Say>) -> Option<Say> {
    let domain::contract::Shape::Ask(ask) = &view.shape else { return None };
    ask.lines.first().cloned()
}
