//! How the screen looks and speaks; which rules are in force.

use super::pieces::{field, go, head, plain};
use super::{Screenful, act};
use crate::command::{Command, Language};
use crate::contract::{Act, Choice, Field, FieldKind, Form, Hand, Light, Shape, Tone};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::teaching::place::Place;

pub fn settings(state: &State, now: Moment) -> Screenful {
    let form = Form { question: Say::SettingsTitle, lines: Vec::new(), fields: fields(state) };
    Screenful {
        answers: vec![go("back", Say::Back, Tone::Strong, Screen::Beds)],
        aside: vec![
            go("rules", Say::RulesInForce, Tone::Plain, Screen::Rules),
            go("generators", Say::Generators, Tone::Plain, Screen::Generators),
            go("teaching", Say::SignOff, Tone::Plain, Screen::Teaching(Place::Roster { from: 0 })),
            go("tablets", Say::Tablets, Tone::Plain, Screen::Tablets),
            go("keeping", Say::KeepingName, Tone::Plain, Screen::Erase),
            go("welcome", Say::WelcomeTitle, Tone::Plain, Screen::Welcome),
        ],
        ..plain(head(Say::Settings, now), Shape::Form(form), Say::SettingsTitle)
    }
}

/// The choice of language. There is one so far, and a longer one for tests.
pub const LANGUAGE_FIELD: &str = "language";

type Offered = (&'static str, Say, Command, bool);

fn fields(state: &State) -> Vec<Field<Say>> {
    let look = state.look;
    let light = |light| (Command::SetLight(light), look.light == light);
    let hand = |hand| (Command::SetHand(hand), look.hand == hand);
    let still = |still| (Command::SetStill(still), look.still == still);
    let speaks = |language| (Command::SetLanguage(language), state.language == language);
    vec![
        choice(
            "light",
            Say::LightField,
            vec![
                offered("night", Say::LightNight, light(Light::Night)),
                offered("day", Say::LightDay, light(Light::Day)),
            ],
        ),
        choice("text", Say::TextField, [100, 150, 200].map(|percent| text_size(state, percent)).to_vec()),
        choice(
            "hand",
            Say::HandField,
            vec![
                offered("left", Say::HandLeft, hand(Hand::Left)),
                offered("right", Say::HandRight, hand(Hand::Right)),
            ],
        ),
        choice(
            "movement",
            Say::MovementField,
            vec![
                offered("moves", Say::MovementOn, still(false)),
                offered("still", Say::MovementStill, still(true)),
            ],
        ),
        choice(
            LANGUAGE_FIELD,
            Say::LanguageField,
            vec![
                offered("english", Say::LanguageEnglish, speaks(Language::English)),
                offered("pseudo", Say::LanguagePseudo, speaks(Language::Pseudo)),
            ],
        ),
    ]
}

fn offered(value: &'static str, label: Say, (command, chosen): (Command, bool)) -> Offered {
    (value, label, command, chosen)
}

fn text_size(state: &State, percent: u16) -> Offered {
    let value = match percent {
        150 => "150",
        200 => "200",
        _ => "100",
    };
    let label = Say::TextPercent { percent: value.to_owned() };
    offered(value, label, (Command::SetText(percent), state.look.text_percent == percent))
}

fn choice(id: &str, label: Say, offered: Vec<Offered>) -> Field<Say> {
    let choices = offered.into_iter().map(|one| one_choice(id, one)).collect();
    Field { choices, ..field(id, label, FieldKind::Choice, 0) }
}

fn one_choice(id: &str, (value, label, command, chosen): Offered) -> Choice<Say> {
    let act: Act<Say> = act(format!("{id}-{value}"), label.clone(), Tone::Plain, command);
    Choice { value: value.to_owned(), label, chosen, act: Some(act) }
}
