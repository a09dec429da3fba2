//! What came of a PIN, of a file handed in, of a file to be written.

use super::{Decided, went};
use crate::event::What;
use crate::moment::Moment;
use crate::refusal::Refusal;
use crate::say::Say;
use crate::state::State;
use crate::state::screen::Screen;
use crate::teaching::ask::NotWritten;
use crate::teaching::educator::{Educator, Vouched};
use crate::teaching::paper::{Paper, Says};
use crate::teaching::pin::Tries;
use crate::teaching::place::Place;
use crate::teaching::taught::Taught;
use crate::teaching::{Kept, PinDone, ReadFile, Task, Wanted, Why, token_hash};

/// The card changes only where somebody waits for it: meanwhile a check may have been opened.
pub fn pin_done(state: &State, done: &PinDone, now: Moment) -> Decided {
    let wanted = state.teaching.wanted.as_ref().ok_or(Refusal::NotOpen)?;
    let (mut whats, next) = match done {
        PinDone::Wrong => ended(wanted, Why::Wrong),
        PinDone::Failed => ended(wanted, Why::NotDone),
        PinDone::Opened { token, locked } => {
            match opened(state, wanted, token.as_deref(), locked.as_deref(), now) {
                Some(opened) => opened,
                None => ended(wanted, Why::NotDone),
            }
        }
    };
    if state.screen == Screen::Teaching(Place::Working) {
        whats.push(What::Went(next));
    }
    Ok(whats)
}

fn ended(wanted: &Wanted, why: Why) -> (Vec<What>, Screen) {
    (vec![What::Taught(Taught::PinEnded { why })], wanted.back)
}

type Opened = Option<(Vec<What>, Screen)>;

fn opened(state: &State, wanted: &Wanted, token: Option<&str>, locked: Option<&str>, now: Moment) -> Opened {
    let (taught, next) = match &wanted.task {
        Task::Enrol { name, key } => {
            let added = educator(name, key, locked?, None, now);
            (vec![added], Place::Educator { at: after(state.teaching.educators.len()) })
        }
        Task::Sign { by, paper } => {
            let (mut taught, entry) = signed(state, *by, paper, token?)?;
            let (effect, next) = effect(state, paper, entry);
            taught.extend(effect);
            (taught, next)
        }
        Task::Renew { by, paper, place, key } => {
            let (mut taught, entry) = signed(state, *by, paper, token?)?;
            let vouched = Vouched::Educator { name: paper.educator.clone(), entry };
            let name = &state.teaching.educator(*place)?.name;
            taught.push(Taught::Renewed { educator: *place });
            taught.push(educator(name, key, locked?, Some(vouched), now));
            (taught, Place::Educator { at: after(state.teaching.educators.len()) })
        }
    };
    Some((taught.into_iter().map(What::Taught).collect(), Screen::Teaching(next)))
}

fn after(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

fn educator(name: &str, key: &str, locked: &str, vouched: Option<Vouched>, now: Moment) -> Taught {
    Taught::EducatorAdded(Box::new(Educator {
        name: name.to_owned(),
        key: key.to_owned(),
        locked: Some(locked.to_owned()),
        enrolled: now,
        retired: None,
        vouched,
        tries: Tries::default(),
    }))
}

/// The PIN was right, and the paper stands at this place.
fn signed(state: &State, by: u32, paper: &Paper, token: &str) -> Option<(Vec<Taught>, u32)> {
    let kept = Kept {
        paper: paper.clone(),
        key: state.teaching.educator(by)?.key.clone(),
        token: token.to_owned(),
        hash: token_hash(token)?,
        elsewhere: false,
        file: None,
    };
    let ends_draft = matches!(paper.says, Says::SignedOff(_));
    let entry = after(state.teaching.entries.len());
    Some((
        vec![Taught::PinRight { educator: by }, Taught::Signed { kept: Box::new(kept), ends_draft }],
        entry,
    ))
}

/// What the paper brings about here, and where it is shown.
fn effect(state: &State, paper: &Paper, entry: u32) -> (Option<Taught>, Place) {
    let Says::Vouched { key, .. } = &paper.says else { return (None, Place::Entry { at: entry }) };
    let vouched = Vouched::Educator { name: paper.educator.clone(), entry };
    let known = state.teaching.educators.iter().position(|educator| educator.key == *key);
    match known {
        Some(place) => {
            let at = after(place);
            (Some(Taught::Vouched { educator: at, vouched }), Place::Educator { at })
        }
        None => (from_elsewhere(state, vouched), Place::FileRead),
    }
}

/// Known from now on; signs on another tablet, since when only that one knows.
fn from_elsewhere(state: &State, vouched: Vouched) -> Option<Taught> {
    let read = state.teaching.read.as_ref()?;
    let enrolled = Moment {
        wall_ms: read.paper.enrolled_ms,
        offset_min: read.paper.offset_min,
        boot_ms: 0,
        boot: 0,
        fresh: [0; 16],
    };
    Some(Taught::EducatorAdded(Box::new(Educator {
        name: read.paper.educator.clone(),
        key: read.key.clone(),
        locked: None,
        enrolled,
        retired: None,
        vouched: Some(vouched),
        tries: Tries::default(),
    })))
}

/// A file that does not hold changes nothing, and what is wrong with it is said.
pub fn file_read(state: &State, file: &ReadFile) -> Decided {
    super::on(state, Place::NewFile)?;
    let said = |say| Err(Refusal::said(say));
    match file {
        ReadFile::Sound(read) => {
            Ok(vec![What::Taught(Taught::FileRead(read.clone())), went(Place::FileRead)])
        }
        ReadFile::TooLong => said(Say::SignedFileTooLong),
        ReadFile::NotOurs => said(Say::SignedFileNotOurs),
        ReadFile::Altered => said(Say::SignedFileAltered),
        ReadFile::Newer => said(Say::SignedFileNewer),
    }
}

pub fn file_written(state: &State, entry: u32, file: &Result<String, NotWritten>) -> Decided {
    state.teaching.entry(entry).ok_or(Refusal::NotOpen)?;
    Ok(vec![What::Taught(match file {
        Ok(file) => Taught::FileWritten { entry, file: file.clone() },
        Err(why) => Taught::FileNotWritten { entry, why: why.clone() },
    })])
}

/// A PIN that was being tried when the app ended is asked for again; its try stays counted.
pub fn started(state: &State, now: Moment) -> Vec<What> {
    let mut whats: Vec<What> = (0..)
        .zip(&state.teaching.educators)
        .filter_map(|(educator, one)| Some(Taught::WaitMoved { educator, tries: one.tries.moved_to(now)? }))
        .map(What::Taught)
        .collect();
    if let Some(wanted) = &state.teaching.wanted {
        whats.push(What::Taught(Taught::PinEnded { why: Why::CutOff }));
        if state.screen == Screen::Teaching(Place::Working) {
            whats.push(What::Went(wanted.back));
        }
    }
    whats
}
