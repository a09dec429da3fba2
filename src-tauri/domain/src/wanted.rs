//! Slow work, and work that needs what the domain may not hold: a worker of the session does it, and what comes
//! of it returns as a command. A job that is no longer wanted is cancelled.

use uuid::Uuid;

use crate::handover::arrived::Source;
use crate::handover::summary::Summary;
use crate::leaving::Writing;
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
    /// Files for the Exports folder.
    Write(Writing),
    /// Everything of this patient; by the session itself, which alone may write to the record.
    Erase { patient: Uuid },
    /// The backup that was read, in the place of this record; likewise.
    Restore,
}

/// What a worker is to do now.
pub fn wanted(state: &State) -> Vec<Job> {
    let key = state.own_key.wanted.then_some(Job::MakeKey);
    let writing = state.writing.clone().map(Job::Write);
    key.into_iter().chain(signing(state)).chain(reading(state)).chain(writing).chain(quietly(state)).collect()
}

/// What changes the record waits until no check is open: never in front of a dial card.
fn quietly(state: &State) -> Option<Job> {
    let erase = state.erasing.as_ref().map(|erasing| Job::Erase { patient: erasing.patient });
    let job = state.restoring.then_some(Job::Restore).or(erase)?;
    state.open_checks().next().is_none().then_some(job)
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
