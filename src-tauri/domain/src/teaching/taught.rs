//! What has happened with educators and sign-off, as results, and the fold of it. No entry is ever removed.

use serde::{Deserialize, Serialize};

use super::ask::NotWritten;
use super::draft::Draft;
use super::educator::{Educator, Vouched};
use super::item::Item;
use super::paper::Marked;
use super::pin::Tries;
use super::{Kept, Read, Teaching, Tried, Wanted, Why};
use crate::moment::Moment;
use crate::state::screen::Screen;

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Taught {
    /// A PIN is tried for this. It counts as wrong until it proves right.
    PinTried {
        wanted: Box<Wanted>,
        tries: Option<(u32, Tries)>,
    },
    /// It came to nothing.
    PinEnded {
        why: Why,
    },
    PinRight {
        educator: u32,
    },
    /// The wait counts on in a new boot.
    WaitMoved {
        educator: u32,
        tries: Tries,
    },
    EducatorAdded(Box<Educator>),
    Vouched {
        educator: u32,
        vouched: Vouched,
    },
    /// `educator` has a new key and PIN in the place after the last.
    Renewed {
        educator: u32,
    },
    Begun(Box<Draft>),
    LearnerNamed {
        learner: String,
    },
    Marked {
        item: Item,
        mark: Option<Marked>,
    },
    DraftPutAside,
    /// A signed paper; the draft it was made of has done its work.
    Signed {
        kept: Box<Kept>,
        ends_draft: bool,
    },
    FileWritten {
        entry: u32,
        file: String,
    },
    FileNotWritten {
        entry: u32,
        why: NotWritten,
    },
    FileRead(Box<Read>),
}

pub fn happen(teaching: &mut Teaching, taught: &Taught, at: Moment) {
    match taught {
        Taught::PinTried { wanted, tries } => {
            teaching.wanted = Some((**wanted).clone());
            teaching.tried = None;
            if let Some((educator, tries)) = tries {
                with(teaching, *educator, |educator| educator.tries = *tries);
            }
        }
        Taught::PinEnded { why } => {
            teaching.tried = teaching.wanted.take().map(|wanted| Tried { wanted, why: *why });
        }
        Taught::PinRight { educator } => {
            teaching.wanted = None;
            with(teaching, *educator, |educator| educator.tries = Tries::default());
        }
        Taught::WaitMoved { educator, tries } => {
            with(teaching, *educator, |educator| educator.tries = *tries);
        }
        Taught::EducatorAdded(educator) => {
            teaching.wanted = None;
            teaching.educators.push((**educator).clone());
        }
        Taught::Vouched { educator, vouched } => {
            with(teaching, *educator, |educator| educator.vouched = Some(vouched.clone()));
        }
        Taught::Renewed { educator } => with(teaching, *educator, |educator| educator.retired = Some(at)),
        Taught::Begun(_) | Taught::LearnerNamed { .. } | Taught::Marked { .. } | Taught::DraftPutAside => {
            draft(&mut teaching.draft, taught);
        }
        Taught::Signed { kept, ends_draft } => {
            teaching.wanted = None;
            teaching.entries.push((**kept).clone());
            teaching.draft = teaching.draft.take().filter(|_| !ends_draft);
        }
        Taught::FileWritten { entry, file } => {
            teaching.not_written = None;
            if let Some(kept) = teaching.entries.get_mut(*entry as usize) {
                kept.file = Some(file.clone());
            }
        }
        Taught::FileNotWritten { entry, why } => teaching.not_written = Some((*entry, why.clone())),
        Taught::FileRead(read) => teaching.read = Some((**read).clone()),
    }
}

fn draft(draft: &mut Option<Draft>, taught: &Taught) {
    match (taught, draft.as_mut()) {
        (Taught::Begun(begun), _) => *draft = Some((**begun).clone()),
        (Taught::DraftPutAside, _) => *draft = None,
        (Taught::LearnerNamed { learner }, Some(draft)) => draft.learner.clone_from(learner),
        (Taught::Marked { item, mark }, Some(draft)) => draft.put(*item, mark.clone()),
        _ => {}
    }
}

/// What was tried stands on the card it was tried on, and nowhere else.
pub fn went(teaching: &mut Teaching, screen: Screen) {
    teaching.tried = teaching.tried.take().filter(|tried| tried.wanted.back == screen);
    if teaching.wanted.is_none() && !is_about_the_file(screen) {
        teaching.read = None;
    }
}

fn is_about_the_file(screen: Screen) -> bool {
    use super::place::Place;
    matches!(screen, Screen::Teaching(Place::FileRead | Place::FileVouch | Place::Working))
}

fn with(teaching: &mut Teaching, educator: u32, change: impl FnOnce(&mut Educator)) {
    if let Some(educator) = teaching.educators.get_mut(educator as usize) {
        change(educator);
    }
}
