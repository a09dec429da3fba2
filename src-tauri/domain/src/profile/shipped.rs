//! The generators that come with Holdfast: inventions of this project, none after a product.

use super::{Profile, ProfileFault};

/// A file under scenarios/generators, embedded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shipped {
    pub file: &'static str,
    pub text: &'static str,
}

macro_rules! embedded {
    ($($file:literal),* $(,)?) => {
        [$(Shipped { file: $file, text: include_str!(concat!("../../../../scenarios/generators/", $file)) }),*]
    };
}

const FILES: [Shipped; 4] =
    embedded!["fine-current.json", "coarse-current.json", "mixed-current.json", "volts.json"];

/// In the order in which they are offered.
pub fn shipped() -> Result<Vec<Profile>, (&'static str, ProfileFault)> {
    FILES.iter().map(|file| Profile::from_json(file.text).map_err(|fault| (file.file, fault))).collect()
}
