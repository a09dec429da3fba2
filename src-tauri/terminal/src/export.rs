//! Writes what the record holds of patients into files of a folder.

use std::fs::OpenOptions;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use domain::State;
use domain::command::Language;
use export::Care;
use session::OpenFault;

use crate::verify::said;

/// Reads the record in `folder`, verifies all of it, and writes `checks.csv`, `bundle.json` (FHIR R4) and, for the
/// newest check of each wire, `bed-B-wire-W.pdf` into `into`. A file that is there already is not written over.
///
/// # Errors
/// The sentence that says what was not written, and why.
pub fn export(folder: &Path, into: &Path) -> Result<Vec<PathBuf>, String> {
    let state = session::read(folder).map_err(|fault| said(&OpenFault::Record(fault)))?;
    std::fs::create_dir_all(into).map_err(|error| format!("{}: {error}", into.display()))?;
    let mut files = files(&state)?;
    files.iter_mut().for_each(|(name, _)| *name = into.join(&*name));
    if let Some((taken, _)) = files.iter().find(|(file, _)| file.exists()) {
        return Err(format!("{} is there already. Nothing was written.", taken.display()));
    }
    files.into_iter().map(|(file, bytes)| write_new(&file, &bytes).map(|()| file)).collect()
}

/// Every file before any is written.
fn files(state: &State) -> Result<Vec<(PathBuf, Vec<u8>)>, String> {
    let wires = || state.beds.iter().flat_map(|bed| bed.wires.iter().map(move |wire| (bed, wire)));
    let checks: Vec<Care<'_>> = wires().flat_map(|(_, wire)| Care::of_wire(wire)).collect();
    let csv = export::csv(&checks).map_err(|fault| format!("No CSV: {fault:?}."))?;
    let bundle = export::bundle(&checks).map_err(|fault| format!("No FHIR bundle: {fault:?}."))?;
    let mut files = vec![("checks.csv".into(), csv), ("bundle.json".into(), format!("{bundle:#}\n").into_bytes())];
    for (bed, wire) in wires() {
        let Some(newest) = Care::of_wire(wire).pop() else { continue };
        let name = format!("bed-{}-wire-{}.pdf", bed.id, wire.id);
        let page = export::pdf(state, &newest, Language::English);
        files.push((name.clone().into(), page.map_err(|fault| format!("No {name}: {fault:?}."))?));
    }
    Ok(files)
}

fn write_new(file: &Path, bytes: &[u8]) -> Result<(), String> {
    let fault = |error: std::io::Error| format!("{}: {error}", file.display());
    let mut opened = OpenOptions::new().write(true).create_new(true).open(file).map_err(fault)?;
    opened.write_all(bytes).and_then(|()| opened.sync_all()).map_err(fault)
}
