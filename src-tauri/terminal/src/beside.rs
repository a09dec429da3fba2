//! A file that lies beside another.

use std::path::Path;

use practice::LARGEST_BYTES;

/// The text of the file of this name in the folder of `beside`.
///
/// # Errors
/// It cannot be read, or is larger than any recording.
pub fn read(beside: &Path, name: &str) -> Result<String, String> {
    let path = beside.with_file_name(name);
    let bytes = std::fs::metadata(&path).map_err(|error| error.to_string())?.len();
    if usize::try_from(bytes).map_or(true, |bytes| bytes > LARGEST_BYTES) {
        return Err(format!("{bytes} bytes; {LARGEST_BYTES} are allowed"));
    }
    std::fs::read_to_string(path).map_err(|error| error.to_string())
}
