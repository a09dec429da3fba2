//! Writes what the record holds of patients into files of a folder.

use std::fmt::Display;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use domain::State;
use domain::command::Language;
use domain::leaving::Way;
use domain::say::Say;
use export::{Between, Care};
use journal::disk;
use session::OpenFault;

use crate::spoken::spoken;
use crate::verify::said;

/// Reads the record in `folder`, verifies all of it, and writes `checks.csv`, `between.csv` (changes of box and
/// battery, transports), `bundle.json` (FHIR R4) and, for the newest check of each wire, `bed-B-wire-W.pdf` into
/// `into`: all of them or none. A file that is there already is not written over. The record says that they left,
/// before they have their names.
///
/// # Errors
/// The sentence that says which file was not written, and why; also beside a running app.
pub fn export(folder: &Path, into: &Path) -> Result<Vec<PathBuf>, String> {
    let state = session::read(folder).map_err(|fault| said(&OpenFault::Record(fault), folder))?;
    let files = files(&state)?;
    let new = disk::missing(into);
    let made = std::fs::create_dir_all(into).map_err(|error| not_written(into, &error));
    let written = made.and_then(|()| all_or_none(folder, into, files));
    if written.is_err() {
        new.iter().for_each(|folder| disk::remove_empty(folder));
    }
    written
}

fn all_or_none(folder: &Path, into: &Path, files: Vec<(String, Vec<u8>)>) -> Result<Vec<PathBuf>, String> {
    let files: Vec<(PathBuf, Vec<u8>)> =
        files.into_iter().map(|(name, bytes)| (into.join(name), bytes)).collect();
    if let Some((taken, _)) = files.iter().find(|(file, _)| file.exists()) {
        return Err(spoken(&Say::ExportTaken { file: taken.display().to_string() }));
    }
    let files: Vec<New> = files.into_iter().map(|(file, bytes)| New::of(file, bytes)).collect();
    let recorded = || session::record_leaving(folder, Way::Files).map_err(|fault| said(&fault, folder));
    let written = files.iter().try_for_each(New::write).and_then(|()| recorded());
    let written = written.and_then(|()| files.iter().try_for_each(New::name));
    if let Err(said) = written {
        files.iter().for_each(New::take_away);
        return Err(said);
    }
    Ok(files.into_iter().map(|new| new.file).collect())
}

/// A file that gets its name once all of them are whole.
struct New {
    file: PathBuf,
    half: PathBuf,
    bytes: Vec<u8>,
}

impl New {
    fn of(file: PathBuf, bytes: Vec<u8>) -> New {
        let mut half = file.clone().into_os_string();
        half.push(".half");
        New { file, half: half.into(), bytes }
    }

    fn write(&self) -> Result<(), String> {
        // One that is there was left by an export that died.
        let written = disk::remove(&self.half).and_then(|()| disk::put(&self.half, &self.bytes));
        written.map_err(|error| not_written(&self.file, &error))
    }

    fn name(&self) -> Result<(), String> {
        disk::name(&self.half, &self.file).map_err(|error| not_written(&self.file, &error))
    }

    /// None of them was there before.
    fn take_away(&self) {
        for place in [&self.half, &self.file] {
            if let Err(error) = disk::remove(place) {
                eprintln!("{}", not_written(place, &error));
            }
        }
    }
}

/// Every file before any is written.
fn files(state: &State) -> Result<Vec<(String, Vec<u8>)>, String> {
    let wires = || state.beds.iter().flat_map(|bed| bed.wires.iter().map(move |wire| (bed, wire)));
    let checks: Vec<Care<'_>> = wires().flat_map(|(_, wire)| Care::of_wire(wire)).collect();
    let between: Vec<Between<'_>> = state.beds.iter().flat_map(|bed| Between::of_bed(state, bed)).collect();
    let (table, second, bundle) = ("checks.csv", "between.csv", "bundle.json");
    let csv = export::csv(&checks).map_err(|fault| failed(Path::new(table), &format!("{fault:?}")))?;
    let rest =
        export::between_csv(&between).map_err(|fault| failed(Path::new(second), &format!("{fault:?}")))?;
    let fhir = export::bundle(&checks, &between);
    let fhir = fhir.map_err(|fault| failed(Path::new(bundle), &format!("{fault:?}")))?;
    let fhir = format!("{fhir:#}\n").into_bytes();
    let mut files = vec![(table.to_owned(), csv), (second.to_owned(), rest), (bundle.to_owned(), fhir)];
    for (bed, wire) in wires() {
        let Some(newest) = Care::of_wire(wire).pop() else { continue };
        let name = format!("bed-{}-wire-{}.pdf", bed.id, wire.id);
        let page = export::pdf(state, &newest, Language::English);
        let page = page.map_err(|fault| failed(Path::new(&name), &format!("{fault:?}")))?;
        files.push((name, page));
    }
    Ok(files)
}

/// What stood against it, in the sentence that any file which leaves is told by.
pub(crate) fn not_written(file: &Path, error: &std::io::Error) -> String {
    let kind = error.kind();
    if matches!(kind, ErrorKind::StorageFull | ErrorKind::QuotaExceeded) {
        no_room(file)
    } else if matches!(kind, ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem) {
        failed(file, &spoken(&Say::FolderTakesNone))
    } else {
        failed(file, error)
    }
}

pub(crate) fn no_room(file: &Path) -> String {
    failed(file, &spoken(&Say::NotWrittenFull))
}

fn failed(file: &Path, why: &impl Display) -> String {
    spoken(&Say::ExportFailed { file: file.display().to_string(), why: why.to_string() })
}
