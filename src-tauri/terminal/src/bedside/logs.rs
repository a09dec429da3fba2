//! What the session writes into its log goes into a file of the data folder, not among the cards.

use std::path::Path;

const FILE: &str = "bedside.log";

/// The log is turned aside until this is dropped.
pub struct Aside {
    #[cfg(unix)]
    before: std::os::fd::OwnedFd,
}

/// `None` where it cannot be: the log then goes on to where it went, and nothing of it is lost.
#[cfg(unix)]
pub fn aside(folder: &Path) -> Option<Aside> {
    use std::os::fd::AsFd as _;
    let file = std::fs::OpenOptions::new().create(true).append(true).open(folder.join(FILE));
    let turned = file.and_then(|file| {
        let before = std::io::stderr().as_fd().try_clone_to_owned()?;
        rustix::stdio::dup2_stderr(&file)?;
        Ok(Aside { before })
    });
    turned.inspect_err(|error| eprintln!("Holdfast: {FILE}: {error}")).ok()
}

#[cfg(not(unix))]
pub fn aside(_folder: &Path) -> Option<Aside> {
    None
}

#[cfg(unix)]
impl Drop for Aside {
    fn drop(&mut self) {
        if let Err(error) = rustix::stdio::dup2_stderr(&self.before) {
            eprintln!("Holdfast: the log stays in {FILE}: {error}");
        }
    }
}
