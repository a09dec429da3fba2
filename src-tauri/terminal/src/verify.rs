//! Verifies a whole record without writing to it, also beside a running app.

use std::path::Path;

use domain::command::Language;
use domain::say::Say;
use session::OpenFault;

use crate::spoken::spoken;

/// Reads the record in `folder` from its beginning: what holds, in a sentence, or what does not.
///
/// # Errors
/// The sentence that says what does not hold, and who does what next.
pub fn verify(folder: &Path) -> Result<String, String> {
    match session::verify(folder) {
        Ok(verified) => {
            let (entries, erased) = (verified.head.seq.to_string(), verified.erased.to_string());
            Ok(spoken(&Say::RecordHolds { folder: folder.display().to_string(), entries, erased }))
        }
        Err(fault) => Err(said(&OpenFault::Record(fault), folder)),
    }
}

/// A fault below the check, in the app's own words.
pub fn said(fault: &OpenFault, folder: &Path) -> String {
    words::say(&fault.say(folder), Language::English).unwrap_or_else(|unsaid| format!("{fault} ({unsaid})"))
}
