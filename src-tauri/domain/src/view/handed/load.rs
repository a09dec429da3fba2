//! The card that asks for a code, and the one that waits for it.

use crate::command::Command;
use crate::contract::{Ask, Choice, Field, FieldKind, Form, Progress, Shape, Tone};
use crate::handover::arrived::{LOOKS_MOST, Loading, MEGAPIXELS_MOST, NotLoaded};
use crate::moment::Moment;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::view::pieces::{bed_head, field, go, head, plain};
use crate::view::{Screenful, act_with_fields};

/// The kind under which the page hands a picture in: `session` knows it by the same name.
pub const PICTURE_FIELD: &str = "handover-picture";
/// The kind under which a picture of the camera goes in.
pub const CAMERA_FIELD: &str = "handover-camera";
/// Longer input is answered in words.
const CODE_LETTERS: usize = 4_096;

pub fn load(state: &State, bed: Option<u32>, now: Moment) -> Screenful {
    let form = Form {
        question: Say::LoadTitle,
        lines: vec![Say::LoadLine],
        fields: vec![
            field("code", Say::CodeField, FieldKind::Lines, CODE_LETTERS),
            field(PICTURE_FIELD, Say::LoadPicture, FieldKind::File, 0),
            camera(),
        ],
    };
    let back = bed.map_or(Screen::Beds, |bed| Screen::Bed { bed });
    let head = bed
        .and_then(|bed| state.bed(bed))
        .map_or_else(|| head(Say::PacingChecks, now), |bed| bed_head(bed, now));
    Screenful {
        answers: vec![
            go("back", Say::Back, Tone::Plain, back),
            act_with_fields("load", Say::LoadDone, Tone::Good, Command::LoadTyped { bed }),
        ],
        notice: refused(state),
        ..plain(head, Shape::Form(form), Say::LoadTitle)
    }
}

/// With the words for a tablet that gives no camera.
fn camera() -> Field<Say> {
    let none = Choice { value: String::new(), label: Say::NoCamera, chosen: false, act: None };
    Field { choices: vec![none], ..field(CAMERA_FIELD, Say::LoadCamera, FieldKind::Camera, 0) }
}

/// Why nothing was taken of the last one.
fn refused(state: &State) -> Option<Say> {
    let outcome = state.loading.as_ref()?.outcome.as_ref()?;
    outcome.as_ref().err().map(|why| not_loaded(*why))
}

fn not_loaded(why: NotLoaded) -> Say {
    match why {
        NotLoaded::NotACode => Say::NotLoadedNotACode,
        NotLoaded::TooLong => Say::NotLoadedTooLong,
        NotLoaded::Damaged => Say::NotLoadedDamaged,
        NotLoaded::Mangled => Say::NotLoadedMangled,
        NotLoaded::Altered => Say::NotLoadedAltered,
        NotLoaded::NewerVersion => Say::NotLoadedNewerVersion,
        NotLoaded::Practice => Say::NotLoadedPractice,
        NotLoaded::Care => Say::NotLoadedCare,
        NotLoaded::NotAPicture => Say::NotLoadedNotAPicture,
        NotLoaded::PictureTooLarge { megapixels } => {
            Say::NotLoadedPictureTooLarge { megapixels, most: MEGAPIXELS_MOST }
        }
        NotLoaded::PictureTooLong => Say::NotLoadedPictureTooLong,
        NotLoaded::NoCodeInPicture => Say::NotLoadedNoCode,
        NotLoaded::Interrupted => Say::NotLoadedInterrupted,
    }
}

/// Leaving ends it.
pub fn reading(state: &State, now: Moment) -> Screenful {
    let ask = Ask {
        question: Say::CodeReadingTitle,
        lines: vec![Say::CodeReadingLine],
        reason: None,
        watch: None,
        scale: None,
        others: Vec::new(),
    };
    let bed = state.loading.as_ref().and_then(|loading| loading.bed);
    Screenful {
        answers: vec![go("stop-reading", Say::StopReading, Tone::Strong, Screen::Load { bed })],
        ..plain(head(Say::PacingChecks, now), Shape::Ask(ask), Say::CodeReadingTitle)
    }
}

/// Before the first look.
pub fn progress(state: &State) -> Option<Progress<Say>> {
    let looks =
        state.screen == Screen::Reading && state.loading.as_ref().is_some_and(Loading::looks_at_picture);
    looks.then(|| looked(0, LOOKS_MOST))
}

/// So many looks of so many are done: the worker counts them.
pub fn looked(done: u32, of: u32) -> Progress<Say> {
    Progress { label: Say::CodeLooks { done, of }, done, of }
}

/// Back to the card that asks for a code.
pub fn load_again(state: &State) -> Screen {
    Screen::Load { bed: state.loading.as_ref().and_then(|loading| loading.bed) }
}
