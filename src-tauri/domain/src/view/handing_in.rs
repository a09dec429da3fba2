//! Cards that take a file, and the card on which a person lets it into force by name.

use super::pieces::{field, go, head, isolated, plain};
use super::{Screenful, act_with_fields, rules};
use crate::command::Command;
use crate::contract::{FieldKind, Form, Shape, Tone};
use crate::decide::NAME_MOST;
use crate::library::{Offered, Paper};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;

pub fn new_rules(now: Moment) -> Screenful {
    let lines = vec![Say::HandInRulesLine, Say::HandInExample];
    asking(Say::HandInRules, lines, (Paper::Rules, Say::RulesFileField), Screen::Rules, now)
}

pub fn new_generator(now: Moment) -> Screenful {
    let file = (Paper::Generator, Say::GeneratorFileField);
    asking(Say::HandInGenerator, vec![Say::HandInGeneratorLine], file, Screen::Generators, now)
}

fn asking(
    question: Say,
    lines: Vec<Say>,
    (paper, label): (Paper, Say),
    back: Screen,
    now: Moment,
) -> Screenful {
    let fields = vec![field(paper.kind(), label, FieldKind::File, 0)];
    let form = Form { question: question.clone(), lines, fields };
    Screenful {
        answers: vec![go("back", Say::Back, Tone::Strong, back)],
        ..plain(head(Say::Settings, now), Shape::Form(form), question)
    }
}

/// Nothing is in force until somebody's name and role stand here.
pub fn approve(state: &State, now: Moment) -> Screenful {
    let (name, back) = match &state.offered {
        Some(Offered::Rules { rules, .. }) => (&rules.id, Screen::OfferedRules),
        Some(Offered::Generator { profile, .. }) => (&profile.name, Screen::OfferedGenerator),
        None => return rules::rules(state, now),
    };
    let question = Say::ApproveTitle { name: isolated(name) };
    let fields = vec![
        field("name", Say::ApproverField, FieldKind::Text, NAME_MOST),
        field("role", Say::RoleField, FieldKind::Text, NAME_MOST),
    ];
    let form = Form { question: question.clone(), lines: vec![Say::ApproveLine], fields };
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, back),
            act_with_fields("approve", Say::ApproveDone, Tone::Good, Command::ApproveOffered),
        ],
        ..plain(head(Say::Settings, now), Shape::Form(form), question)
    }
}
