//! A code on its way in: typed, seen, from a picture; refused, left, taken.

use domain::command::Command;
use domain::contract::{Progress, Sent};
use domain::event::What;
use domain::handover::arrived::{LOOKS_MOST, NotLoaded, Source};
use domain::say::Say;
use domain::state::screen::Screen;
use domain::{Job, State, apply, decide, view, wanted};

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

fn after(state: &State, command: Command) -> State {
    let sent = Sent { card: state.card, command, values: Default::default(), stood_ms: None };
    let state = State { card_at: None, ..state.clone() };
    decide(&state, &sent, at(1)).unwrap().iter().fold(state, apply)
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

/// Leaving the card is what cancels: no worker is wanted any more, and what one brings late is not taken.
#[test]
fn a_picture_that_was_left_is_read_no_further_and_nothing_of_it_is_taken() {
    let reading = after(&asking(), Command::PictureHandedIn { bytes: 9 });
    assert_eq!((reading.screen, wanted(&reading)), (Screen::Reading, vec![Job::ReadPicture { load: 0 }]));
    let late = || Command::CodeRead { load: 0, outcome: Err(NotLoaded::NoCodeInPicture) };
    assert!(told(&reading, late(), "").is_ok(), "in time");
    for to in [Screen::Load { bed: None }, Screen::Beds] {
        let left = after(&reading, Command::Go(to));
        assert_eq!(wanted(&left), []);
        assert_eq!(told(&left, late(), ""), Err(None));
        assert_eq!(view(&left, at(1)).progress, None);
    }
    let again = after(
        &after(&reading, Command::Go(Screen::Load { bed: None })),
        Command::PictureHandedIn { bytes: 9 },
    );
    assert_eq!(wanted(&again), [Job::ReadPicture { load: 1 }]);
    assert_eq!(told(&again, late(), ""), Err(None), "of the picture before");
}

#[test]
fn how_far_the_looks_at_a_picture_are_stands_on_the_card_from_the_first() {
    let reading = after(&asking(), Command::PictureHandedIn { bytes: 9 });
    let none = Progress { label: Say::CodeLooks { done: 0, of: LOOKS_MOST }, done: 0, of: LOOKS_MOST };
    assert_eq!(view(&reading, at(1)).progress, Some(Box::new(none)));
    let sent = Sent {
        card: 0,
        command: Command::LoadTyped { bed: None },
        values: [("code".to_owned(), "HOLDFAST 1 en: ".to_owned())].into_iter().collect(),
        stood_ms: None,
    };
    let state = State { card_at: None, ..asking() };
    let typed = decide(&state, &sent, at(1)).unwrap().iter().fold(state, apply);
    assert_eq!(
        (typed.screen, view(&typed, at(1)).progress),
        (Screen::Reading, None),
        "a text is read at once"
    );
}
