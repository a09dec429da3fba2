//! A check by keyboard, with the same session and record as the app.

mod keys;
mod logs;

use std::collections::BTreeMap;
use std::io::BufRead;
use std::path::Path;
use std::sync::mpsc::{Receiver, Sender, channel};

use domain::contract::{Act, FieldKind, Sent, Shape, View};
use domain::say::Say;
use session::{NotTaken, Options, Session};

use crate::print;
use crate::spoken::spoken;
use crate::verify::said;
use keys::{Key, key, menu};

enum Heard {
    View(Box<View<String>>),
    Line(String),
    /// The keyboard is closed.
    Over,
}

/// Runs until `q`, or until the keyboard ends.
///
/// # Errors
/// The sentence that says why it could not start, or go on.
pub fn bedside(folder: &Path) -> Result<(), String> {
    let options = Options::new().map_err(|fault| said(&fault, folder))?;
    let session = Session::open(folder, options).map_err(|fault| said(&fault, folder))?;
    // Before the session, so that it goes after it: a session writes to its log until it has closed.
    let _logs = logs::aside(folder);
    let (sender, heard) = channel();
    let views = sender.clone();
    session
        .watch(move |view| views.send(Heard::View(Box::new(view))).is_ok())
        .map_err(|_| spoken(&Say::SessionEnded))?;
    listen(sender);
    let mut bedside = Bedside { session, heard, view: None, field: None };
    bedside.run()
}

/// Lines from the keyboard, until it is closed.
fn listen(sender: Sender<Heard>) {
    std::thread::spawn(move || {
        for line in std::io::stdin().lock().lines() {
            let Ok(line) = line else { break };
            if sender.send(Heard::Line(line)).is_err() {
                return;
            }
        }
        // Nobody listens where the person has left already.
        let _ = sender.send(Heard::Over);
    });
}

/// A form half filled: the act it will send, and the fields still to come.
struct Filling {
    act: Act<String>,
    values: BTreeMap<String, String>,
    asked: usize,
}

struct Bedside {
    session: Session,
    heard: Receiver<Heard>,
    view: Option<View<String>>,
    field: Option<Filling>,
}

impl Bedside {
    fn run(&mut self) -> Result<(), String> {
        loop {
            match self.heard.recv().unwrap_or(Heard::Over) {
                Heard::View(view) => self.show(*view),
                Heard::Line(line) if line.trim() == "q" && self.field.is_none() => return Ok(()),
                Heard::Line(line) => self.typed(line.trim())?,
                Heard::Over => return Ok(()),
            }
        }
    }

    /// A view that only moves a clock is not printed again.
    fn show(&mut self, view: View<String>) {
        let before = self.view.as_ref();
        let card_changed = before.is_none_or(|before| before.card != view.card);
        let changed = before
            .is_none_or(|before| print::body(before) != print::body(&view) || menu(before) != menu(&view));
        if card_changed {
            self.field = None;
        }
        if changed {
            println!("\n{}{}", print::body(&view), menu(&view));
            self.session.painted(view.card);
        }
        self.view = Some(view);
    }

    fn typed(&mut self, line: &str) -> Result<(), String> {
        if let Some(filling) = self.field.take() {
            return self.filled(filling, line);
        }
        let Some(view) = &self.view else { return Ok(()) };
        match key(view, line) {
            Key::Act(act) if act.with_fields => {
                let act = act.clone();
                self.ask(Filling { act, values: BTreeMap::new(), asked: 0 })
            }
            Key::Act(act) => {
                let sent = Sent {
                    card: view.card,
                    command: act.command.clone(),
                    values: BTreeMap::new(),
                    stood_ms: None,
                };
                self.send(sent)
            }
            Key::Unknown => {
                let typed = line.to_owned();
                println!("{}\n{}", spoken(&Say::NoSuchKey { typed }), menu(view));
                Ok(())
            }
        }
    }

    fn filled(&mut self, mut filling: Filling, line: &str) -> Result<(), String> {
        if let Some(field) = self.fields().get(filling.asked) {
            let value = keys::choice(field, line);
            filling.values.insert(field.id.clone(), value);
        }
        filling.asked += 1;
        self.ask(filling)
    }

    /// Asks for the next field; after the last one the form is sent.
    fn ask(&mut self, filling: Filling) -> Result<(), String> {
        if let Some(field) = self.fields().get(filling.asked) {
            println!("{}", keys::prompt(field));
            self.field = Some(filling);
            return Ok(());
        }
        let card = self.view.as_ref().map_or(0, |view| view.card);
        self.send(Sent { card, command: filling.act.command, values: filling.values, stood_ms: None })
    }

    fn fields(&self) -> Vec<domain::contract::Field<String>> {
        match self.view.as_ref().map(|view| &view.shape) {
            Some(Shape::Form(form)) => form.fields.iter().filter(|f| can_be_typed(f.kind)).cloned().collect(),
            _ => Vec::new(),
        }
    }

    fn send(&self, sent: Sent) -> Result<(), String> {
        match self.session.send(sent) {
            Ok(()) => Ok(()),
            Err(NotTaken::Busy) => {
                println!("{}", spoken(&Say::NotTaken));
                Ok(())
            }
            Err(NotTaken::Ended | NotTaken::NotAskedFor) => Err(spoken(&Say::SessionEnded)),
        }
    }
}

/// A terminal has no picture and no camera.
fn can_be_typed(kind: FieldKind) -> bool {
    match kind {
        FieldKind::Digits
        | FieldKind::Text
        | FieldKind::Secret
        | FieldKind::Lines
        | FieldKind::Pick
        | FieldKind::Choice => true,
        FieldKind::File | FieldKind::Camera => false,
    }
}
