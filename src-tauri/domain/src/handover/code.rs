//! The codes of one wire as they were made: finished texts, signed by this tablet.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::tablet::Tablet;
use crate::moment::Moment;

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MadeCode {
    pub at: Moment,
    /// The newest check in it.
    pub check: Uuid,
    pub tablet: Tablet,
    /// Signed lines that any phone shows; `None` when even the shortest are too long for one code.
    pub lines: Option<String>,
    /// For another tablet, with the checks before.
    pub copy: Option<String>,
}

impl MadeCode {
    /// The readable lines without the signature below them.
    pub fn readable(&self) -> Vec<&str> {
        let lines = self.lines.as_deref().unwrap_or_default();
        let text = lines.rsplit_once('\n').map_or("", |(text, _)| text);
        text.lines().collect()
    }
}
