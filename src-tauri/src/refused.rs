//! The card shown when the record could not be opened: one sentence, nothing to press.

use std::path::Path;

use domain::contract::{Ask, Hand, Head, Light, Look, Shape, View};
use domain::say::Say;
use session::OpenFault;
use words::Language;

/// `None` when even the words are missing; the page then keeps "Not running. Look at the patient."
pub fn view(fault: &OpenFault, folder: &Path) -> Option<View<String>> {
    let card = card(&fault.say(folder));
    match words::render(&card, Language::English) {
        Ok(view) => {
            eprintln!("Holdfast: {}", view.spoken);
            Some(view)
        }
        Err(missing) => {
            eprintln!("Holdfast: {fault}; {missing}");
            None
        }
    }
}

fn card(why: &Say) -> View<Say> {
    View {
        card: 0,
        now_ms: 0,
        look: Look { light: Light::Day, text_percent: 100, hand: Hand::Right, still: true },
        head: Head { title: domain::say::figure("Holdfast"), subtitle: None, clock: None, wall: None },
        rail: None,
        marks: Vec::new(),
        shape: Shape::Ask(question(why)),
        answers: Vec::new(),
        aside: Vec::new(),
        safety: None,
        notice: None,
        spoken: why.clone(),
        practice: None,
        progress: None,
    }
}

fn question(why: &Say) -> Ask<Say> {
    Ask {
        question: why.clone(),
        lines: Vec::new(),
        reason: None,
        watch: None,
        scale: None,
        others: Vec::new(),
    }
}
