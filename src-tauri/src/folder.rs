//! Which folder holds the journal: `--data FOLDER`, else `HOLDFAST_DATA`, else the platform's own.

use std::ffi::OsString;
use std::path::PathBuf;

use domain::say::Say;

/// A command line that asks for something else.
#[derive(Debug, PartialEq, Eq)]
pub enum Misasked {
    /// `--data` without a folder after it.
    NoFolder,
    /// An argument that is not known.
    Unknown(OsString),
}

impl Misasked {
    pub fn say(&self) -> Say {
        match self {
            Misasked::NoFolder => Say::DataNeedsFolder,
            Misasked::Unknown(argument) => {
                Say::ArgumentUnknown { argument: argument.to_string_lossy().into_owned() }
            }
        }
    }
}

/// The folder named by the person who started the app, if one was named.
pub fn named(
    mut arguments: impl Iterator<Item = OsString>,
    environment: Option<OsString>,
) -> Result<Option<PathBuf>, Misasked> {
    let mut folder = environment.filter(|text| !text.is_empty());
    while let Some(argument) = arguments.next() {
        if argument != "--data" {
            return Err(Misasked::Unknown(argument));
        }
        folder = Some(arguments.next().ok_or(Misasked::NoFolder)?);
    }
    Ok(folder.map(PathBuf::from))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ask(arguments: &[&str], environment: Option<&str>) -> Result<Option<PathBuf>, Misasked> {
        named(arguments.iter().map(OsString::from), environment.map(OsString::from))
    }

    #[test]
    fn the_command_line_is_stronger_than_the_environment() {
        assert_eq!(ask(&["--data", "/a"], Some("/b")), Ok(Some(PathBuf::from("/a"))));
        assert_eq!(ask(&[], Some("/b")), Ok(Some(PathBuf::from("/b"))));
    }

    #[test]
    fn an_empty_name_names_no_folder() {
        assert_eq!(ask(&[], Some("")), Ok(None));
        assert_eq!(ask(&[], None), Ok(None));
    }

    #[test]
    fn what_is_not_known_is_refused_by_name() {
        assert_eq!(ask(&["--data"], None), Err(Misasked::NoFolder));
        assert_eq!(ask(&["--dta", "/a"], None), Err(Misasked::Unknown("--dta".into())));
    }
}
