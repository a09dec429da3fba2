//! The handover of one wire: what the last check found and where the dials stay, so that another team can set
//! it against the real dials.
//!
//! One [`Summary`] is written in two ways: as plain signed lines that any phone shows ([`lines`]), and as a
//! compact signed copy for another tablet, with the checks before ([`copy`]). [`load`] takes both back and
//! accepts no other form of either. No name and no record number is in them; a signature names a tablet.

pub mod copy;
mod drawing;
mod figure;
pub mod lines;
mod load;
mod stamp;
mod summary;
mod typed;

pub use drawing::{Drawing, Level, MOST_VERSION_COPY, MOST_VERSION_LINES, draw};
pub use figure::Figure;
pub use load::{Form, Identity, Loaded, MOST_BYTES, Outcome, Refused, Remark, Tablet, load};
pub use stamp::{Minute, Place};
pub use summary::{
    Capture, Check, DialsAt, MOST_CHECKS, Mention, Next, NoSummary, Origin, OwnBeats, Sensing, Summary,
    WireFacts,
};
pub use typed::as_written;
