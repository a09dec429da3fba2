//! A file that lies beside another.

mod fault;

pub use fault::BesideFault;

use std::path::Path;

use practice::LARGEST_BYTES;

/// The text of the file of this name in the folder of `beside`.
///
/// # Errors
/// It cannot be read, or is larger than any recording.
pub fn read(beside: &Path, name: &str) -> Result<String, BesideFault> {
    let path = beside.with_file_name(name);
    let bytes = std::fs::metadata(&path).map_err(BesideFault::Unreadable)?.len();
    if usize::try_from(bytes).map_or(true, |bytes| bytes > LARGEST_BYTES) {
        return Err(BesideFault::TooLarge { bytes });
    }
    std::fs::read_to_string(path).map_err(BesideFault::Unreadable)
}
