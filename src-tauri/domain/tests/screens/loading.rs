//! A code on its way in: typed, seen, from a picture; refused, left, taken.

use domain::command::Command;
use domain::contract::Sent;
use domain::event::What;
use domain::handover::arrived::Source;
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

/// The worker tells it as the keyboard's, on a card with an empty field. Nothing of anything else is kept.
#[test]
fn letters_of_another_script_are_read_like_a_code_and_other_texts_are_none() {
    let typed = |text: &str| told(&asking(), Command::LoadTyped { bed: None }, text);
    let seen = |text: &str| told(&asking(), Command::CodeSeen(text.to_owned()), "");
    let begun = |source| What::LoadBegun { load: 0, bed: None, source };
    for text in [
        "HOLDFAST 1 en: cut",
        "РЩДВАФЫЕ 1 утЖ",
        "рщдвафые 1",
        "РАС1Ж7Н",
        "ΗΟΛΔΦΑΣΤ 1 εν",
        "ηολδφαστ",
        "ΗΦΨ2Q",
    ] {
        assert_eq!(typed(text).unwrap()[0], begun(Source::Typed(text.to_owned())));
        assert_eq!(seen(text).unwrap()[0], begun(Source::Seen(text.to_owned())));
    }
    for text in ["хлеб и молоко", "ψωμί και γάλα", "Расписание", "bread and milk"]
    {
        assert_eq!(typed(text), Err(Some(Say::NotLoadedNotACode)), "{text}");
    }
}

#[test]
fn what_a_camera_or_a_file_dialog_gives_late_opens_nothing_on_another_card() {
    let state = State { screen: Screen::Beds, ..asking() };
    for command in [Command::CodeSeen("HOLDFAST 1 en: ".to_owned()), Command::PictureHandedIn { bytes: 9 }] {
        assert_eq!(told(&state, command, ""), Err(None));
    }
}
