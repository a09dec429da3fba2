//! Slow work, and work that needs what the domain may not hold: a worker of the session does it, and what comes
//! of it returns as a command. A job that is no longer wanted is cancelled.

use crate::handover::arrived::Source;
use crate::handover::summary::Summary;
use crate::state::State;
use crate::state::screen::Screen;

#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Job {
    /// A key for this tablet, kept in a file of its own.
    MakeKey,
    /// The codes of this wire, signed.
    Sign { bed: u32, wire: u32 },
    /// The code being loaded, from its text.
    ReadText { load: u32, text: String },
    /// The code being loaded, from a picture that the session holds.
    ReadPicture { load: u32 },
}

/// What a worker is to do now.
pub fn wanted(state: &State) -> Vec<Job> {
    let key = state.own_key.wanted.then_some(Job::MakeKey);
    key.into_iter().chain(signing(state)).chain(reading(state)).collect()
}

fn signing(state: &State) -> Option<Job> {
    let (Screen::Code { bed, wire } | Screen::CodeCopy { bed, wire }) = state.screen else { return None };
    let may = Summary::last(state.wire(bed, wire)?).is_ok();
    (state.code_wanted && may && state.own_key.is_there()).then_some(Job::Sign { bed, wire })
}

fn reading(state: &State) -> Option<Job> {
    let loading = state.loading.as_ref().filter(|loading| loading.outcome.is_none())?;
    let load = loading.id;
    Some(match &loading.source {
        Source::Typed(text) | Source::Seen(text) => Job::ReadText { load, text: text.clone() },
        Source::Picture(_) => Job::ReadPicture { load },
    })
}
