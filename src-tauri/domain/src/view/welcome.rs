//! The first page: what Holdfast is, what it is not, and that its rules are examples.

use super::pieces::{head, plain};
use super::{Screenful, act};
use crate::command::Command;
use crate::contract::{Item, List, Shape, Tone};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;

pub fn welcome(state: &State, now: Moment) -> Screenful {
    let mut lines = vec![Say::WelcomeIs, Say::WelcomeNoTalk, Say::WelcomeIsNot];
    if state.rules.example {
        lines.push(Say::WelcomeExample);
    }
    let list =
        List { instruction: Say::WelcomeTitle, items: lines.into_iter().map(line).collect(), note: None };
    let answers = vec![act("welcomed", Say::WelcomeDone, Tone::Good, Command::Welcomed)];
    let screen = plain(head(Say::PacingChecks, now), Shape::List(list), Say::WelcomeTitle);
    Screenful { answers, ..screen }
}

fn line(text: Say) -> Item<Say> {
    Item { number: None, text, figure: None, unit: None, large: false }
}
