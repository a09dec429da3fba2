//! `signoff verify FILE [DIR]`: is a signed file unchanged, who signed, and does the tablet of DIR know them?

use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use domain::contract::Shape;
use domain::event::What;
use domain::moment::Moment;
use domain::say::Say;
use domain::state::screen::Screen;
use domain::teaching::place::Place;
use domain::teaching::taught::Taught;
use domain::teaching::{Read, ReadFile};
use domain::{Event, State, apply, view};
use session::{Clock as _, OpenFault, SystemClock};

use crate::spoken::spoken;
use crate::verify::said;

/// Longer than any signed file; the rest of one that is longer is not read.
const MOST_BYTES: u64 = 65_536;

/// What the app's own screen says of the file, line by line.
///
/// # Errors
/// The sentence that says what is wrong with the file, or with the folder.
pub fn verify(file: &Path, folder: Option<&Path>) -> Result<String, String> {
    let bytes = bytes(file).map_err(|error| format!("{}: {error}", file.display()))?;
    let known = match folder {
        Some(folder) => session::read(folder).map_err(|fault| said(&OpenFault::Record(fault), folder))?,
        None => State::default(),
    };
    match signoff::read(&bytes) {
        ReadFile::Sound(read) => shown(known, *read),
        ReadFile::TooLong => Err(spoken(&Say::SignedFileTooLong)),
        ReadFile::NotOurs => Err(spoken(&Say::SignedFileNotOurs)),
        ReadFile::Altered => Err(spoken(&Say::SignedFileAltered)),
        ReadFile::Newer => Err(spoken(&Say::SignedFileNewer)),
    }
}

fn bytes(file: &Path) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(file)?.take(MOST_BYTES).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The same card as on a tablet.
fn shown(known: State, read: Read) -> Result<String, String> {
    let now = now()?;
    let read = What::Taught(Taught::FileRead(Box::new(read)));
    let went = What::Went(Screen::Teaching(Place::FileRead));
    let state = [read, went].into_iter().fold(known, |state, what| apply(state, &Event { at: now, what }));
    let view = view(&state, now);
    let Shape::Result(outcome) = view.shape else { return Err(spoken(&Say::NotTaken)) };
    let rows = outcome.rows.iter().map(|row| {
        let note = row.note.as_ref().map(|note| format!(" ({})", spoken(note))).unwrap_or_default();
        format!("{}: {}{note}", spoken(&row.label), spoken(&row.value))
    });
    let marks = view.marks.iter().filter(|mark| **mark == Say::MarkPractice).map(spoken);
    let lines = outcome.note.iter().map(spoken).chain(marks).chain([spoken(&outcome.headline)]);
    Ok(lines.chain(rows).chain(outcome.flags.iter().map(spoken)).collect::<Vec<_>>().join("\n"))
}

fn now() -> Result<Moment, String> {
    let clock = SystemClock::new().map_err(|_| spoken(&Say::RecordNoClock))?;
    let at = clock.read();
    Ok(Moment {
        wall_ms: at.wall_ms,
        offset_min: at.offset_min,
        boot_ms: at.boot_ms,
        boot: at.boot,
        fresh: [0; 16],
    })
}
