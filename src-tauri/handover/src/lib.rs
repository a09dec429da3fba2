//! The handover of one wire: what the last check found and where the dials stay, so that another team can set
//! it against the real dials.
//!
//! One [`Summary`] is written in two ways: as plain signed lines that any phone shows ([`lines`]), and as a
//! compact signed copy for another tablet, with the checks before ([`copy`]). [`load`] takes both back and
//! accepts no other form of either. No name and no record number is in them; a signature names a tablet.

mod arriving;
pub mod copy;
pub mod lines;
mod load;
mod making;
mod picture;
mod typed;

pub use arriving::{Here, from_codes, from_text};

pub use domain::handover::arrived::{Form, Remark};
pub use domain::handover::drawing::{Drawing, Level, MOST_VERSION_COPY, MOST_VERSION_LINES, draw};
pub use domain::handover::figure::Figure;
pub use domain::handover::stamp::{Minute, Place};
pub use domain::handover::summary::{
    Capture, Check, DialsAt, MOST_CHECKS, Mention, Next, NoSummary, Origin, OwnBeats, Sensing, Summary,
    WireFacts,
};
pub use load::{Identity, Loaded, MOST_BYTES, Outcome, Refused, Tablet, load};
pub use making::{made, tablet_of};
pub use picture::codes as codes_in_picture;
pub use typed::as_written;
