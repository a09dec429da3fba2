//! Files of a wire, a backup, and the way back from one.

use super::pieces::{field, go, head, plain, wire_head};
use super::{Screenful, act, beds};
use crate::command::Command;
use crate::contract::{Act, Ask, FieldKind, Form, Head, Shape, Tone};
use crate::leaving::{BACKUP_KIND, NotRestorable, NotWritten, Writing, Written};
use crate::moment::{Moment, clock_text, date_text};
use crate::say::{Say, figure};
use crate::state::State;
use crate::state::screen::Screen;

pub fn export(state: &State, bed: u32, wire: u32, now: Moment) -> Screenful {
    let Some((found, this)) = state.bed(bed).zip(state.wire(bed, wire)) else {
        return beds::beds(state, now);
    };
    let ours = |writing: &Writing| matches!(writing, Writing::Files { bed: b, wire: w, .. } if (*b, *w) == (bed, wire));
    let (question, lines) = match (&state.writing, &state.written) {
        (Some(writing), _) if ours(writing) => (Say::FilesBeingWritten, vec![Say::WritingGoesOn]),
        (_, Some((writing, Written::At(place)))) if ours(writing) => {
            (Say::FilesWritten, vec![Say::LieHere, path(place), Say::FilesNote])
        }
        (_, Some((writing, Written::Not(why)))) if ours(writing) => {
            (Say::NothingWritten, vec![not_written(*why)])
        }
        _ => (Say::FilesAsk, vec![Say::FilesLine, Say::FilesNote]),
    };
    let again = ("export", first_or_again(&question, Say::ExportDone), Command::Export { bed, wire });
    let answers = answers(state, Screen::History { bed, wire }, again);
    asking(wire_head(found, this, Say::ScreenExport, now), question, lines, answers)
}

pub fn backup(state: &State, now: Moment) -> Screenful {
    let ours = |writing: &Writing| matches!(writing, Writing::Backup { .. });
    let (question, lines) = match (&state.writing, &state.written) {
        (Some(writing), _) if ours(writing) => (Say::BackupBeingWritten, vec![Say::WritingGoesOn]),
        (_, Some((writing, Written::At(place)))) if ours(writing) => {
            (Say::BackupWritten, vec![Say::LiesHere, path(place), Say::BackupNote])
        }
        (_, Some((writing, Written::Not(why)))) if ours(writing) => {
            (Say::NothingWritten, vec![not_written(*why)])
        }
        _ => (Say::BackupAsk, vec![Say::BackupLine, Say::BackupNote]),
    };
    let again = ("back-up", first_or_again(&question, Say::BackupDone), Command::BackUp);
    asking(head(Say::BackupName, now), question, lines, answers(state, Screen::Erase, again))
}

/// It may be broken after each folder, and nowhere in a name.
fn path(place: &str) -> Say {
    figure(place.replace('/', "/\u{200b}"))
}

/// What is written need not be written again: the way on is back.
fn first_or_again(question: &Say, first: Say) -> Say {
    if matches!(question, Say::FilesWritten | Say::BackupWritten) { Say::WriteAgain } else { first }
}

/// Nothing is asked for anew while files are being written.
fn answers(
    state: &State,
    back: Screen,
    (key, label, command): (&'static str, Say, Command),
) -> Vec<Act<Say>> {
    let tone = if label == Say::WriteAgain { Tone::Strong } else { Tone::Good };
    let back = go("back", Say::Back, Tone::Strong, back);
    let again = state.writing.is_none().then(|| act(key, label, tone, command));
    [Some(back), again].into_iter().flatten().collect()
}

fn not_written(why: NotWritten) -> Say {
    match why {
        NotWritten::DiskFull => Say::NotWrittenFull,
        NotWritten::Refused => Say::NotWrittenRefused,
        NotWritten::NotMade => Say::NotWrittenNotMade,
    }
}

/// On a tablet that holds nothing.
pub fn restore(state: &State, now: Moment) -> Screenful {
    let lines = vec![Say::RestoreFileLine];
    let fields = vec![field(BACKUP_KIND, Say::BackupFileField, FieldKind::File, 0)];
    let form = Form { question: Say::RestoreFile, lines, fields };
    Screenful {
        answers: vec![go("back", Say::Back, Tone::Strong, Screen::Erase)],
        notice: state.not_restored.map(not_restored),
        ..plain(head(Say::BackupName, now), Shape::Form(form), Say::RestoreFile)
    }
}

/// What the file holds, before anything is replaced.
pub fn restorable(state: &State, now: Moment) -> Screenful {
    let Some(read) = &state.restorable else { return restore(state, now) };
    let mut lines = vec![
        Say::RestorableHolds { entries: read.entries.to_string(), beds: read.beds },
        Say::RestorableUntil {
            date: date_text(read.last_ms, read.offset_min),
            time: clock_text(read.last_ms, read.offset_min),
        },
    ];
    lines.extend(read.is_ahead_of(now).then_some(Say::RestorableAhead));
    lines.push(Say::RestorableUnsigned);
    let answers = vec![
        go("back", Say::RestoreNo, Tone::Strong, Screen::Restore),
        act("restore", Say::RestoreYes, Tone::Good, Command::Restore),
    ];
    asking(head(Say::BackupName, now), Say::RestorableAsk, lines, answers)
}

fn asking(head: Head<Say>, question: Say, lines: Vec<Say>, answers: Vec<Act<Say>>) -> Screenful {
    let ask =
        Ask { question: question.clone(), lines, reason: None, watch: None, scale: None, others: Vec::new() };
    Screenful { answers, ..plain(head, Shape::Ask(ask), question) }
}

/// What stands against a file, and that nothing was changed.
pub fn not_restored(why: NotRestorable) -> Say {
    match why {
        NotRestorable::NotABackup => Say::NotABackup,
        NotRestorable::Newer => Say::BackupNewer,
        NotRestorable::CutShort => Say::BackupCutShort,
        NotRestorable::TooLong => Say::BackupTooLong,
        NotRestorable::Altered => Say::BackupAltered,
        NotRestorable::DoesNotHold => Say::BackupDoesNotHold,
        NotRestorable::DiskFull => Say::BackupNoRoom,
        NotRestorable::Refused => Say::BackupRefused,
    }
}
