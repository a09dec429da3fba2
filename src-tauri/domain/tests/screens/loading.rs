//! A code on its way in: typed, seen, from a picture; refused, left, taken.

use domain::command::Command;
use domain::contract::Sent;
use domain::event::What;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::{State, decide};

use crate::made::{at, fine, state_with};

fn asking() -> State {
    State { screen: Screen::Load { bed: None }, ..state_with(fine()) }
}

/// On the card that stands, once it has stood long enough; an error is what is said of it, if anything.
fn told(state: &State, command: Command, typed: &str) -> Result<Vec<What>, Option<Say>> {
    let values = [("code".to_owned(), typed.to_owned())].into_iter().collect();
    let sent = Sent { card: state.card, command, values, stood_ms: None };
    decide(&State { card_at: None, ..state.clone() }, &sent, at(1))
        .map(|events| events.into_iter().map(|event| event.what).collect())
        .map_err(|refusal| refusal.say())
}

#[test]
fn what_a_camera_or_a_file_dialog_gives_late_opens_nothing_on_another_card() {
    let state = State { screen: Screen::Beds, ..asking() };
    for command in [Command::CodeSeen("HOLDFAST 1 en: ".to_owned()), Command::PictureHandedIn { bytes: 9 }] {
        assert_eq!(told(&state, command, ""), Err(None));
    }
}
